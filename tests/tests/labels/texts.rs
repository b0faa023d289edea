//! The sentences of doses, refusals, plans, checks and comparisons.

use std::path::Path;

use hearthdose_core::dose::{self, Dose, DoseForm};
use hearthdose_core::household::{Person, parse_file};
use hearthdose_core::mixture::{self, RoundTime, Seat, Wish};
use hearthdose_core::order::{CheckedOrder, check_bytes, compare};
use hearthdose_tests::people::{self, Dice, checked, demo_order, demo_text, weighing_and_aged};
use hearthdose_ui::text::{Language, Reader, Words};
use jiff::Timestamp;

use super::keeps_the_rules;

const ORDERS: [&str; 4] = [
    "quillmere-doxy-1",
    "quillmere-doxy-2",
    "quillmere-ciprofloxacin-1",
    "quillmere-iodide-1",
];

/// Everything said about one person; how somebody typed a weight is theirs.
fn said(order: &CheckedOrder, person: &Person, day: jiff::civil::Date) {
    let typed = person.weight().map_or("", |weight| weight.typed());
    let own = |text: &str| {
        let text = text.strip_prefix(typed).unwrap_or(text);
        // The issuer's own words about the source.
        text.split(", chart from: ")
            .next()
            .map(str::to_owned)
            .unwrap_or_default()
    };
    match dose::work_out(order, person, day) {
        Ok(dose) => {
            keeps_the_rules(&dose.text);
            keeps_the_rules(&own(&dose.row_text));
            dose.trace
                .iter()
                .for_each(|line| keeps_the_rules(&own(&line.text)));
            keeps_to_the_form(&dose);
        }
        Err(reasons) => reasons
            .iter()
            .for_each(|reason| keeps_the_rules(&own(&reason.text))),
    }
}

/// The caregiver's main amount: spoons and mL from a bowl, mL and the strength from a bottle, tablets alone.
/// Milligrams stay off it (mg and mL look alike), but a liquid's strength stands beside its amount.
fn keeps_to_the_form(dose: &Dose) {
    let text = &dose.text;
    match dose.form {
        DoseForm::Mixture => assert!(text.contains(" mL") && !text.contains("mg"), "{text}"),
        DoseForm::Liquid => {
            let amount = format!("{} mL of the liquid with ", dose.amount.millilitres());
            assert!(
                text.starts_with(&amount) && text.contains(" mg per "),
                "{text}"
            );
        }
        DoseForm::Tablets => assert!(
            !text.contains("mL") && text.contains("whole tablet"),
            "{text}"
        ),
    }
}

#[test]
fn every_dose_and_refusal_of_the_demo_orders() {
    for name in ORDERS {
        let order = demo_order(name);
        for tenths in 20..=1_800 {
            let weight = format!("{}.{} lb", tenths / 10, tenths % 10);
            for age in ["", "20 d", "adult", "2031-02-01", "9 y"] {
                for swallows in [false, true] {
                    let mut person = weighing_and_aged(&weight, age);
                    person.swallows_tablets = swallows;
                    said(&order, &person, people::DAY);
                }
            }
        }
        let mut nobody = Person::named("Ada");
        said(&order, &nobody, people::DAY);
        nobody.age = Some(people::told("adult"));
        said(&order, &nobody, people::DAY);
    }
}

#[test]
fn every_dose_and_refusal_of_random_orders() {
    let mut dice = Dice::new(21);
    for _ in 0..300 {
        let made = people::order(&mut dice);
        let order = checked(&made.toml);
        for _ in 0..30 {
            let patient = people::patient(&mut dice, &made);
            let mut person = people::person(&patient);
            said(&order, &person, people::date(patient.day));
            person.cleared = true;
            person.answers.clear();
            said(&order, &person, people::date(patient.day));
        }
    }
}

/// The shopping list and the labels of the covered bowls over two days: the three demo households,
/// and a child of 45 lb alone, whose bowl serves two rounds.
#[test]
fn lists_and_bowl_labels() {
    let order = demo_order("quillmere-doxy-1");
    let households = ["alder-1", "tarn-4", "ferrow-9"].map(|name| {
        let file = parse_file(&demo_text(&format!("households/{name}"))).expect("a household");
        file.people
    });
    let alone = vec![weighing_and_aged("45 lb", "6 y")];
    let mut labels = 0;
    for people in households.into_iter().chain([alone]) {
        let seats = people.into_iter().map(|person| Seat {
            person,
            had: 0,
            renewed: 0,
        });
        let seats: Vec<Seat> = seats.collect();
        let at = |hour: i64| {
            let first = Timestamp::from_second(1_932_800_400).expect("an instant");
            first + jiff::SignedDuration::from_hours(hour)
        };
        let rounds: Vec<RoundTime> = (0..4)
            .map(|round| RoundTime {
                at: at(12 * round),
                day: people::DAY,
                who: (0..seats.len()).collect(),
            })
            .collect();
        let wish = Wish {
            order: &order,
            seats: &seats,
            rounds: &rounds,
            standing: &[],
            fresh: false,
        };
        let plan = mixture::plan(&wish, &mut |_, _| {}).expect("a plan");
        for need in mixture::shopping(&order, &plan, &seats) {
            keeps_the_rules(&need.amount.to_string());
            keeps_the_rules(&need.what());
        }
        for bowl in &plan.bowls {
            let Some(label) = mixture::label_of(&order, &plan, &seats, bowl) else {
                continue;
            };
            labels += 1;
            for (_, amount, _) in &label.people {
                keeps_the_rules(amount);
            }
        }
    }
    assert!(labels > 0, "no bowl was kept for a later round");
}

/// A sentence may end after a quantity; on its own line the full stop is the sentence's.
fn in_a_sentence(text: &str) {
    // A ratio is shown with two decimals throughout, so that ratios can be compared.
    let ratio =
        |word: &str| word.contains('.') && word.split('.').nth(1).is_some_and(|d| d.len() == 2);
    let words: Vec<&str> = text.trim_end_matches('.').split(' ').collect();
    let kept = words.iter().enumerate().filter(|(index, word)| {
        let next = words.get(index + 1).copied().unwrap_or_default();
        !(next.starts_with("mg/kg") && ratio(word))
    });
    let kept: Vec<&str> = kept.map(|(_, word)| *word).collect();
    keeps_the_rules(&kept.join(" "));
}

#[test]
fn checks_and_comparisons_of_orders() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../demo-data/damaged");
    let mut checked = 0;
    for entry in std::fs::read_dir(folder).expect("damaged orders") {
        let path = entry.expect("a file").path();
        let bytes = std::fs::read(&path).expect("a file");
        for problem in check_bytes(&bytes, &[]) {
            // What to type is told in the words of the file: `tsp`.
            if problem.code.starts_with("quantity-") {
                continue;
            }
            // What is quoted was written by somebody else.
            let own: Vec<&str> = problem.text.split(['“', '”']).step_by(2).collect();
            own.iter().for_each(|part| in_a_sentence(part));
            checked += 1;
        }
    }
    assert!(checked > 60, "only {checked} problems");
    let (first, second) = (
        demo_order("quillmere-doxy-1"),
        demo_order("quillmere-doxy-2"),
    );
    let words = Words::load(Language::English);
    for change in compare(&first, &second) {
        let text = words.change(&change, Reader::Desk);
        // The issuer's own words again.
        if !text.starts_with("source ") {
            in_a_sentence(&text);
        }
    }
}
