//! The tablets of a population, against homes worked out by hand.
//!
//! Lines of the chart used here: up to 12 lb half a teaspoon, 13 to 25 lb one, 26 to 38 lb one and a half; a bowl holds four and serves two rounds.

use std::fmt::Write;

use hearthdose_core::forecast::{Forecast, Population, Refusal, forecast, read};
use hearthdose_core::order::CheckedOrder;
use hearthdose_tests::people::{checked, demo_order, demo_text};

const DAYS: u32 = 10;
const ROUNDS: u64 = 20;

fn population(lines: &[&str]) -> Population {
    let text = format!("sex,age,weight,people,home\n{}\n", lines.join("\n"));
    read(text.as_bytes()).unwrap_or_else(|problems| panic!("{problems:?}"))
}

fn doxycycline() -> CheckedOrder {
    demo_order("quillmere-doxy-2")
}

fn of(order: &CheckedOrder, lines: &[&str], days: u32) -> Forecast {
    let found = forecast(order, &population(lines), days, &mut |_, _| {});
    found.unwrap_or_else(|refusal| panic!("{refusal}"))
}

/// Expected, low and high.
fn tablets(lines: &[&str]) -> (u64, u64, u64) {
    let found = of(&doxycycline(), lines, DAYS);
    assert!(found.proven);
    let range = found.tablets;
    (range.expected, range.low, range.high)
}

/// A home of four grown people takes four tablets a round, whatever the dice say.
#[test]
fn four_adults_take_four_tablets_a_round() {
    for line in [",adult,,4,4", "f,30-39 y,,4,", "m,65+,150 lb,4,2"] {
        let found = of(&doxycycline(), &[line], DAYS);
        let four = 4 * ROUNDS;
        assert_eq!((found.people, found.rounds), (4, ROUNDS));
        assert_eq!(found.one_tablet_per_dose, four);
        assert_eq!(
            (
                found.tablets.low,
                found.tablets.expected,
                found.tablets.high
            ),
            (four, four, four)
        );
    }
    // 80 and a spare of 4 are five packs of 20.
    let found = of(&doxycycline(), &[",adult,,4,4"], DAYS);
    assert_eq!(found.homes.expected, 1);
    assert_eq!(found.packs.map(|packs| packs.high), Some(5));
    assert_eq!(found.handed_out.expected, 100);
    // Four homes of one: 20 and a spare of 4 are two packs each.
    let found = of(&doxycycline(), &[",adult,,4,1"], DAYS);
    assert_eq!(found.packs.map(|packs| packs.low), Some(8));
}

/// Two children of 30 lb need six half teaspoons of eight each round; a bowl kept for the next round holds no third dose more.
#[test]
fn bowls_are_shared_within_a_home() {
    let together = tablets(&[",adult,,2,4", ",3 y,30 lb,2,4"]);
    let whole = 2 * ROUNDS;
    assert_eq!(together.0, whole + ROUNDS);
    // Alone with an adult, two rounds of a child are one bowl; so two homes come to the same.
    assert_eq!(
        tablets(&[",adult,,2,2", ",3 y,30 lb,2,2"]).0,
        whole + ROUNDS
    );
    // Three babies of half a teaspoon share one bowl of two rounds, three homes of one baby make three.
    let shared = tablets(&[",adult,,1,4", ",4 mo,10 lb,3,4"]);
    assert_eq!(shared.0, ROUNDS + ROUNDS / 2);
    let apart = tablets(&[",adult,,3,2", ",4 mo,10 lb,3,2"]);
    assert_eq!(apart.0, 3 * ROUNDS + 3 * ROUNDS / 2);
}

/// Four adults and four children of 20 lb in homes of four.
///
/// With an adult in each, the other six places get four children: three and one in 8 of 20 ways, two and two in 12.
/// Two children take 8 half teaspoons in two rounds, one bowl, as one child does; three take 12, three bowls in four rounds.
/// So 12 of 20 times 20 bowls, otherwise 25: 22 on average; 80 whole tablets beside them.
#[test]
fn chance_deals_homes_as_combinatorics_has_it() {
    let found = tablets(&[",adult,,4,4", ",1 y,20 lb,4,4"]);
    assert_eq!(found, (80 + 22, 80 + 20, 80 + 25));
}

