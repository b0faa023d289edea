//! Questions and what their answers do.

use std::collections::BTreeMap;

use hearthdose_core::dose;
use hearthdose_core::household::{Answer, Person};
use hearthdose_core::order::{CheckedOrder, IfYes, check_with, parse};
use hearthdose_core::screening::ReasonKind;
use hearthdose_tests::people::{DAY, demo_text};

use super::{
    ciprofloxacin, doxycycline, doxycycline_text, give, iodide, problems, refusals, somebody,
};

const ANSWERS: [Option<Answer>; 4] = [
    None,
    Some(Answer::No),
    Some(Answer::Yes),
    Some(Answer::Unsure),
];

/// Every combination of answers to the questions of an order.
fn combinations(order: &CheckedOrder) -> Vec<BTreeMap<String, Answer>> {
    let mut all = vec![BTreeMap::new()];
    for question in &order.questions {
        let longer = all.iter().flat_map(|answers| {
            ANSWERS.map(|answer| {
                let mut answers: BTreeMap<String, Answer> = answers.clone();
                answers.extend(answer.map(|answer| (question.key.clone(), answer)));
                answers
            })
        });
        all = longer.collect();
    }
    all
}

/// Whether these answers alone clear somebody: each question answered no, or yes where yes only cautions.
/// Passed elsewhere, a question may be unanswered here; what was answered here counts all the same.
fn clear(order: &CheckedOrder, answers: &BTreeMap<String, Answer>, elsewhere: bool) -> bool {
    order
        .questions
        .iter()
        .all(|question| match answers.get(&question.key) {
            Some(Answer::No) => true,
            Some(Answer::Yes) => question.if_yes == IfYes::Caution,
            Some(Answer::Unsure) => false,
            None => elsewhere,
        })
}

// promise: P1, P4
/// Check C20: 1,024, 4,096 and 16,384 combinations, each with and without a screening elsewhere.
#[test]
fn d29_no_path_to_a_dose_leaves_a_question_open() {
    for (order, many) in [
        (doxycycline(), 1_024),
        (ciprofloxacin(), 4_096),
        (iodide(), 16_384),
    ] {
        let all = combinations(&order);
        assert_eq!(all.len(), many);
        for answers in all {
            for elsewhere in [false, true] {
                let mut person = somebody("60 lb", "9 y");
                person.cleared = elsewhere;
                person.answers.clone_from(&answers);
                let found = dose::work_out(&order, &person, DAY);
                let expected = clear(&order, &answers, elsewhere);
                assert_eq!(found.is_ok(), expected, "{answers:?} elsewhere {elsewhere}");
                let unsure = answers.values().any(|answer| *answer == Answer::Unsure);
                assert!(!(unsure && found.is_ok()));
            }
        }
    }
}

/// A clinician lifts a hold by its key; a stop stays, and so does what nobody answered.
#[test]
fn d29_lifting_a_hold_lifts_that_hold_only() {
    let order = doxycycline();
    for answers in combinations(&order) {
        let mut person = somebody("60 lb", "9 y");
        person.cleared = false;
        person.answers.clone_from(&answers);
        person.lifted.insert("pregnant".to_owned());
        let mut without = answers.clone();
        if without.contains_key("pregnant") {
            without.insert("pregnant".to_owned(), Answer::No);
        }
        let found = dose::work_out(&order, &person, DAY).is_ok();
        assert_eq!(found, clear(&order, &without, false), "{answers:?}");
    }
    let mut allergic = somebody("60 lb", "9 y");
    allergic
        .answers
        .insert("allergy-tetracycline".to_owned(), Answer::Yes);
    allergic.lifted.insert("allergy-tetracycline".to_owned());
    assert_eq!(refusals(&order, &allergic), ["screening-stop"]);
}

/// Every reason at once, so that nobody walks to the site twice.
#[test]
fn all_reasons_come_together() {
    let order = doxycycline();
    let mut person = Person::named("Ben");
    person.age = Some(hearthdose_tests::people::told("20 d"));
    for (key, answer) in [
        ("allergy-tetracycline", Answer::Yes),
        ("pregnant", Answer::Yes),
        ("kidney-or-liver", Answer::Unsure),
    ] {
        person.answers.insert(key.to_owned(), answer);
    }
    let codes = refusals(&order, &person);
    for code in [
        "screening-stop",
        "screening-hold",
        "screening-unsure",
        "screening-not-done",
        "below-youngest",
        "weight-needed",
    ] {
        assert!(codes.contains(&code), "{code} is not in {codes:?}");
    }
}

