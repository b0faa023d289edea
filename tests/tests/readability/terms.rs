//! One word for one thing: steps and amounts say the same thing in the same words everywhere.

use hearthdose_ui::text::Language;

use super::{everything, said};

/// The word, and others for the same thing that appear nowhere.
const ENGLISH: [(&str, &str); 14] = [
    ("tablet", "pill pills capsules lozenge"),
    ("bowl", "dish dishes container containers"),
    ("teaspoon", "tsp teaspoonful tablespoon"),
    ("amount", "quantity dosage"),
    ("throw away", "discard discarded dispose bin garbage"),
    ("refrigerator", "fridge"),
    ("medicine", "medication drugs remedy"),
    ("soften", "dissolve melt"),
    ("stir", "agitate blend"),
    ("crush", "grind mash"),
    ("spilled", "spilt"),
    ("syringe", "dropper"),
    ("weigh", "weight-check"),
    (
        "dose, instructions, food or drink",
        "round order screening vehicle",
    ),
];
const SPANISH: [(&str, &str); 14] = [
    ("pastilla", "píldora píldoras comprimido comprimidos"),
    ("tazón", "bol plato vasija recipiente"),
    ("cucharadita", "cdta cucharada"),
    ("frasco", "pomo"),
    ("botar", "tirar tire deseche desechar"),
    ("refrigerador", "nevera heladera frigorífico"),
    ("medicina", "medicamento medicamentos fármaco"),
    ("ablandar", "disolver disuelva"),
    ("revolver", "remueva mezclar-bien"),
    ("aplastar", "triture machaque"),
    ("falta de aire", "dificultad"),
    ("suspender", "parada detenida detener"),
    ("tocar", "pulse presione oprima"),
    ("aparato, centro de entrega", "dispositivo puesto"),
];

/// Where another word is right, and why.
const OTHER_WORD: [(&str, &str); 6] = [
    ("birth-control", "birth control pills are called so"),
    ("current-medicines.ask", "a water pill is called so"),
    (
        "change-",
        "what differs in an order is told in the order's own terms, to those who write it too",
    ),
    ("change-of-kind", "the same"),
    ("told-order", "the same"),
    ("shift-", "a tablet there is a device"),
];

#[test]
fn one_thing_has_one_word() {
    let mut found = Vec::new();
    for language in Language::ALL {
        let terms = match language {
            Language::English => ENGLISH,
            Language::Spanish => SPANISH,
        };
        for (key, text) in everything(language).into_values().flatten() {
            let words: Vec<String> = said::words_of(&text)
                .iter()
                .map(|word| word.to_lowercase())
                .collect();
            for (right, others) in terms {
                let excused = OTHER_WORD.iter().any(|(name, _)| key.starts_with(name));
                let other = others
                    .split_whitespace()
                    .find(|other| words.iter().any(|word| word == other));
                if let Some(other) = other.filter(|_| !excused) {
                    found.push(format!(
                        "{} {key} says “{other}”, elsewhere “{right}”: {text}",
                        language.code()
                    ));
                }
            }
        }
    }
    assert!(found.is_empty(), "{found:#?}");
}
