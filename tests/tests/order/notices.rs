//! Notices: one good one of each kind, and what is wrong with bad ones.

use std::collections::BTreeSet;

use hearthdose_core::order::notice::{Action, CourseEnd};
use hearthdose_core::order::{check_notice, check_notice_with, parse_notice};

use crate::{errors, files, good_orders, order, read};

/// One notice of each kind; each concerns the order it names and no other, and has words in both languages.
#[test]
fn there_is_a_good_notice_of_each_kind() {
    let orders = good_orders();
    let notices: Vec<_> = files("notices")
        .into_iter()
        .map(|(name, bytes)| parse_notice(&bytes).unwrap_or_else(|p| panic!("{name}: {p:?}")))
        .collect();
    let kinds: BTreeSet<&str> = notices.iter().map(|notice| notice.kind()).collect();
    let all = [
        "collection",
        "extend-lot",
        "quarantine-lot",
        "recall-lot",
        "renew",
        "shorten",
        "stop",
        "water",
    ];
    assert_eq!(kinds, BTreeSet::from(all));
    for notice in &notices {
        for order in &orders {
            assert_eq!(check_notice_with(notice, order), [], "{}", notice.id);
            assert_eq!(
                notice.applies_to(order),
                notice.orders.contains(&order.id),
                "{}",
                notice.id
            );
        }
        assert!(
            orders.iter().any(|order| notice.applies_to(order)),
            "{}",
            notice.id
        );
    }
    let shorten = notices
        .iter()
        .find(|notice| notice.kind() == "shorten")
        .expect("one");
    assert_eq!(
        shorten.action,
        Action::Shorten {
            until: CourseEnd::Days(30)
        }
    );
    let recall = notices
        .iter()
        .find(|notice| notice.kind() == "recall-lot")
        .expect("one");
    assert_eq!(recall.lots(), ["QD3112"]);
}

#[test]
fn bad_notices_are_named() {
    let shorten = String::from_utf8(read("notices", "quillmere-shorten")).expect("text");
    let codes = |text: &str| -> BTreeSet<String> {
        match parse_notice(text.as_bytes()) {
            Ok(notice) => errors(&check_notice_with(&notice, &order("quillmere-doxy-1"))),
            Err(problems) => errors(&problems),
        }
    };
    let cases = [
        (
            "course-days = 30",
            "course-days = 60",
            "not-shorter at course-days",
        ),
        (
            "course-days = 30",
            "course-days = 0",
            "days-zero at course-days",
        ),
        (
            "course-days = 30",
            "last-day = \"2031-04-01\"",
            "date-before-issue at last-day",
        ),
        ("course-days = 30", "", "missing-field at course-days"),
        (
            "course-days = 30",
            "course-days = 30\nlast-day = \"2031-05-01\"",
            "two-limits at ",
        ),
        (
            "kind = \"shorten\"",
            "kind = \"lengthen\"",
            "unknown-choice at kind",
        ),
        (
            "kind = \"shorten\"",
            "kind = \"recall-lot\"",
            "missing-field at lots",
        ),
        (
            "Quillmere Health District",
            "Somebody Else",
            "other-issuer at issuer",
        ),
        ("format = 1", "format = 9", "newer-format at format"),
        ("es = \"", "fr = \"", "missing-words at text"),
    ];
    for (from, to, wanted) in cases {
        let bad = shorten.replacen(from, to, 1);
        assert_ne!(bad, shorten, "{from}");
        assert!(codes(&bad).contains(wanted), "{wanted}: {:?}", codes(&bad));
    }
    assert_eq!(
        check_notice(&parse_notice(shorten.as_bytes()).expect("readable")),
        []
    );
}
