//! Laws that hold for every order, on the demo orders weight by weight and on random orders.

use std::cmp::Ordering;
use std::collections::BTreeSet;

use hearthdose_core::dose::{self, Dose};
use hearthdose_core::household::Person;
use hearthdose_core::order::{ChartBy, CheckedOrder, Limit, Measure};
use hearthdose_core::units::{Age, BodyWeight};
use hearthdose_tests::oracle::Fraction;
use hearthdose_tests::people::{
    self, DAY, Dice, MadeOrder, checked, demo_order, someone, weighing,
};

use super::refusals;

const WEIGHT_CHARTS: [&str; 3] = [
    "quillmere-doxy-1",
    "quillmere-doxy-2",
    "quillmere-ciprofloxacin-1",
];

/// Hundredths of a pound.
fn pounds(hundredths: u32) -> String {
    format!("{}.{:02} lb", hundredths / 100, hundredths % 100)
}

/// Somebody of unknown age whose weight was checked twice.
fn of_weight(text: &str) -> Person {
    let mut person = someone();
    person.weighing = Some(weighing(text));
    person.weighing.as_mut().expect("a weighing").hold_lifted = true;
    person
}

/// Rows whose printed limits hold for this weight, found without the program's own search.
fn rows_of(order: &CheckedOrder, weight: &BodyWeight) -> Vec<usize> {
    let rows = order.rows.iter().enumerate();
    rows.filter(|(_, row)| !not_begun(row.from.as_ref(), weight) && !ended(row.to.as_ref(), weight))
        .map(|(index, _)| index)
        .collect()
}

/// Random weight charts with a few hundred weights in and around each, in order.
fn random_charts(
    seed: u64,
    many: usize,
    mut each: impl FnMut(&MadeOrder, &CheckedOrder, &[BodyWeight]),
) {
    let mut dice = Dice::new(seed);
    let mut done = 0;
    while done < many {
        let made = people::order(&mut dice);
        if made.by_age {
            continue;
        }
        let mut weights: Vec<BodyWeight> = (0..200)
            .filter_map(|_| people::patient(&mut dice, &made).weight)
            .map(|text| BodyWeight::parse(&text).expect("a weight"))
            .collect();
        weights.sort();
        each(&made, &checked(&made.toml), &weights);
        done += 1;
    }
}

fn in_one_row(order: &CheckedOrder, weight: &BodyWeight) {
    let printed = rows_of(order, weight);
    assert!(printed.len() <= 1, "{weight} is in rows {printed:?}");
    let person = of_weight(weight.typed());
    match dose::work_out(order, &person, DAY) {
        Ok(dose) => match printed.first() {
            Some(row) => assert_eq!(dose.row, *row, "{weight}"),
            // In a printed gap: the row that has ended or the row that has not begun, and never another.
            None => {
                let pairs = order.rows.iter().zip(order.rows.iter().skip(1)).enumerate();
                let gap = pairs.filter(|(_, (lower, upper))| {
                    ended(lower.to.as_ref(), weight) && not_begun(upper.from.as_ref(), weight)
                });
                let gap: Vec<usize> = gap.map(|(index, _)| index).collect();
                assert_eq!(gap.len(), 1, "{weight}");
                assert!(dose.row == gap[0] || dose.row == gap[0] + 1, "{weight}");
            }
        },
        Err(reasons) => {
            assert_eq!(reasons.len(), 1, "{weight}: {reasons:?}");
            let lightest = order.medicine.lightest.as_ref();
            match reasons[0].code {
                "below-lightest" => assert!(lightest.is_some_and(|limit| weight < limit)),
                "outside-chart" => {
                    let first = order.rows[0].from.as_ref();
                    assert!(not_begun(first, weight) && printed.is_empty());
                }
                other => panic!("{weight}: {other}"),
            }
        }
    }
}

fn beside(limit: &Limit, weight: &BodyWeight) -> Ordering {
    match &limit.at {
        Measure::Weight(at) => weight.cmp(at),
        Measure::Age(_) => panic!("a chart by weight"),
    }
}

fn ended(limit: Option<&Limit>, weight: &BodyWeight) -> bool {
    limit.is_some_and(|limit| {
        let order = beside(limit, weight);
        order.is_gt() || (order.is_eq() && !limit.inclusive)
    })
}

