//! The plan of a course, checked by arithmetic that knows only times, teaspoons and the printed recipe.
//!
//! Sources: the recipes of the demo orders as printed; clock change of 9 March 2031 in Chicago from the IANA tz database.

use std::collections::BTreeMap;

use hearthdose_core::dose::DoseForm;
use hearthdose_core::household::{Answer, Person};
use hearthdose_core::mixture::{
    CoursePlan, RoundTime, Seat, Standing, Wish, plan, shopping, supply,
};
use hearthdose_core::order::CheckedOrder;
use hearthdose_core::units::Volume;
use hearthdose_tests::people::{
    Dice, checked, demo_order, demo_text, someone, told, weighing_and_aged,
};
use hearthdose_tests::table::{HOUR, MINUTE, half_teaspoons};
use jiff::{SignedDuration, Timestamp};

/// What is printed in an order and matters here.
struct Printed {
    bowl: u64,
    keep: SignedDuration,
    soak: SignedDuration,
    margin: SignedDuration,
}

const DOXYCYCLINE: Printed = Printed {
    bowl: 8,
    keep: SignedDuration::from_hours(24),
    soak: SignedDuration::from_mins(5),
    margin: SignedDuration::from_mins(15),
};

const IODIDE: Printed = Printed {
    bowl: 16,
    keep: SignedDuration::from_hours(168),
    soak: SignedDuration::from_mins(1),
    margin: SignedDuration::from_mins(15),
};

/// A person at the table and the half teaspoons of the row; nothing for a whole tablet.
#[derive(Clone)]
struct Guest {
    person: Person,
    row: Option<u64>,
}

/// Rows of the demo chart: half a teaspoon up to 12 lb, one more half for each row after it.
fn child(row: u64) -> Guest {
    let (weight, age) = match row {
        1 => ("10 lb", "4 mo"),
        2 => ("20 lb", "10 mo"),
        3 => ("30 lb", "3 y"),
        4 => ("45 lb", "5 y"),
        _ => ("60 lb", "8 y"),
    };
    assert!((1..=5).contains(&row));
    Guest {
        person: weighing_and_aged(weight, age),
        row: Some(row),
    }
}

fn grown(swallows: bool) -> Guest {
    let mut person = someone();
    person.age = Some(told("adult"));
    person.swallows_tablets = swallows;
    Guest {
        person,
        row: (!swallows).then_some(8),
    }
}

fn newborn(born: &str) -> Person {
    let mut person = someone();
    person.age = Some(told(born));
    person.born_early = Some(Answer::No);
    person
}

fn seats(people: &[Person]) -> Vec<Seat> {
    let seat = |person: &Person| Seat {
        person: person.clone(),
        had: 0,
        renewed: 0,
    };
    people.iter().map(seat).collect()
}

fn rounds(instants: &[Timestamp], people: usize) -> Vec<RoundTime> {
    let zone = jiff::tz::TimeZone::get("America/Chicago").expect("a zone");
    let round = |at: &Timestamp| RoundTime {
        at: *at,
        day: zone.to_datetime(*at).date(),
        who: (0..people).collect(),
    };
    instants.iter().map(round).collect()
}

/// So many rounds from the evening of 3 April 2031, `hours` apart.
fn every(hours: i32, count: i32) -> Vec<Timestamp> {
    let first: Timestamp = "2031-04-03T20:00:00-05:00".parse().expect("an instant");
    (0..count)
        .map(|index| first + HOUR * (hours * index))
        .collect()
}

/// Eight in the morning of each day of March 2031 from `first` to `last`, Chicago; the clocks change on the 9th.
fn mornings_of_march(first: i32, last: i32) -> Vec<Timestamp> {
    let morning = |day: i32| {
        let hour = if day < 9 { 14 } else { 13 };
        let text = format!("2031-03-{day:02}T{hour}:00:00Z");
        text.parse().expect("an instant")
    };
    (first..=last).map(morning).collect()
}

fn planned(
    order: &CheckedOrder,
    seats: &[Seat],
    rounds: &[RoundTime],
    standing: &[Standing],
    fresh: bool,
) -> CoursePlan {
    let wish = Wish {
        order,
        seats,
        rounds,
        standing,
        fresh,
    };
    plan(&wish, &mut |_, _| {}).expect("a plan")
}

