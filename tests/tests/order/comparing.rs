//! What changed between two revisions, in words.

use hearthdose_core::order::{compare, parse};

use crate::{order, text, told};

/// Exactly what changed, in the words people read before the next bowl.
#[test]
fn revision_two_says_what_changed() {
    let (one, two) = (order("quillmere-doxy-1"), order("quillmere-doxy-2"));
    let texts = told(&one, &two);
    assert!(
        texts.contains(&"soak 10 minutes, was 5 minutes".to_owned()),
        "{texts:?}"
    );
    let row = "row 76 lb to 88 lb: 4 teaspoons (20 mL), was 3½ teaspoons (17.5 mL)".to_owned();
    assert!(texts.contains(&row), "{texts:?}");
    let adults =
        "row 89 lb or more is now part of row 76 lb or more, with the same amount".to_owned();
    assert!(texts.contains(&adults), "{texts:?}");
    assert_eq!(texts.len(), 4, "{texts:?}");
    assert!(
        texts.last().is_some_and(|text| text.starts_with("source ")),
        "{texts:?}"
    );
    assert!(compare(&one, &one).is_empty());
}

#[test]
fn an_older_revision_and_another_order_are_said_first() {
    let (one, two) = (order("quillmere-doxy-1"), order("quillmere-doxy-2"));
    let back = compare(&two, &one);
    assert_eq!(back[0].code(), "older-revision");
    assert!(
        told(&two, &one).contains(&"soak 5 minutes, was 10 minutes".to_owned()),
        "{back:?}"
    );
    assert_eq!(
        compare(&one, &order("quillmere-iodide-1"))[0].code(),
        "other-order"
    );
}

#[test]
fn changes_of_questions_contacts_and_foods_are_told() {
    let old = order("quillmere-doxy-1");
    let cases = [
        (
            "key = \"sun\"",
            "key = \"sunshine\"",
            vec!["caution sunshine is new", "caution sun is no longer there"],
        ),
        (
            "phone = \"555-0142\"",
            "phone = \"555-0143\"",
            vec!["contact questions (Quillmere nurse line): phone 555-0143, was 555-0142"],
        ),
        (
            "sugar = \"4 tsp\"",
            "sugar = \"2 tsp\"",
            vec!["food or drink apple juice: sugar 2 teaspoons (10 mL), was 4 teaspoons (20 mL)"],
        ),
        (
            "rule = \"tap\"",
            "rule = \"boil\"",
            vec!["water boiled and cooled, was from the tap"],
        ),
        (
            "course-days = 60",
            "course-days = 30",
            vec!["course 30 days, was 60 days"],
        ),
        (
            "if-yes = \"caution\"",
            "if-yes = \"hold\"",
            vec!["question breastfeeding: a yes means ask a nurse first, was caution"],
        ),
        (
            "rule = \"enough\"",
            "rule = \"next row\"",
            vec!["rule between rows “next row”, was “enough”"],
        ),
        (
            "up-to = \"12 lb\"",
            "up-to = \"11 lb\"",
            vec![
                "row up to 12 lb is no longer in the chart",
                "row up to 11 lb is new, with the same amount as row up to 12 lb before",
            ],
        ),
    ];
    for (from, to, wanted) in cases {
        let revised = text("quillmere-doxy-1")
            .replacen("revision = 1", "revision = 2", 1)
            .replacen(from, to, 1);
        let new = parse(revised.as_bytes()).expect("readable");
        assert_eq!(told(&old, &new), wanted, "{from}");
    }
}
