//! Weighing in somebody's arms (D23), old weights (D25), and a weight that another row serves (G8).
//!
//! The expectations are pounds, days and the printed rows: "up to 12 lb" ½ tsp, "13 to 25 lb" 1 tsp, "26 to 38 lb" 1½ tsp.

use hearthdose_core::growth::{self, Sex};
use hearthdose_core::household::{Manner, WeighAgain, WeighedTogether, Weighing, weigh_together};
use hearthdose_core::record::PersonRecord;
use hearthdose_core::today::{AskWeight, ask_weight, crossing, daily_gain, seated};
use hearthdose_core::units::{Age, AgeSpan, BodyWeight};
use hearthdose_tests::people::{DAY, weighing};
use jiff::ToSpan;
use proptest::prelude::*;

use super::{doxycycline, give, iodide, somebody};

fn weight(text: &str) -> BodyWeight {
    BodyWeight::parse(text).expect("a weight")
}

fn pair(together: &str, alone: &str) -> WeighedTogether {
    WeighedTogether {
        together: weight(together),
        alone: weight(alone),
    }
}

fn at_home(text: &str, days_ago: i32) -> Weighing {
    Weighing {
        on: Some(DAY - days_ago.days()),
        manner: Manner::Alone,
        ..weighing(text)
    }
}

fn weighed(text: &str, age: &str, days_ago: i32) -> PersonRecord {
    let mut record = PersonRecord::of(somebody("", age));
    record.weigh(at_home(text, days_ago));
    record
}

#[test]
fn d23_two_pairs_of_readings_give_their_mean() {
    let mean = |one: WeighedTogether, two: WeighedTogether| weigh_together(&one, &two);
    // 12.0 and 12.4 lb: half of 24.4 is 12.2.
    let found = mean(pair("152.2 lb", "140.2 lb"), pair("152.8 lb", "140.4 lb")).expect("a mean");
    assert_eq!(
        (found.typed(), found.clone()),
        ("12.2 lb", weight("12.2 lb"))
    );
    let ounces = mean(
        pair("152 lb 4 oz", "140 lb"),
        pair("152 lb 8 oz", "140 lb 2 oz"),
    );
    // 12 lb 4 oz and 12 lb 6 oz.
    assert_eq!(ounces.expect("a mean").typed(), "12 lb 5 oz");
    let kilograms = mean(pair("70.1 kg", "64.6 kg"), pair("70.2 kg", "64.6 kg"));
    assert_eq!(kilograms.expect("a mean").typed(), "5.55 kg");
    // Half a pound apart is still together; an ounce more is not.
    assert!(mean(pair("152 lb", "140 lb"), pair("152.5 lb", "140 lb")).is_ok());
    let apart = mean(pair("152 lb", "140 lb"), pair("152 lb 9 oz", "140 lb"));
    assert_eq!(apart.expect_err("apart").code(), "weighings-apart");
    let turned = mean(pair("140 lb", "152 lb"), pair("152 lb", "140 lb"));
    assert!(matches!(turned, Err(WeighAgain::NotHeavier { .. })));
    let nobody = mean(pair("140 lb", "140 lb"), pair("152 lb", "140 lb"));
    assert_eq!(nobody.expect_err("nobody").code(), "together-not-heavier");
}

/// The mean's row, not the first reading's: 12 lb 4 oz and 12 lb 12 oz are ½ and 1 teaspoon, their mean ½.
#[test]
fn d23_the_row_is_the_means() {
    let found = weigh_together(
        &pair("152 lb 4 oz", "140 lb"),
        &pair("152 lb 12 oz", "140 lb"),
    );
    let mut child = somebody("", "4 mo");
    child.weighing = Some(weighing(found.expect("a mean").typed()));
    assert_eq!(give(&doxycycline(), &child).text, "½ teaspoon (2.5 mL)");
}