/// Checks a plan against what is printed and the dose of each seat in each round, in half teaspoons.
fn check(
    printed: &Printed,
    rounds: &[RoundTime],
    standing: &[Standing],
    plan: &CoursePlan,
    dose: impl Fn(usize, usize) -> Option<u64>,
) {
    let dose = |round: usize, seat: usize| dose(round, seat).map(half_teaspoons);
    // How long a round gives doses: three minutes for a measured one, one for a tablet.
    let giving = |round: usize| {
        let minutes: i32 = rounds[round]
            .who
            .iter()
            .map(|seat| if dose(round, *seat).is_some() { 3 } else { 1 })
            .sum();
        printed.margin.max(MINUTE * minutes)
    };
    let mut served: BTreeMap<(usize, usize), Volume> = BTreeMap::new();
    let mut serve = |round: usize, seat: usize, amount: Volume| {
        let before = served.insert((round, seat), amount);
        assert_eq!(
            before, None,
            "round {round}, seat {seat}: two bowls for one dose"
        );
    };
    for (index, bowl) in plan.bowls.iter().enumerate() {
        let first = &rounds[bowl.round];
        assert!(
            bowl.made_at + printed.soak <= first.at,
            "bowl {index} is not soft in time"
        );
        assert!(
            bowl.made_at + HOUR > first.at,
            "bowl {index} stands for nobody"
        );
        assert_eq!(bowl.discard_at, bowl.made_at + printed.keep);
        assert!(plan.rounds[bowl.round].makes.contains(&index));
        let mut taken = 0;
        for (round, seat, amount) in &bowl.takes {
            assert!(
                *round >= bowl.round,
                "bowl {index} is used before it is made"
            );
            let last = rounds[*round].at + giving(*round);
            assert!(
                last <= bowl.discard_at,
                "bowl {index} is too old in round {round}"
            );
            taken += amount.as_microlitres();
            serve(*round, *seat, *amount);
        }
        assert!(taken <= half_teaspoons(printed.bowl).as_microlitres());
        assert!(taken > 0, "bowl {index} is for nobody");
    }
    for (index, bowl) in standing.iter().enumerate() {
        let mine = plan.from_standing.iter().filter(|take| take.0 == index);
        let mut taken = 0;
        for (_, round, seat, amount) in mine {
            assert!(rounds[*round].at + giving(*round) <= bowl.discard_at);
            taken += amount.as_microlitres();
            serve(*round, *seat, *amount);
        }
        assert!(taken <= bowl.left.as_microlitres());
    }
    let mut whole = 0;
    for (index, round) in rounds.iter().enumerate() {
        for seat in &round.who {
            assert_eq!(
                served.remove(&(index, *seat)),
                dose(index, *seat),
                "round {index}, seat {seat}"
            );
            whole += u64::from(dose(index, *seat).is_none());
        }
    }
    assert!(served.is_empty(), "{served:?} is for nobody");
    assert_eq!(plan.whole_tablets, whole);
    let bowls = u64::try_from(plan.bowls.len()).expect("few");
    assert_eq!(plan.tablets, bowls + whole, "one tablet for each bowl");
    assert!(plan.lower_bound <= plan.tablets);
    assert!(!plan.proven || plan.lower_bound == plan.tablets);
}

// promise: P11
#[test]
fn every_dose_comes_from_a_bowl_that_still_keeps() {
    let order = demo_order("quillmere-doxy-1");
    let mut dice = Dice::new(5);
    for _ in 0..60 {
        let count = 1 + dice.below(7);
        let guests: Vec<Guest> = (0..count)
            .map(|_| match dice.pick(&[1, 2, 3, 4, 5, 8, 9]) {
                9 => grown(true),
                8 => grown(false),
                row => child(row),
            })
            .collect();
        let people: Vec<Person> = guests.iter().map(|guest| guest.person.clone()).collect();
        let rounds = rounds(&every(12, 20), guests.len());
        for fresh in [false, true] {
            let plan = planned(&order, &seats(&people), &rounds, &[], fresh);
            assert_eq!(plan.held.len(), 0);
            check(&DOXYCYCLINE, &rounds, &[], &plan, |_, seat| {
                guests[seat].row
            });
            let own = |bowl: &hearthdose_core::mixture::CourseBowl| {
                bowl.takes.iter().all(|(round, _, _)| *round == bowl.round)
            };
            assert!(!fresh || plan.bowls.iter().all(own));
        }
    }
}

/// Four half teaspoons twice a day: half a bowl each time, so a bowl for two rounds, or one for each when all is fresh.
#[test]
fn fresh_every_round_keeps_nothing() {
    let order = demo_order("quillmere-doxy-1");
    let people = [child(4).person];
    let rounds = rounds(&every(12, 20), 1);
    for (fresh, bowls) in [(false, 10), (true, 20)] {
        let plan = planned(&order, &seats(&people), &rounds, &[], fresh);
        check(&DOXYCYCLINE, &rounds, &[], &plan, |_, _| Some(4));
        assert_eq!(plan.bowls.len(), bowls);
        assert!(plan.proven);
    }
}

