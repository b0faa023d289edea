//! Somebody who must wait gets nothing, others do; what lifts a hold, and what does not.

use hearthdose_core::exchange::{CodedAge, HouseholdCode};
use hearthdose_core::household::Answer;
use hearthdose_core::record::{Event, SiteEvent};
use hearthdose_core::today::AskWeight;
use jiff::civil::date;

use crate::book::{
    Book, TEN, answered, at, code, days_after, dose, doxy, lifted, packs, people, person, reasons,
    scanned, seen, weighed,
};

/// Runa, of 70 lb and every question answered no.
fn runa(made: &str) -> HouseholdCode {
    code(&doxy(), &people("ferrow-9")[5..6], at(made))
}

/// The same with one answer changed, in a later code.
fn later(issue: u32, made: &str, question: usize, answer: Answer, day: i8) -> SiteEvent {
    let mut told = runa(made);
    told.issue = issue;
    for said in told.people[0].answers.iter_mut().flatten() {
        said.1 = Some(date(2031, 4, day));
    }
    told.people[0].answers[question].as_mut().unwrap().0 = answer;
    seen(&told)
}

const KIDNEY: usize = 3;

fn serve_now(book: &Book, now: &str) -> Vec<&'static str> {
    reasons(&book.serve(&doxy(), &[], at(now)), 1)
}

// promise: P4
#[test]
fn unsure_never_clears() {
    for (key, place) in [
        ("pregnant", 1),
        ("breastfeeding", 2),
        ("kidney-or-liver", 3),
    ] {
        let mut told = runa(TEN);
        told.people[0].answers[place].as_mut().unwrap().0 = Answer::Unsure;
        told.people[0].screened = true;
        let book = scanned(&doxy(), &told);
        assert_eq!(serve_now(&book, TEN), ["screening-unsure"], "{key}");
        let mut book = scanned(&doxy(), &runa(TEN));
        book.note(at(TEN), answered(1, key, Answer::Unsure));
        assert_eq!(serve_now(&book, TEN), ["screening-unsure"], "{key}");
        assert_eq!(packs(&book.serve(&doxy(), &[], at(TEN))), []);
    }
}

#[test]
fn a_lead_lifts_a_hold_and_never_a_stop() {
    let order = doxy();
    let book = |key: &str| {
        let mut book = scanned(&order, &runa(TEN));
        book.note(at(TEN), answered(1, key, Answer::Yes));
        book.note(at(TEN), lifted(1, key));
        book
    };
    let held = book("kidney-or-liver");
    assert_eq!(packs(&held.serve(&order, &[], at(TEN))), [(None, 2)]);
    let stopped = book("allergy-tetracycline");
    assert_eq!(serve_now(&stopped, TEN), ["screening-stop"]);
}

#[test]
fn another_answer_ends_what_was_lifted() {
    let mut book = scanned(&doxy(), &runa(TEN));
    book.note(at(TEN), answered(1, "pregnant", Answer::Unsure));
    book.note(at(TEN), lifted(1, "pregnant"));
    assert_eq!(serve_now(&book, TEN), [""; 0]);
    book.note(at(TEN), answered(1, "pregnant", Answer::Unsure));
    assert_eq!(serve_now(&book, TEN), [""; 0]);
    book.note(at(TEN), answered(1, "pregnant", Answer::Yes));
    assert_eq!(serve_now(&book, TEN), ["screening-hold"]);
}

#[test]
fn what_a_later_code_says_counts_again() {
    let mut book = scanned(&doxy(), &runa("2031-04-03T08:00:00-05:00"));
    book.note(at(TEN), answered(1, "kidney-or-liver", Answer::No));
    // Learned a week later, and told in a new code.
    let week = "2031-04-10T09:00:00-05:00";
    book.note(at(week), later(2, week, KIDNEY, Answer::Yes, 10));
    assert_eq!(serve_now(&book, week), ["screening-hold"]);
    book.note(at(week), lifted(1, "kidney-or-liver"));
    assert_eq!(serve_now(&book, week), [""; 0]);
    // The next code repeats it, and what was lifted stays so; then it says something else.
    let next = "2031-04-19T09:00:00-05:00";
    book.note(at(next), later(3, next, KIDNEY, Answer::Yes, 10));
    assert_eq!(serve_now(&book, next), [""; 0]);
    let last = "2031-04-28T09:00:00-05:00";
    book.note(at(last), later(4, last, KIDNEY, Answer::Unsure, 27));
    assert_eq!(serve_now(&book, last), ["screening-unsure"]);
}

#[test]
fn an_older_answer_in_a_later_code_does_not_undo_the_desks() {
    let mut book = scanned(&doxy(), &runa("2031-04-03T08:00:00-05:00"));
    book.note(at(TEN), answered(1, "kidney-or-liver", Answer::No));
    let week = "2031-04-10T09:00:00-05:00";
    // Given on the 2nd, before the desk asked.
    book.note(at(week), later(2, week, KIDNEY, Answer::Unsure, 2));
    assert_eq!(serve_now(&book, week), [""; 0]);
    // Of the same day nobody knows which was later: the safer one.
    let mut book = scanned(&doxy(), &runa("2031-04-03T08:00:00-05:00"));
    book.note(at(TEN), answered(1, "kidney-or-liver", Answer::Yes));
    let noon = "2031-04-03T12:00:00-05:00";
    book.note(at(noon), later(2, noon, KIDNEY, Answer::No, 3));
    assert_eq!(serve_now(&book, noon), ["screening-hold"]);
}