#[test]
fn d23_a_small_loss_moves_nobody_down_without_a_second_weighing() {
    let order = doxycycline();
    let text = |record: &PersonRecord| give(&order, &seated(&order, record)).text;
    // Between the rows ½ teaspoon, 12.5 mg, is enough for 2.2 mg/kg up to 5.68 kg: 12 lb 8 oz.
    let mut child = weighed("12 lb 15 oz", "6 mo", 5);
    assert_eq!(text(&child), "1 teaspoon (5 mL)");
    child.weigh(at_home("12 lb 8 oz", 0));
    assert_eq!(text(&child), "1 teaspoon (5 mL)", "one weighing");
    let asked = ask_weight(&order, &child, DAY);
    let before = weight("12 lb 15 oz");
    assert_eq!(asked, [AskWeight::LostALittle { before }]);
    let mut again = child.clone();
    again.weigh(at_home("12 lb 8 oz", 0));
    assert_eq!(text(&again), "½ teaspoon (2.5 mL)", "weighed twice");
    assert_eq!(ask_weight(&order, &again, DAY), []);
    let mut gained = child.clone();
    gained.weigh(at_home("13 lb 1 oz", 0));
    assert_eq!(text(&gained), "1 teaspoon (5 mL)");
    assert_eq!(ask_weight(&order, &gained, DAY), []);
    // Half a pound is no small loss, and a site's scale is believed at once.
    let mut much = weighed("13 lb", "6 mo", 5);
    much.weigh(at_home("12 lb 8 oz", 0));
    assert_eq!(text(&much), "½ teaspoon (2.5 mL)");
    let mut site = weighed("12 lb 15 oz", "6 mo", 5);
    site.weigh(Weighing {
        manner: Manner::Site,
        ..at_home("12 lb 8 oz", 0)
    });
    assert_eq!(text(&site), "½ teaspoon (2.5 mL)");
}

/// Two weeks under two years, sixty days above; in the middle of a row.
#[test]
fn d25_an_old_weight_is_asked_about() {
    let order = doxycycline();
    let ask = |text: &str, age: &str, days: i32| ask_weight(&order, &weighed(text, age, days), DAY);
    assert_eq!(ask("20 lb", "14 mo", 14), []);
    let old = |days, limit| AskWeight::Old { days, limit };
    assert_eq!(ask("20 lb", "14 mo", 15), [old(15, 14)]);
    assert_eq!(ask("31 lb", "3 y", 60), []);
    assert_eq!(ask("31 lb", "3 y", 61), [old(61, 60)]);
    assert_eq!(ask("31 lb", "", 15), [old(15, 14)], "an unknown age");
    assert_eq!(ask("31 lb", "3 y", -1), [AskWeight::DayUnknown]);
    let mut undated = PersonRecord::of(somebody("31 lb", "3 y"));
    undated.person.weighing.as_mut().expect("a weighing").on = None;
    assert_eq!(ask_weight(&order, &undated, DAY), [AskWeight::DayUnknown]);
    // A grown-up needs no weight, a chart by age nobody's; and who was never weighed is held elsewhere.
    assert_eq!(ask("150 lb", "adult", 400), []);
    assert_eq!(
        ask_weight(&iodide(), &weighed("31 lb", "3 y", 400), DAY),
        []
    );
    let never = PersonRecord::of(somebody("", "3 y"));
    assert_eq!(ask_weight(&order, &never, DAY), []);
}

/// A newborn gains an ounce a day and more: from 12 lb the next row is near, from 9 lb it is not.
#[test]
fn d25_near_an_edge_it_is_asked_sooner() {
    let order = doxycycline();
    let ask = |text: &str, age: &str, days: i32| ask_weight(&order, &weighed(text, age, days), DAY);
    assert_eq!(ask("9 lb", "6 wk", 7), []);
    // 12 lb 4 oz and 7 times 45 g are more than 12 lb 9 oz, where ½ teaspoon is no longer enough.
    let grown = AskWeight::MayHaveGrown { days: 7 };
    assert_eq!(ask("12 lb 4 oz", "6 wk", 7), [grown]);
    assert_eq!(ask("12 lb 4 oz", "6 wk", 0), []);
    // 13 lb less the scale's half pound: over seven days of fourteen, and not before.
    let near = AskWeight::NearEdge { days: 8 };
    assert_eq!(ask("13 lb", "11 mo", 8), [near]);
    assert_eq!(ask("13 lb", "11 mo", 7), []);
    // The dose that is due goes on.
    let record = weighed("12 lb 4 oz", "6 wk", 300);
    let text = give(&order, &seated(&order, &record)).text;
    assert_eq!(text, "½ teaspoon (2.5 mL)");
}