/// One file and one order give one answer.
#[test]
fn the_dice_fall_alike_in_every_run() {
    let lines = [",adult,,60,", "f,0-9 y,,40,"];
    let once = of(&doxycycline(), &lines, DAYS);
    assert_eq!(once, of(&doxycycline(), &lines, DAYS));
    let Forecast { tablets, .. } = once;
    assert!(tablets.low < tablets.expected && tablets.expected < tablets.high);
    assert!(tablets.high < once.one_tablet_per_dose);
}

/// Girls of 24 months, by WHO's L, M and S printed for that age and the normal distribution, in a liquid whose amount follows the weight.
#[test]
fn weights_without_a_scale_are_spread_as_who_has_them() {
    let (l, m, s) = (-0.2941, 11.4775, 0.12390);
    // Rows of the demo chart about that age: up to so many pounds, so many millilitres.
    let chart = text_chart();
    let mut expected = 0.0;
    let steps = 20_000;
    for step in 0..steps {
        let z = -3.0 + 6.0 * (f64::from(step) + 0.5) / f64::from(steps);
        let share =
            (-z * z / 2.0_f64).exp() / (2.0 * std::f64::consts::PI).sqrt() * 6.0 / f64::from(steps);
        let pounds = m * (1.0 + l * s * z).powf(1.0 / l) / 0.453_592_37;
        let row = chart.iter().find(|(up_to, _)| pounds < *up_to + 0.5);
        expected += share * row.expect("a line of the chart").1;
    }
    let people = 500.0;
    let order = demo_order("quillmere-ciprofloxacin-1");
    let found = of(&order, &[",adult,,500,2", "f,24 mo,,500,2"], DAYS);
    let adults = people * 20.0 * 10.0;
    let liquid = found.liquid_ml.expect("a liquid").expected;
    assert_eq!(found.tablets.high, 0);
    let of_girls = f64::from(u32::try_from(liquid).expect("a number")) - adults;
    let wanted = expected * people * 20.0;
    assert!(
        (of_girls / wanted - 1.0).abs() < 0.03,
        "{of_girls} mL, and the reference says {wanted}"
    );
}

/// Upper limits and millilitres as the order's file prints them.
fn text_chart() -> Vec<(f64, f64)> {
    let text = demo_text("orders/quillmere-ciprofloxacin-1.toml");
    let number = |line: &str| {
        let quoted = line.split('"').nth(1).expect("a quantity");
        let number = quoted.split(' ').next().expect("a number");
        number.parse::<f64>().expect("a number")
    };
    text.split("[[row]]")
        .skip(1)
        .map(|row| {
            let find = |start: &str| row.lines().find(|line| line.starts_with(start));
            let up_to = find("up-to").map_or(f64::INFINITY, number);
            (up_to, number(find("amount").expect("an amount")))
        })
        .collect()
}

/// Who is too young or too light is counted apart and takes nothing; still everybody is in the plain rule's count.
#[test]
fn people_outside_the_chart_are_counted_apart() {
    let lines = [",adult,,6,4", ",5 d,,4,4", ",6 mo,6 lb,2,4"];
    let found = of(&doxycycline(), &lines, DAYS);
    let held: Vec<(&str, u64)> = found.held.into_iter().collect();
    assert_eq!(held, [("below-lightest", 2), ("below-youngest", 4)]);
    assert_eq!(found.tablets.expected, 6 * ROUNDS);
    assert_eq!(found.one_tablet_per_dose, 12 * ROUNDS);
    // A tenth of the first ten months of 30 or 31 days lies below one month.
    let found = of(&doxycycline(), &[",adult,,1000,2", ",0-9 mo,,1000,2"], 1);
    let held = found.held["below-youngest"];
    assert!((90..=115).contains(&held), "{held}");
}

/// From ten years on nobody knows the weight: the last line, a whole bowl.
#[test]
fn older_children_without_a_weight_take_the_last_line() {
    assert_eq!(tablets(&[",adult,,1,2", ",10-17 y,,1,2"]).0, 2 * ROUNDS);
    // With their weight they take their own line: 30 lb, one bowl for two rounds.
    let light = tablets(&[",adult,,1,2", ",10-17 y,30 lb,1,2"]).0;
    assert_eq!(light, ROUNDS + ROUNDS / 2);
}

