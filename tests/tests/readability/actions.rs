//! One action a sentence: no sentence that asks for something asks for a second thing.

use hearthdose_ui::text::Language;

use super::{everything, said};

/// What people are asked to do, as a sentence begins.
const ENGLISH: &str = "add answer ask begin bring boil call carry choose close compare count cover crush cut do fetch fill fetch get \
    give go have hold keep lay let look make measure mix open press print put read scan set shake show sit start stay step stir stop \
    skip swallow take tell throw tick tilt try turn type update use wait wash wear weigh write";
const SPANISH: &str = "abra acerque actualice añada anote apriete aplaste aparte apártelo búsquela busque compare conteste copie cuéntelas \
    cuente cubra dé dela désela deje diga échelo elija empiece escanee escriba escríbalo espere guarde guárdelo haga hierva llame lave lea \
    llene lleve llévelo marque mezcle mida mire muestre pese ponga póngala póngalo pregunte pruebe pida recoja recorte revuelva saque siga \
    suba súmelos tape tome toque tráigalo tráguela use vaya vuelva muéstrelo abra avise apártelo ciérrela ciérrelo instale cópielo corríjalo léalo léales hágala escríbala repita sáltela escanéelo llámelos bótelo búsquela dígales revise elíjalo";
const JOINTS: [&str; 2] = ["and", "then"];
const UNIONES: [&str; 4] = ["y", "e", "luego", "después"];

fn action(word: &str, language: Language) -> bool {
    let actions = match language {
        Language::English => ENGLISH,
        Language::Spanish => SPANISH,
    };
    actions.split_whitespace().any(|known| known == word)
}

/// Whether a text asks for anything: a sentence of it begins with an action.
pub fn asks(text: &str, language: Language) -> bool {
    said::sentences(text).iter().any(|sentence| {
        let first = said::words_of(sentence)
            .into_iter()
            .map(|word| word.to_lowercase())
            .find(|word| !BEFORE.contains(&word.as_str()));
        first.is_some_and(|word| action(&word, language))
    })
}

/// Words that may stand before the action.
const BEFORE: [&str; 8] = [
    "please", "then", "luego", "first", "antes", "primero", "or", "o",
];

/// "Put it in Downloads and look for it": a second thing asked in one breath.
fn second_action(sentence: &str, language: Language) -> bool {
    let joints = match language {
        Language::English => &JOINTS[..],
        Language::Spanish => &UNIONES[..],
    };
    let words: Vec<String> = said::words_of(sentence)
        .iter()
        .map(|word| word.to_lowercase())
        .collect();
    let joined = words
        .get(1..)
        .unwrap_or_default()
        .windows(2)
        .any(|pair| joints.contains(&pair[0].as_str()) && action(&pair[1], language));
    joined && asks(sentence, language)
}

/// Sentences that may ask for two things, because they are one movement.
const ONE_MOVEMENT: [&str; 0] = [];

#[test]
fn every_sentence_asks_for_one_thing() {
    let mut found = Vec::new();
    for language in Language::ALL {
        for (key, text) in everything(language).into_values().flatten() {
            for sentence in said::sentences(&text) {
                if second_action(&sentence, language) && !ONE_MOVEMENT.contains(&key.as_str()) {
                    found.push(format!("{} {key}: {sentence}", language.code()));
                }
            }
        }
    }
    assert!(found.is_empty(), "{found:#?}");
}

#[test]
fn two_actions_are_seen() {
    assert!(second_action(
        "Close it, then do the last step again.",
        Language::English
    ));
    assert!(second_action(
        "Set it aside and call the nurse.",
        Language::English
    ));
    assert!(!second_action(
        "Cover and label it well.",
        Language::English
    ));
    assert!(!second_action(
        "Wait for the water and the tablet.",
        Language::English
    ));
    assert!(second_action(
        "Apártelo y pregunte a la enfermera.",
        Language::Spanish
    ));
    assert!(!second_action(
        "Mire el frasco y la caja.",
        Language::Spanish
    ));
}
