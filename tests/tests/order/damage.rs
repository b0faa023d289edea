//! Damaged files: each gives the codes it names, and no damage at all makes reading panic.

use std::collections::BTreeSet;

use hearthdose_core::order::{
    CODES, CheckedOrder, Order, Severity, check_bytes, compare, parse, parse_notice,
};
use proptest::prelude::*;

use crate::{errors, files, read, set, text, warnings};

// promise: P17
/// The first line of each damaged file names what is wrong with it: all of the errors, or some of the warnings.
#[test]
fn every_damaged_order_gives_the_codes_it_names() {
    let damaged = files("damaged");
    assert!(damaged.len() >= 60, "{} files", damaged.len());
    let others: Vec<Order> = ["instead-cycle-a", "instead-cycle-b"]
        .iter()
        .map(|name| parse(&read("damaged", name)).expect("readable"))
        .collect();
    let known: BTreeSet<&str> = CODES.iter().map(|(code, _)| *code).collect();
    for (name, bytes) in &damaged {
        let line: Vec<u8> = bytes
            .iter()
            .copied()
            .take_while(|byte| *byte != b'\n')
            .collect();
        let line = String::from_utf8(line).expect("the first line is text");
        let (errors_wanted, list) = match (
            line.strip_prefix("# expect errors: "),
            line.strip_prefix("# expect warnings: "),
        ) {
            (Some(list), _) => (true, list),
            (_, Some(list)) => (false, list),
            _ => panic!("{name} does not say what is wrong with it"),
        };
        let wanted: BTreeSet<String> = list.split(", ").map(str::to_owned).collect();
        let problems = check_bytes(bytes, &others);
        if errors_wanted {
            assert_eq!(errors(&problems), wanted, "{name}");
            let refused = parse(bytes)
                .map_err(|_| ())
                .and_then(|order| CheckedOrder::new(order).map_err(|_| ()));
            assert!(
                refused.is_err() || name.starts_with("instead-cycle"),
                "{name} could be used"
            );
        } else {
            assert_eq!(errors(&problems), set(&[]), "{name}");
            assert!(
                warnings(&problems).is_superset(&wanted),
                "{name}: {problems:?}"
            );
        }
        for problem in &problems {
            assert!(
                known.contains(problem.code),
                "{name}: {} is not in the table",
                problem.code
            );
            assert!(
                problem.text.ends_with('.') && problem.text.len() > 10,
                "{name}: {problem}"
            );
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    /// Whatever happens to the bytes, reading ends with an order or with problems, each with a sentence.
    #[test]
    fn no_damage_makes_reading_panic(
        which in 0usize..4,
        edits in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>(), 0u8..4), 1..6),
        cut in prop::option::of(any::<prop::sample::Index>()),
    ) {
        let (_, mut bytes) = files("orders").swap_remove(which);
        for (at, byte, how) in edits {
            let at = at.index(bytes.len());
            match how {
                0 => bytes[at] = byte,
                1 => bytes.insert(at, byte),
                2 => { bytes.remove(at); }
                // A digit for a digit leaves a file that still reads and says something else.
                _ => if bytes[at].is_ascii_digit() { bytes[at] = b'0' + byte % 10 },
            }
        }
        if let Some(cut) = cut {
            bytes.truncate(cut.index(bytes.len()));
        }
        let problems = check_bytes(&bytes, &[]);
        prop_assert!(problems.iter().all(|problem| !problem.text.is_empty()));
        let failed = problems.iter().any(|problem| problem.severity == Severity::Error);
        prop_assert_eq!(CheckedOrder::from_bytes(&bytes).is_err(), failed);
        let _ = parse_notice(&bytes);
    }

    /// Numbers beyond reason end in a problem or a value, never in an overflow.
    #[test]
    fn no_number_makes_checking_overflow(digits in "[0-9]{1,15}(\\.[0-9]{1,6})?", at in any::<prop::sample::Index>()) {
        let before = text("quillmere-doxy-1");
        let quantities: Vec<(usize, &str)> = before.match_indices(" = \"").filter(|(at, _)| {
            before[at + 4..].starts_with(|c: char| c.is_ascii_digit())
        }).collect();
        let (start, _) = quantities[at.index(quantities.len())];
        let number = start + 4;
        let end = number + before[number..].find([' ', '"']).expect("an end");
        let after = format!("{}{digits}{}", &before[..number], &before[end..]);
        let problems = check_bytes(after.as_bytes(), &[]);
        prop_assert!(problems.iter().all(|problem| !problem.text.is_empty()));
        if let Ok(order) = parse(after.as_bytes()) {
            let _ = compare(&order, &crate::order("quillmere-doxy-2"));
        }
    }
}