fn not_begun(limit: Option<&Limit>, weight: &BodyWeight) -> bool {
    limit.is_some_and(|limit| {
        let order = beside(limit, weight);
        order.is_lt() || (order.is_eq() && !limit.inclusive)
    })
}

#[test]
fn every_weight_is_in_exactly_one_row() {
    for name in WEIGHT_CHARTS {
        let order = demo_order(name);
        for hundredths in 100..=12_000 {
            in_one_row(
                &order,
                &BodyWeight::parse(&pounds(hundredths)).expect("a weight"),
            );
        }
    }
    random_charts(11, 150, |_, order, weights| {
        weights.iter().for_each(|weight| in_one_row(order, weight));
    });
}

fn never_less(order: &CheckedOrder, weights: &[BodyWeight]) {
    let mut before: Option<(BodyWeight, Dose)> = None;
    for weight in weights {
        let Ok(dose) = dose::work_out(order, &of_weight(weight.typed()), DAY) else {
            assert!(
                before.is_none(),
                "{weight} gets nothing, a lighter person did"
            );
            continue;
        };
        if let Some((lighter, less)) = &before {
            assert!(
                dose.amount >= less.amount && dose.row >= less.row,
                "{weight} gets less than {lighter}"
            );
        }
        before = Some((weight.clone(), dose));
    }
}

#[test]
fn a_heavier_person_never_gets_less() {
    for name in WEIGHT_CHARTS {
        let weights = (200..=12_000).map(|h| BodyWeight::parse(&pounds(h)).expect("a weight"));
        never_less(&demo_order(name), &weights.collect::<Vec<_>>());
    }
    random_charts(12, 150, |_, order, weights| never_less(order, weights));
}

/// The exact ratio of the dose to `per-kg` × weight stays within the order's tolerance; nothing but a written reason leaves it.
fn within_tolerance(order: &CheckedOrder, weight: &BodyWeight) -> bool {
    let medicine = &order.medicine;
    let (Some(per_kg), Some(tolerance)) = (medicine.per_kg, medicine.tolerance) else {
        return false;
    };
    let Ok(dose) = dose::work_out(order, &of_weight(weight.typed()), DAY) else {
        return false;
    };
    if order.rows[dose.row].reason.is_some() {
        return false;
    }
    let exact = |value: u64| Fraction::whole(i128::from(value));
    let share = |percent: u32| Fraction::new(i128::from(percent), 100_000);
    let kilograms = exact(weight.as_picograms()) / exact(1_000_000_000_000_000);
    let target = exact(per_kg.as_micrograms()) * kilograms;
    let most = target * share(tolerance.over.above_whole().as_thousandths());
    let given = exact(dose.mass.as_micrograms());
    assert!(given <= most, "{weight} gets {}", dose.mass);
    let wanted = match medicine.max_dose {
        Some(largest) => target.min(exact(largest.as_micrograms())),
        // Without a largest dose nothing says how far the last row reaches.
        None if dose.row + 1 == order.rows.len() => return true,
        None => target,
    };
    let least = wanted * share(tolerance.under.below_whole().as_thousandths());
    assert!(given >= least, "{weight} gets only {}", dose.mass);
    true
}

#[test]
fn no_dose_leaves_the_tolerance() {
    for name in WEIGHT_CHARTS {
        let order = demo_order(name);
        let tested = (200..=12_000).filter(|hundredths| {
            within_tolerance(
                &order,
                &BodyWeight::parse(&pounds(*hundredths)).expect("a weight"),
            )
        });
        assert!(tested.count() > 6_000, "{name}");
    }
    let mut tested = 0;
    random_charts(13, 250, |_, order, weights| {
        // A row without a lightest person has no upper bound to be checked against.
        let open = order.medicine.lightest.is_none();
        tested += weights
            .iter()
            .filter(|weight| !open && within_tolerance(order, weight))
            .count();
    });
    assert!(tested > 5_000, "only {tested} weights");
}