#[test]
fn whole_tablets_count_beside_the_bowls() {
    let order = demo_order("quillmere-doxy-1");
    let guests = [grown(true), child(2), grown(true)];
    let people: Vec<Person> = guests.iter().map(|guest| guest.person.clone()).collect();
    let rounds = rounds(&every(12, 4), 3);
    let plan = planned(&order, &seats(&people), &rounds, &[], false);
    check(&DOXYCYCLINE, &rounds, &[], &plan, |_, seat| {
        guests[seat].row
    });
    let tablets = plan.rounds[0].doses.iter();
    let tablets = tablets.filter(|planned| planned.dose.form == DoseForm::Tablets);
    assert_eq!(tablets.count(), 2);
    // Two grown people in four rounds, and a bowl for each two rounds.
    assert_eq!((plan.whole_tablets, plan.tablets), (8, 10));
}

/// What stands covered is used as long as it keeps for the whole round, and not a minute longer.
#[test]
fn a_standing_bowl_is_used_while_it_keeps_with_the_margin() {
    let order = demo_order("quillmere-doxy-1");
    // One person: the margin of 15 minutes. Twelve: three minutes each are 36.
    for (people, margin) in [(1, 15), (12, 36)] {
        let rounds = rounds(&every(12, 2), people);
        let persons = vec![child(1).person; people];
        for (minutes, is_used) in [(margin - 1, false), (margin, true)] {
            let discard_at = rounds[0].at + MINUTE * minutes;
            let left = half_teaspoons(4);
            let standing = [Standing { left, discard_at }];
            let plan = planned(&order, &seats(&persons), &rounds, &standing, false);
            check(&DOXYCYCLINE, &rounds, &standing, &plan, |_, _| Some(1));
            assert_eq!(
                !plan.from_standing.is_empty(),
                is_used,
                "{people}, {minutes}"
            );
            assert!(plan.from_standing.iter().all(|take| take.1 == 0));
        }
    }
}

/// After a round the plan is made again with what stands; nothing more is needed than before.
#[test]
fn planning_again_after_each_round_needs_no_more_tablets() {
    let order = demo_order("quillmere-doxy-1");
    let guests = [child(3), child(4), child(2)];
    let people: Vec<Person> = guests.iter().map(|guest| guest.person.clone()).collect();
    let all = rounds(&every(12, 12), 3);
    let first = planned(&order, &seats(&people), &all, &[], false);
    let mut used = 0;
    let mut standing: Vec<Standing> = Vec::new();
    for from in 0..all.len() {
        let rounds = &all[from..];
        let plan = planned(&order, &seats(&people), rounds, &standing, false);
        check(&DOXYCYCLINE, rounds, &standing, &plan, |_, seat| {
            guests[seat].row
        });
        assert_eq!(used + plan.tablets, first.tablets, "from round {from}");
        let now = |round: usize, amount: Volume| {
            if round == 0 {
                amount.as_microlitres()
            } else {
                0
            }
        };
        let mut next = Vec::new();
        for (index, bowl) in standing.iter().enumerate() {
            let mine = plan.from_standing.iter().filter(|take| take.0 == index);
            let taken: u64 = mine.map(|take| now(take.1, take.3)).sum();
            let left = Volume::microlitres(bowl.left.as_microlitres() - taken);
            next.push(Standing { left, ..*bowl });
        }
        for bowl in plan.bowls.iter().filter(|bowl| bowl.round == 0) {
            let taken: u64 = bowl.takes.iter().map(|take| now(take.0, take.2)).sum();
            let left = Volume::microlitres(half_teaspoons(8).as_microlitres() - taken);
            let discard_at = bowl.discard_at;
            next.push(Standing { left, discard_at });
            used += 1;
        }
        next.retain(|bowl| bowl.left > Volume::ZERO);
        standing = next;
    }
}

/// The night that is an hour shorter: rounds 11 hours apart, and all bowls keep as before.
#[test]
fn a_week_over_the_clock_change() {
    let order = demo_order("quillmere-doxy-1");
    let mut instants = Vec::new();
    for morning in mornings_of_march(6, 12) {
        let evening: Timestamp = morning + HOUR * 12;
        instants.extend([morning, evening]);
    }
    // In the evening of the 8th it is still winter time: 20:00 is 02:00 UTC, and 08:00 is 13:00 UTC.
    assert_eq!(instants[6].duration_since(instants[5]), HOUR * 11);
    let guests = [child(5), child(3), child(1)];
    let people: Vec<Person> = guests.iter().map(|guest| guest.person.clone()).collect();
    let rounds = rounds(&instants, 3);
    let plan = planned(&order, &seats(&people), &rounds, &[], false);
    check(&DOXYCYCLINE, &rounds, &[], &plan, |_, seat| {
        guests[seat].row
    });
    // Nine half teaspoons in each of 14 rounds are 126: at least 16 bowls of eight.
    assert!(plan.bowls.len() >= 16);
}

