//! Whatever is refused, the words say what to do next.

use hearthdose_ui::text::Language;

use super::{actions, said};

/// Messages that refuse something; a dash at the end stands for all that begin so.
const REFUSALS: [&str; 103] = [
    "told-full",
    "lot-read-unread",
    "told-read-only",
    "told-busy",
    "told-newer",
    "told-store",
    "told-order",
    "told-salvaged-body",
    "told-no-plan-body",
    "told-no-bell-body",
    "told-no-voice-body",
    "told-settings-body",
    "told-settings-unkept-body",
    "piece-no-voice-body",
    "piece-no-sound-body",
    "piece-no-message-body",
    "piece-no-camera-body",
    "piece-no-reader-body",
    "camera-busy",
    "camera-denied",
    "camera-broken",
    "file-not-body",
    "papers-none-body",
    "paper-bad-body",
    "take-order-same-body",
    "take-order-older-body",
    "notice-other-body",
    "receive-none",
    "receive-other-file",
    "receive-not-for-you",
    "receive-no-home",
    "receive-other-home",
    "receive-known",
    "receive-sealed",
    "receive-newer",
    "receive-damaged",
    "receive-foreign",
    "reason-",
    "code-none",
    "row-hold-amount",
    "row-stop-amount",
    "row-missing-amount",
    "wrong-bottle-body",
    "nobody-left-body",
    "no-household-body",
    "skip-last-body",
    "missed-body",
    "weigh-none",
    "weigh-differ-body",
    "weigh-implausible-body",
    "unsure-detail",
    "ready-none-detail",
    "date-unread-body",
    "birth-day-needed",
    "doubled-body",
    "line-not-a-home",
    "find-none-body",
    "give-not-body",
    "family-name-missing",
    "family-age-missing",
    "family-age-unread",
    "family-weight-unread",
    "family-full",
    "family-not-made",
    "receive-packs-product",
    "receive-packs-check",
    "receive-packs-no-",
    "receive-packs-past",
    "receive-packs-differs",
    "receive-packs-recalled",
    "print-not-body",
    "count-unread",
    "shift-other-device",
    "roles-none-body",
    "roles-lead-first",
    "pin-wrong",
    "pin-wrong-wait",
    "pin-wait",
    "pin-short",
    "pin-repeated",
    "pin-in-a-row",
    "pin-differs",
    "pin-same",
    "pin-not-body",
    "forget-unheard-body",
    "forget-failed-body",
    "codes-not-body",
    "codes-not-a-part",
    "shift-sealed",
    "shift-no-lock",
    "desk-later-said",
    "desk-differs-body",
    "desk-doubted",
    "desk-name-missing",
    "desk-name-long",
    "desk-name-unseen",
    "list-time-unread",
    "list-day-unread",
    "list-no-packs",
    "list-no-reason",
    "list-ahead",
    "list-known",
    "list-lot",
];

/// Nothing to do is an answer too.
const NOTHING: [&str; 2] = ["You do not have to do anything", "No tiene que hacer nada"];

#[test]
fn every_refusal_says_what_to_do_next() {
    let mut silent = Vec::new();
    for language in Language::ALL {
        let all: Vec<(String, String)> = said::messages(language).into_values().flatten().collect();
        for name in REFUSALS {
            let fits = |key: &str| key == name || name.ends_with('-') && key.starts_with(name);
            let texts: Vec<_> = all.iter().filter(|(key, _)| fits(key)).collect();
            assert!(!texts.is_empty(), "{name} is no message");
            for (key, text) in texts {
                let nothing = NOTHING.iter().any(|nothing| text.contains(nothing));
                if !nothing && !actions::asks(text, language) {
                    silent.push(format!("{} {key}: {text}", language.code()));
                }
            }
        }
    }
    assert!(silent.is_empty(), "{silent:#?}");
}

/// Titles, whose screens have one of the messages above below them; and sentences that refuse nothing.
const OTHERS: [&str; 8] = [
    "told-not-saved",
    "paper-bad",
    "print-not",
    "wrong-short",
    "throw-old-body",
    "date-unread",
    "shift-other-device",
    "told-salvaged",
];

/// A new message of a family that refuses is not forgotten here.
#[test]
fn no_refusal_is_left_out() {
    let listed = |key: &str| {
        REFUSALS
            .iter()
            .any(|name| key == *name || name.ends_with('-') && key.starts_with(name))
    };
    let refuses = |text: &str| {
        let text = text.to_lowercase();
        ["cannot be", "could not", "may not", "was not saved"]
            .iter()
            .any(|mark| text.contains(mark))
    };
    let texts = said::messages(Language::English).into_values().flatten();
    let missed: Vec<String> = texts
        .filter(|(key, text)| refuses(text) && !listed(key) && !OTHERS.contains(&key.as_str()))
        .map(|(key, text)| format!("{key}: {text}"))
        .collect();
    assert!(missed.is_empty(), "{missed:#?}");
}