/// Potassium iodide goes by age and in packs of one's own; a teaspoon for newborns and a whole tablet for adults.
#[test]
fn an_order_by_age_counts_packs_for_each_person() {
    let order = demo_order("quillmere-iodide-1");
    let found = of(&order, &[",adult,,2,4", ",0-3 d,,1,4", ",13 y,,1,4"], 1);
    assert_eq!((found.rounds, found.one_tablet_per_dose), (1, 4));
    // Two whole tablets and one bowl of 8 teaspoons for the 1 and the 4 of the children.
    assert_eq!(found.tablets.expected, 3);
    assert_eq!(found.packs.map(|packs| packs.expected), Some(4));
    assert_eq!(found.handed_out.expected, 4 * 14);
    let refusal = forecast(&order, &population(&[",adult,,2,"]), 2, &mut |_, _| {});
    assert_eq!(refusal, Err(Refusal::BeyondCourse { days: 2, course: 1 }));
}

#[test]
fn nobody_takes_nothing() {
    for lines in [&[][..], &[",adult,,0,"], &["f,0-4 y,,0,"]] {
        let found = of(&doxycycline(), lines, DAYS);
        assert_eq!((found.people, found.one_tablet_per_dose), (0, 0));
        assert_eq!((found.tablets.high, found.handed_out.high), (0, 0));
        assert_eq!(
            (found.homes.high, found.packs.map(|p| p.high)),
            (0, Some(0))
        );
    }
}

#[test]
fn more_people_than_can_be_dealt_are_refused() {
    let many = population(&[",adult,,6000000,", ",adult,,\"4,000,001\","]);
    let refusal = forecast(&doxycycline(), &many, DAYS, &mut |_, _| {}).expect_err("too many");
    assert_eq!(refusal.code(), "too-many-people");
    assert!(refusal.to_string().contains("10,000,001"), "{refusal}");
}

/// Only what an answer rests on is said with it.
#[test]
fn assumptions_are_those_that_were_made() {
    let codes = |lines: &[&str], days| {
        let found = of(&doxycycline(), lines, days).assumptions;
        found.into_iter().map(|said| said.code).collect::<Vec<_>>()
    };
    let always = [
        "all-take-all",
        "one-day",
        "an-adult-each",
        "adults-swallow",
        "nothing-spilt",
    ];
    let mut plain = codes(&[",18 y to 64 y,,4,4"], 10);
    plain.sort_by_key(|code| always.iter().position(|other| other == code));
    assert_eq!(plain, always);
    let says = |lines: &[&str], days, code: &str| codes(lines, days).contains(&code);
    let young = ["f,0-4 y,,4,", ",10-17 y,30 kg,4,"];
    for (code, made) in [
        ("weights-below-ten", true),
        ("half-girls", false),
        ("weights-from-ten", false),
        ("sizes-of-homes", true),
        ("ages-in-years", false),
        ("one-hand-out", false),
    ] {
        assert_eq!(says(&young, 10, code), made, "{code}");
    }
    assert!(says(&[",3,,4,"], 10, "half-girls"));
    assert!(says(&[",3,,4,"], 10, "ages-in-years"));
    assert!(says(&[",9-12 y,,4,"], 10, "weights-from-ten"));
    assert!(says(&[",9-12 y,,4,"], 11, "one-hand-out"));
}

/// Rounds of the day follow the order's interval; a part of a day's gap still is a round.
#[test]
fn the_interval_of_the_order_makes_the_rounds() {
    let text = demo_text("orders/quillmere-doxy-2.toml");
    for (interval, rounds) in [("8 h", 30), ("24 h", 10), ("72 h", 4)] {
        let changed = text
            .replace("interval = \"12 h\"", &format!("interval = \"{interval}\""))
            .replace("least-gap = \"8 h\"", "least-gap = \"6 h\"")
            .replace("first-gap = \"8 h\"", "first-gap = \"6 h\"")
            .replace(
                "skip-if-next-within = \"6 h\"",
                "skip-if-next-within = \"2 h\"",
            );
        let found = of(&checked(&changed), &[",adult,,1,1"], DAYS);
        assert_eq!((found.rounds, found.tablets.expected), (rounds, rounds));
    }
}