#[test]
fn two_leads_who_contradict_each_other_keep_the_hold() {
    let mut book = scanned(&doxy(), &runa(TEN));
    book.note(at(TEN), answered(1, "kidney-or-liver", Answer::Yes));
    let lift = book.note(at(TEN), lifted(1, "kidney-or-liver"));
    let change = |event| Event::Correction {
        target: lift,
        change: event,
    };
    use hearthdose_core::record::Change;
    book.note_event(at(TEN), change(Change::Withdraw { reason: None }));
    let other = Event::Site {
        site: lifted(1, "pregnant"),
    };
    book.note_event(
        at(TEN),
        change(Change::Replace {
            event: other.into(),
            reason: None,
        }),
    );
    assert_eq!(serve_now(&book, TEN), ["screening-hold"]);
}

#[test]
fn below_the_youngest_age_a_stated_screening_does_not_help() {
    let order = doxy();
    let mut told = code(&order, &people("tarn-4"), at(TEN));
    told.people[3].age = Some(CodedAge::Days(20));
    told.people[3].screened = true;
    let mut book = scanned(&order, &told);
    for key in ["below-youngest", "born-early", "youngest"] {
        book.note(at(TEN), lifted(4, key));
    }
    let serving = book.serve(&order, &[], at(TEN));
    assert!(reasons(&serving, 4).contains(&"below-youngest"));
    // The others get theirs: 20 whole tablets, 20 full bowls, and Bram's 4 half teaspoons, two doses in a bowl: 54 with the spare.
    assert_eq!(packs(&serving), [(None, 3)]);
    assert!(person(&serving, 3).dose.is_ok());
}

#[test]
fn an_age_in_days_grows_from_the_day_of_the_code() {
    let order = doxy();
    // Nils, born on 14 March: 20 days on 3 April, a month on 14 April.
    let told = code(&order, &people("ferrow-9")[8..9], at(TEN));
    let book = scanned(&order, &told);
    for (day, expected) in [("13", true), ("14", false)] {
        let now = at(&format!("2031-04-{day}T10:00:00-05:00"));
        let reasons = reasons(&book.serve(&order, &[], now), 1);
        assert_eq!(reasons.contains(&"below-youngest"), expected, "{day}");
        // He was held when the code was made, so it may have left an answer out.
        assert!(reasons.contains(&"screening-not-done"), "{day}");
    }
}

#[test]
fn the_later_weighing_counts() {
    let order = doxy();
    // Pim weighs 31 lb 4 oz at home on 2 April.
    let told = code(&order, &people("tarn-4")[3..4], at(TEN));
    let with = |weight: &str, day: i8| {
        let mut book = scanned(&order, &told);
        book.note(at(TEN), weighed(1, weight, date(2031, 4, day)));
        dose(&book.serve(&order, &[], at(TEN)), 1).to_owned()
    };
    assert_eq!(with("39 lb", 3), "2 teaspoons (10 mL)");
    assert_eq!(with("39 lb", 2), "2 teaspoons (10 mL)");
    assert_eq!(with("39 lb", 1), "1½ teaspoons (7.5 mL)");
    // A telephone whose clock is a year ahead cannot keep the desk's scale out.
    let mut ahead = told.clone();
    ahead.made = at("2032-04-03T10:00:00-05:00");
    ahead.people[0].weighing.as_mut().unwrap().on = Some(date(2032, 4, 2));
    let mut book = scanned(&order, &ahead);
    book.note(at(TEN), weighed(1, "39 lb", date(2031, 4, 3)));
    let serving = book.serve(&order, &[], at(TEN));
    assert_eq!(dose(&serving, 1), "2 teaspoons (10 mL)");
    // Of two at the desk the one of the later day counts, in whatever order they were noted.
    let mut book = scanned(&order, &told);
    book.note(at(TEN), weighed(1, "39 lb", date(2031, 4, 3)));
    book.note(at(TEN), weighed(1, "25 lb", date(2031, 3, 20)));
    let serving = book.serve(&order, &[], at(TEN));
    assert_eq!(dose(&serving, 1), "2 teaspoons (10 mL)");
}

#[test]
fn a_stale_weight_asks_and_never_blocks() {
    let order = doxy();
    // 45 lb on 2 April, two thirds into the line from 39 to 50: after 61 days only its age is asked about.
    let book = scanned(&order, &code(&order, &people("tarn-4")[2..3], at(TEN)));
    let serving = book.serve(&order, &[], days_after(at(TEN), 60));
    assert_eq!(
        person(&serving, 1).weigh_again.first(),
        Some(&AskWeight::Old {
            days: 61,
            limit: 60
        })
    );
    assert_eq!(dose(&serving, 1), "2 teaspoons (10 mL)");
    let serving = book.serve(&order, &[], days_after(at(TEN), 20));
    assert!(person(&serving, 1).weigh_again.is_empty());
}

#[test]
fn a_weight_that_cannot_be_is_held_until_it_was_weighed_twice_and_lifted() {
    let order = doxy();
    // A toddler of two and a half years and 100 lb is beyond five standard deviations.
    let mut book = scanned(&order, &code(&order, &people("tarn-4")[3..4], at(TEN)));
    let implausible = "implausible-weight";
    book.note(at(TEN), weighed(1, "100 lb", date(2031, 4, 3)));
    assert_eq!(serve_now(&book, TEN), [implausible]);
    book.note(at(TEN), lifted(1, implausible));
    assert_eq!(serve_now(&book, TEN), [""; 0]);
    // Lifted was the hold on that weight, not on the next.
    book.note(at(TEN), weighed(1, "110 lb", date(2031, 4, 3)));
    assert_eq!(serve_now(&book, TEN), [implausible]);
}