/// The demo order for iodide, but for several days and without a limit for newborns.
fn daily_iodide() -> CheckedOrder {
    let mut text = demo_text("orders/quillmere-iodide-1");
    for (from, to) in [
        ("supply-days = 1\n", "supply-days = 14\n"),
        ("course-days = 1\n", "course-days = 14\n"),
        ("least-gap = \"24 h\"", "least-gap = \"22 h\""),
        ("first-gap = \"24 h\"", "first-gap = \"22 h\""),
        ("most-doses = { \"up to 1 mo\" = 1, ", "most-doses = { "),
    ] {
        assert_eq!(text.matches(from).count(), 1, "{from}");
        text = text.replace(from, to);
    }
    checked(&text)
}

/// A bowl keeps for 168 hours: seven daily rounds, and an eighth only where a clock change makes the week 167 hours.
#[test]
fn one_bowl_of_iodide_serves_a_week_and_eight_rounds_over_the_clock_change() {
    let order = daily_iodide();
    for (first, last, born, bowls) in [
        (17, 23, "2031-03-15", 1),
        (17, 24, "2031-03-15", 2),
        (5, 12, "2031-03-03", 1),
        (5, 13, "2031-03-03", 2),
    ] {
        let rounds = rounds(&mornings_of_march(first, last), 1);
        let plan = planned(&order, &seats(&[newborn(born)]), &rounds, &[], false);
        assert_eq!(plan.held.len(), 0);
        check(&IODIDE, &rounds, &[], &plan, |_, _| Some(2));
        assert_eq!(plan.bowls.len(), bowls, "{first} to {last} March");
        assert!(plan.proven);
    }
}

/// A month old on 20 March and over it the day after: a teaspoon up to the 20th, two from then on.
#[test]
fn a_baby_crosses_the_row_within_the_course() {
    let order = daily_iodide();
    let rounds = rounds(&mornings_of_march(17, 23), 1);
    let plan = planned(
        &order,
        &seats(&[newborn("2031-02-20")]),
        &rounds,
        &[],
        false,
    );
    let dose = |round: usize, _: usize| Some(if round < 4 { 2 } else { 4 });
    check(&IODIDE, &rounds, &[], &plan, dose);
    // Four teaspoons and three times two are ten: two bowls of eight.
    assert_eq!(plan.bowls.len(), 2);
}

/// The demo order gives a newborn one dose, whatever the course; who had it has none.
#[test]
fn most_doses_limits_a_newborn_to_one() {
    let order = demo_order("quillmere-iodide-1");
    let rounds = rounds(&mornings_of_march(17, 19), 2);
    let people = [newborn("2031-03-15"), newborn("2029-03-15")];
    for (had, doses) in [(0, vec![2, 1, 1]), (1, vec![1, 1, 1])] {
        let mut seats = seats(&people);
        seats[0].had = had;
        let plan = planned(&order, &seats, &rounds, &[], false);
        let given: Vec<usize> = plan.rounds.iter().map(|round| round.doses.len()).collect();
        assert_eq!(given, doses, "had {had}");
    }
}

/// G3, C21: whole packs of twenty; the spare of four counts before rounding up, and packs of one's own are rounded for each.
#[test]
fn what_is_handed_out_is_whole_packs() {
    let own = demo_text("orders/quillmere-doxy-1").replace(
        "hand-out = \"plan + spare\"\nspare = 4",
        "hand-out = \"per-person\"",
    );
    let spare = demo_order("quillmere-doxy-1");
    let own = checked(&own);
    // Four half teaspoons twice a day: a bowl a day. A grown-up: two tablets a day.
    let people = [child(4).person, grown(true).person];
    for (days, plan_packs, own_packs) in
        [(5, 1, 1 + 1), (6, 2, 1 + 1), (10, 2, 1 + 1), (11, 2, 2 + 2)]
    {
        let rounds = rounds(&every(12, days * 2), 2);
        let handed = |order: &CheckedOrder| {
            let seats = seats(&people);
            let plan = planned(order, &seats, &rounds, &[], false);
            let needs = shopping(order, &plan, &seats);
            let packs = needs
                .iter()
                .find(|need| need.what().starts_with("that is packs of 20"));
            (
                supply(order, &plan, &seats),
                packs.expect("packs").amount.to_string(),
            )
        };
        let (by_plan, text) = handed(&spare);
        let used = u64::try_from(days * 3).expect("few");
        assert_eq!((by_plan.tablets, by_plan.spare), (used, 4));
        assert_eq!(by_plan.packs, Some(plan_packs), "{days} days");
        assert_eq!(
            (by_plan.handed_out, text),
            (plan_packs * 20, plan_packs.to_string())
        );
        let (each, text) = handed(&own);
        assert_eq!(
            (each.tablets, each.spare, each.packs),
            (used, 0, Some(own_packs)),
            "{days} days"
        );
        assert_eq!(text, own_packs.to_string());
    }
}