// promise: P2
#[test]
fn whole_tablets_only_for_swallowers_of_whole_rows() {
    let mut dice = Dice::new(14);
    let (mut tablets, mut bowls) = (0, 0);
    for _ in 0..250 {
        let made = people::order(&mut dice);
        let order = checked(&made.toml);
        for _ in 0..30 {
            let patient = people::patient(&mut dice, &made);
            let day = people::date(patient.day);
            let mut person = people::person(&patient);
            person.swallows_tablets = false;
            let Ok(bowl) = dose::work_out(&order, &person, day) else {
                continue;
            };
            assert_eq!(bowl.tablets, None);
            person.swallows_tablets = true;
            let dose =
                dose::work_out(&order, &person, day).expect("swallowing changes no screening");
            assert_eq!(
                (dose.row, dose.amount, dose.mass),
                (bowl.row, bowl.amount, bowl.mass)
            );
            match dose.tablets {
                None => bowls += 1,
                Some(count) => {
                    tablets += 1;
                    let product = order.main_product().expect("a product");
                    let hearthdose_core::units::Strength::PerTablet(one) = product.strength else {
                        panic!("a tablet of a liquid");
                    };
                    assert!(product.whole_if_row_allows);
                    assert_eq!(one.checked_mul(u64::from(count)), Some(dose.mass));
                }
            }
        }
    }
    assert!(tablets > 200 && bowls > 1_000, "{tablets} and {bowls}");
}

// promise: P3
#[test]
fn nobody_below_youngest_or_lightest_gets_a_dose() {
    let mut dice = Dice::new(15);
    let (mut young, mut light) = (0, 0);
    for _ in 0..400 {
        let made = people::order(&mut dice);
        let order = checked(&made.toml);
        for _ in 0..25 {
            let patient = people::patient(&mut dice, &made);
            let day = people::date(patient.day);
            let mut person = people::person(&patient);
            // Everything that can be said in favour of a dose is said.
            person.cleared = true;
            person.answers.clear();
            person.born_early = Some(hearthdose_core::household::Answer::No);
            person.lifted = [
                "born-early",
                "below-youngest",
                "below-lightest",
                "youngest",
                "lightest",
            ]
            .map(str::to_owned)
            .into();
            let below_youngest = match (order.medicine.youngest, person.age_on(day)) {
                (Some(limit), Some(age @ Age::Born { born, on })) => {
                    assert_eq!(
                        age.reached(limit),
                        on >= limit.reached_on(born).expect("a date")
                    );
                    born <= on && limit.reached_on(born).is_some_and(|reached| on < reached)
                }
                (Some(limit), Some(age)) => !age.reached(limit),
                _ => false,
            };
            let below_lightest = match (&order.medicine.lightest, person.weight()) {
                (Some(limit), Some(weight)) => weight.as_picograms() < limit.as_picograms(),
                _ => false,
            };
            let Err(reasons) = dose::work_out(&order, &person, day) else {
                assert!(!below_youngest && !below_lightest, "{}", made.toml);
                continue;
            };
            let codes: BTreeSet<&str> = reasons.iter().map(|reason| reason.code).collect();
            assert_eq!(
                codes.contains("below-youngest"),
                below_youngest,
                "{codes:?}"
            );
            if !codes.contains("born-after-dose") {
                assert_eq!(
                    codes.contains("below-lightest"),
                    below_lightest,
                    "{codes:?}"
                );
            }
            young += usize::from(below_youngest);
            light += usize::from(below_lightest);
        }
    }
    assert!(young > 200 && light > 200, "{young} and {light}");
}

// promise: P1
#[test]
fn no_dose_without_screening_and_weight() {
    for name in WEIGHT_CHARTS {
        let order = demo_order(name);
        assert_eq!(order.chart_by(), ChartBy::Weight);
        let mut person = someone();
        assert_eq!(refusals(&order, &person), ["weight-needed"]);
        person.cleared = false;
        assert_eq!(
            refusals(&order, &person),
            ["screening-not-done", "weight-needed"]
        );
        person.weighing = Some(weighing("60 lb"));
        assert_eq!(refusals(&order, &person), ["screening-not-done"]);
        // A child of known age without a weight: no row is guessed from the age.
        person.cleared = true;
        person.weighing = None;
        person.age = Some(people::told("9 y"));
        assert_eq!(refusals(&order, &person), ["weight-needed"]);
    }
    let order = demo_order("quillmere-iodide-1");
    let mut person = someone();
    person.weighing = Some(weighing("60 lb"));
    assert_eq!(refusals(&order, &person), ["age-needed"]);
}