#[test]
fn g8_a_new_row_is_told_with_both_doses() {
    let order = doxycycline();
    let record = weighed("12 lb", "4 mo", 10);
    let crossed = crossing(&order, &record, &at_home("13 lb", 0), DAY).expect("another row");
    assert_eq!(crossed.old.text, "½ teaspoon (2.5 mL)");
    assert_eq!(crossed.new.text, "1 teaspoon (5 mL)");
    assert_eq!(crossing(&order, &record, &at_home("11 lb", 0), DAY), None);
    // A small loss crosses nothing yet.
    let heavier = weighed("12 lb 15 oz", "4 mo", 10);
    assert_eq!(
        crossing(&order, &heavier, &at_home("12 lb 8 oz", 0), DAY),
        None
    );
    assert_eq!(crossing(&order, &record, &at_home("5 lb", 0), DAY), None);
}

/// Weight at which WHO's z-score turns positive: the median, to a gram.
fn median_grams(sex: Sex, days: u32) -> u32 {
    let above = |grams: u32| {
        let weight = growth::kilograms(f64::from(grams) / 1000.0);
        growth::weight_for_age(sex, days, weight)
            .expect("in the tables")
            .z
            > 0.0
    };
    let (mut low, mut high) = (1_000, 60_000);
    while high - low > 1 {
        let middle = u32::midpoint(low, high);
        if above(middle) {
            high = middle;
        } else {
            low = middle;
        }
    }
    high
}

/// No fortnight of WHO's median child gains more than the rule says, from the third week to nine and a half years.
#[test]
fn d25_the_daily_gain_is_at_least_the_published_one() {
    for sex in [Sex::Female, Sex::Male] {
        for days in (14..3_450).step_by(14) {
            let age = Some(Age::Told(AgeSpan::days(days)));
            let allowed = 14 * daily_gain(age).grams;
            let gained = median_grams(sex, days + 14).saturating_sub(median_grams(sex, days));
            assert!(gained <= allowed + 14, "{sex:?} {days} days: {gained} g");
        }
    }
    assert_eq!(daily_gain(None).grams, 45);
    assert_eq!(daily_gain(Some(Age::Adult)).grams, 0);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    /// In tenths of a pound: alone, the child, and how far the second pair is off.
    #[test]
    fn the_mean_is_exact_and_can_be_read_back(alone in 800..3_000_u64, child in 20..800_u64, off in -20..20_i64, moved in 0..300_u64) {
        let tenths = |n: u64| weight(&format!("{}.{} lb", n / 10, n % 10));
        let second = child.saturating_add_signed(off);
        prop_assume!(second > 0);
        let one = WeighedTogether { together: tenths(alone + child), alone: tenths(alone) };
        let two = WeighedTogether { together: tenths(alone + moved + second), alone: tenths(alone + moved) };
        match weigh_together(&one, &two) {
            Ok(mean) => {
                prop_assert!(off.abs() <= 5);
                // Twentieths of a pound.
                let twentieths = child + second;
                prop_assert_eq!(&mean, &weight(&format!("{twentieths}/20 lb")));
                prop_assert_eq!(&weight(mean.typed()), &mean);
            }
            Err(again) => {
                prop_assert!(off.abs() > 5);
                prop_assert_eq!(again.code(), "weighings-apart");
            }
        }
    }

    // promise: P21
    /// Whatever is weighed at home, the row goes down only by half a pound at once or by two weighings.
    #[test]
    fn no_single_small_loss_lowers_a_row(ounces in prop::collection::vec(120..500_u64, 2..12)) {
        let order = doxycycline();
        let read = |n: u64| at_home(&format!("{} lb {} oz", n / 16, n % 16), 0);
        let row = |record: &PersonRecord| give(&order, &seated(&order, record)).row;
        let mut record = PersonRecord::of(somebody("", "3 y"));
        record.person.weighing = None;
        let mut shown: Vec<usize> = Vec::new();
        for (index, now) in ounces.iter().enumerate() {
            let mut reading = read(*now);
            reading.hold_lifted = true;
            record.weigh(reading);
            shown.push(row(&record));
            let Some(before) = index.checked_sub(1) else { continue };
            let lowered = shown[index] < shown[before];
            let small = ounces[before].saturating_sub(*now) < 8;
            let twice = index >= 2 && ounces[index - 2] > ounces[before].max(*now);
            prop_assert!(!lowered || !small || twice, "{ounces:?} at {index}");
        }
    }
}