/// What a census office or a spreadsheet may write.
#[test]
fn one_population_in_many_spellings() {
    let plain = read(b"sex,age,weight,people,home\nf,0-4 y,,1200,\n,18 y to 64 y,80 kg,9,3\n")
        .expect("readable");
    for other in [
        "\u{feff}people,home,age,sex,weight\r\n1200,,0-4 y,f,\r\n\r\n9,3,18 y to 64 y,,80 kg\r\n",
        "# a remark\nSex;Age (years);Weight (kg);People;Home\n F ; 0-4 ;; 1200 ;\n;18-64;80;9;3;;\n",
        "Gender\tAge_group\tbody weight\tcount\thousehold size\ngirls\tunder 5 y\t\t1 200\t-\nboth\t18 – 64 years\t80kg\t9\t3\n",
        "\"sex\",\"age\",\"weight\",\"people\",\"home\"\n\"female\",\"0 mo to 59 mo\",,\"1,200\",\n,\"18y-64y\",80 kg,9,3\n",
    ] {
        let found = read(other.as_bytes()).unwrap_or_else(|problems| panic!("{problems:?}"));
        let mut groups = found.groups.clone();
        // The same number of months, whatever they are counted in.
        for group in &mut groups {
            assert_eq!(group.age.before.days, 0);
        }
        assert_eq!(groups, plain.groups, "{other}");
        assert!(!found.years_assumed);
    }
    // Without any unit ages are years, which is said.
    let bare = read(b"age,people\n0-4,7\n5-17,3\n65+,1\n").expect("readable");
    assert!(bare.years_assumed);
    assert_eq!(bare.groups[0].age.before.months, 60);
    // Twice the same line is twice the people.
    assert_eq!(
        read(b"age,people\n2 y,7\n2 y,7\n")
            .expect("readable")
            .people(),
        14
    );
}

/// Every line that cannot be read is named with its number and with what to write.
#[test]
fn every_bad_line_is_named() {
    let text = "sex,age,weight,people,home\n\
        x,2 y,,5,\n\
        f,two,,5,\n\
        f,2 y,14,5,\n\
        # all well\n\
        f,2 y,,5,4\n\
        f,2 y,,many,13\n\
        f,5+,,5,\n\
        f,9-5 y,,5,\n\
        f,2 y,,5\n\
        f,2 y,,\"5,\n\
        f,2 y,20 kg to 10 kg,1,\n\
        f,,,-3,\n\
        f,200 y,,1.5,\n";
    let problems = read(text.as_bytes()).expect_err("bad lines");
    let lines: Vec<usize> = problems.iter().map(|problem| problem.line).collect();
    // Line 6 puts children into homes without anybody grown; it is found when all lines are read.
    assert_eq!(lines, [2, 3, 4, 7, 7, 8, 9, 10, 11, 12, 13, 13, 14, 14, 6]);
    for problem in &problems {
        let says = problem.to_string();
        assert!(says.len() > 30, "{says}");
        assert!(says.starts_with(&format!("line {}: ", problem.line)));
    }
}

#[test]
fn a_wrong_header_is_named_column_by_column() {
    let wrong = |text: &str| {
        let mut all = String::new();
        for problem in read(text.as_bytes()).expect_err("a wrong header") {
            writeln!(all, "{problem}").expect("a text");
        }
        all
    };
    let two = wrong("\nage,region,people,income\n2 y,a,5,b\n");
    assert!(two.contains("line 2: ") && two.contains("“region”") && two.contains("“income”"));
    assert!(wrong("age,age,people\n").contains("twice"));
    assert!(wrong("sex,age\nf,2 y\n").contains("“people”"));
    assert!(wrong("people,sex\n1,f\n").contains("“age”"));
    assert!(wrong("# only a remark\n").contains("header"));
    assert!(wrong("age (stones),people\n").contains("“age (stones)”"));
    let latin = read(b"age,people\n2 y,5\n3 a\xf1os,5\n").expect_err("not UTF-8");
    assert_eq!(latin[0].line, 3);
}