/// The demo's alternative for the allergic is no penicillin, asks its own questions, and leads to no circle.
#[test]
fn d15_the_alternative_has_its_own_screening() {
    let order = doxycycline();
    let mut allergic = somebody("60 lb", "9 y");
    allergic
        .answers
        .insert("allergy-tetracycline".to_owned(), Answer::Yes);
    let reasons = dose::work_out(&order, &allergic, DAY).expect_err("a stop");
    assert_eq!((reasons.len(), reasons[0].kind), (1, ReasonKind::Stop));
    let instead = reasons[0].instead.as_deref();
    assert_eq!(instead, Some("quillmere-ciprofloxacin"));
    assert!(reasons[0].then["en"].contains("must not take doxycycline"));

    let other = ciprofloxacin();
    assert_eq!(Some(other.id.as_str()), instead);
    assert_ne!(other.medicine.name, "amoxicillin");
    assert_ne!(other.medicine.allergy_class, order.medicine.allergy_class);
    assert_eq!(other.medicine.event, order.medicine.event);
    // Answers to the first order clear nothing here.
    let mut person = somebody("60 lb", "9 y");
    person.cleared = false;
    person.answers = order
        .questions
        .iter()
        .map(|question| (question.key.clone(), Answer::No))
        .collect();
    assert_eq!(refusals(&other, &person), ["screening-not-done"]);
    person.answers.extend(
        other
            .questions
            .iter()
            .map(|question| (question.key.clone(), Answer::No)),
    );
    person.answers.insert("tizanidine".to_owned(), Answer::Yes);
    assert_eq!(refusals(&other, &person), ["screening-stop"]);
}

#[test]
fn d15_circles_of_alternatives_are_errors() {
    let [a, b] = ["instead-cycle-a", "instead-cycle-b"].map(|name| {
        parse(demo_text(&format!("damaged/{name}")).as_bytes()).expect("a readable order")
    });
    let others = [a.clone(), b.clone()];
    for order in [&a, &b] {
        let found = check_with(order, &others);
        assert!(
            found
                .iter()
                .any(|problem| problem.is_error() && problem.code == "instead-cycle")
        );
    }
    let shipped = [
        doxycycline().order().clone(),
        ciprofloxacin().order().clone(),
    ];
    for order in &shipped {
        assert!(
            !check_with(order, &shipped)
                .iter()
                .any(hearthdose_core::order::Problem::is_error)
        );
    }
}

/// An order that forgets a usual topic is warned about; the shipped ones ask about all.
#[test]
fn d29_forgotten_topics_are_told() {
    let nothing_asked = problems(&demo_text("damaged/warning-nothing-asked"));
    assert!(nothing_asked.contains(&"warning topic-not-asked at question".to_owned()));
    for name in [
        "quillmere-doxy-1",
        "quillmere-doxy-2",
        "quillmere-ciprofloxacin-1",
        "quillmere-iodide-1",
    ] {
        let told = problems(&demo_text(&format!("orders/{name}")));
        assert!(
            !told
                .iter()
                .any(|problem| problem.contains("topic-not-asked")),
            "{name}: {told:?}"
        );
    }
    let keys: Vec<String> = doxycycline()
        .questions
        .iter()
        .map(|question| question.key.clone())
        .collect();
    for key in ["allergy-tetracycline", "pregnant", "current-medicines"] {
        assert!(keys.iter().any(|known| known == key), "{key}");
    }
    assert!(
        doxycycline_text().contains("isotretinoin")
            && doxycycline_text().contains("already take one of these? Doxycycline")
    );
}

/// Who does not know is held even where a yes would only be a caution, and a nurse may lift it.
// promise: P4
#[test]
fn unsure_on_a_caution_holds_until_it_is_lifted() {
    let order = iodide();
    let mut person = somebody("", "30 y");
    person.answers.insert("pregnant".to_owned(), Answer::Unsure);
    assert_eq!(refusals(&order, &person), ["screening-unsure"]);
    person.lifted.insert("pregnant".to_owned());
    assert_eq!(give(&order, &person).text, "8 teaspoons (40 mL)");
    // She still belongs to the group that has one dose only.
    assert_eq!(dose::most_doses(&order, &person, DAY), Some(1));
}
