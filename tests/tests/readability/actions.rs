//! One action a sentence: no sentence that asks for something asks for a second thing.

use hearthdose_ui::text::Language;

use super::{everything, said};

/// What people are asked to do, as a sentence begins.
const ENGLISH: &str = "add answer ask begin bring boil call carry choose close compare count cover crush cut do fetch fill fetch get \
    give go have hold keep lay let look make measure mix open press print put read scan set shake show sit start stay step stir stop \
    swallow take tell throw tick tilt try turn type use wait wash wear weigh write";
const SPANISH: &str = "abra acerque actualice añada anote apriete aplaste aparte apártelo búsquela busque compare conteste copie cuéntelas \
    cuente cubra dé dela désela deje diga échelo elija empiece escanee escriba escríbalo espere guarde guárdelo haga hierva llame lave lea \
    llene lleve llévelo marque mezcle mida mire muestre pese ponga póngala póngalo pregunte pruebe pida recoja recorte revuelva saque siga \
    suba súmelos tape tome toque tráigalo tráguela use vaya vuelva";
const JOINTS: [&str; 2] = ["and", "then"];
const UNIONES: [&str; 4] = ["y", "e", "luego", "después"];

/// "Put it in Downloads and look for it": a second thing asked in one breath.
fn second_action(sentence: &str, language: Language) -> bool {
    let (actions, joints) = match language {
        Language::English => (ENGLISH, &JOINTS[..]),
        Language::Spanish => (SPANISH, &UNIONES[..]),
    };
    let action = |word: &str| actions.split_whitespace().any(|known| known == word);
    let words: Vec<String> = said::words_of(sentence)
        .iter()
        .map(|word| word.to_lowercase())
        .collect();
    let first = words.iter().find(|word| {
        !["please", "then", "luego", "first", "antes", "primero"].contains(&word.as_str())
    });
    let asks = first.is_some_and(|word| action(word));
    let joined = words
        .get(1..)
        .unwrap_or_default()
        .windows(2)
        .any(|pair| joints.contains(&pair[0].as_str()) && action(&pair[1]));
    asks && joined
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
