//! One form of amounts on every screen, in every language: "7.5 mL", never "7,5 mL", "07.5 mL", ".5 mL" or "5.0 mL".

use std::collections::BTreeSet;

use hearthdose_tests::kitchen::World;
use hearthdose_tests::tour;
use hearthdose_ui::text::Language;
use serde_json::Value;

/// Every text of a screen.
fn texts(value: &Value, all: &mut BTreeSet<String>) {
    match value {
        Value::String(text) => {
            all.insert(text.clone());
        }
        Value::Array(values) => values.iter().for_each(|value| texts(value, all)),
        Value::Object(fields) => fields.values().for_each(|value| texts(value, all)),
        _ => {}
    }
}

/// The numbers that stand before a unit.
fn before<'a>(text: &'a str, unit: &'a str) -> impl Iterator<Item = &'a str> {
    text.match_indices(unit).map(|(at, _)| {
        let head = text[..at].trim_end();
        let start = head.rfind([' ', '(', '\n', '\u{a0}']).map_or(0, |space| {
            space + head[space..].chars().next().map_or(1, char::len_utf8)
        });
        &head[start..]
    })
}

/// Digits with a point before a part that does not end in zero; a comma only between thousands.
fn is_plain(number: &str) -> bool {
    let (whole, part) = number.split_once('.').unwrap_or((number, "5"));
    let groups: Vec<&str> = whole.split(',').collect();
    let [first, rest @ ..] = groups.as_slice() else {
        return false;
    };
    let digits = |text: &str| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    let first_fits = digits(first) && first.len() <= 3 && (!first.starts_with('0') || whole == "0");
    let rest_fits = rest.iter().all(|group| digits(group) && group.len() == 3);
    first_fits && rest_fits && digits(part) && !part.ends_with('0')
}

#[test]
fn the_rule_itself() {
    for good in ["7.5", "0.5", "40", "1,000", "0", "2.25"] {
        assert!(is_plain(good), "{good}");
    }
    for bad in ["7,5", ".5", "07.5", "5.0", "1000000", "1,00", "½", "", "5."] {
        assert!(!is_plain(bad), "{bad}");
    }
}

#[test]
fn one_form_of_amounts_on_every_screen() {
    for language in Language::ALL {
        let mut all = BTreeSet::new();
        let mut look = |_: &str, view: &hearthdose_ui::vm::view::View| {
            texts(&serde_json::to_value(view).unwrap(), &mut all);
        };
        let code = language.code();
        tour::everywhere(World::new(&format!("amounts-{code}")), language, &mut look);
        tour::two_orders(
            World::new(&format!("amounts-two-{code}")),
            language,
            &mut look,
        );
        tour::site(
            World::new(&format!("amounts-site-{code}")),
            language,
            &mut look,
        );
        let mut seen = 0;
        for text in &all {
            for unit in ["mL", "mg"] {
                for number in before(text, unit).filter(|number| !number.ends_with('/')) {
                    assert!(is_plain(number), "{code}: “{number}” {unit} in “{text}”");
                    seen += 1;
                }
            }
        }
        assert!(seen > 20, "only {seen} amounts were seen");
    }
}
