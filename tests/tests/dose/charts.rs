//! Weight charts for doxycycline in home preparation. Three variants are published (references a3); each test names its own.

use hearthdose_core::order::CheckedOrder;
use hearthdose_core::units::{BodyWeight, Mass, show};
use hearthdose_tests::people::{checked, demo_order, demo_text};

use super::{of, per_kilogram};

/// Chart F, the later CDC/FDA leaflet (from memory, consistent with rule R1; a part of its rows):
/// lowest and highest printed weight, words, mg, mg/kg at the top of the band.
#[test]
fn chart_f_row_by_row() {
    let order = demo_order("quillmere-doxy-1");
    for (from, to, words, mg, at_top) in [
        ("7 lb", "12 lb", "½ teaspoon (2.5 mL)", "12.5", Some("2.30")),
        ("13 lb", "25 lb", "1 teaspoon (5 mL)", "25", Some("2.20")),
        ("39 lb", "50 lb", "2 teaspoons (10 mL)", "50", Some("2.20")),
        ("64 lb", "75 lb", "3 teaspoons (15 mL)", "75", Some("2.20")),
        (
            "76 lb",
            "88 lb",
            "3½ teaspoons (17.5 mL)",
            "87.5",
            Some("2.19"),
        ),
        ("89 lb", "300 lb", "4 teaspoons (20 mL)", "100", None),
    ] {
        for weight in [from, to] {
            let dose = of(&order, weight, "");
            assert_eq!(dose.text, words, "{weight}");
            assert_eq!(dose.mass.milligrams(), mg, "{weight}");
        }
        if let Some(at_top) = at_top {
            assert_eq!(per_kilogram(&of(&order, to, "")).unwrap(), at_top);
        }
    }
}

/// Rule R1 (worked out): the top of band k is 12.526·k lb, where 12.5·k mg is 2.2 mg/kg.
/// The rule "enough" therefore leaves a band a little above its printed top, and never before it.
#[test]
fn bands_end_where_rule_r1_says() {
    let order = demo_order("quillmere-doxy-1");
    for (k, last_enough, first_short) in [
        (1, "12.52 lb", "12.53 lb"),
        (2, "25.05 lb", "25.06 lb"),
        (4, "50.10 lb", "50.11 lb"),
        (6, "75.15 lb", "75.16 lb"),
    ] {
        assert_eq!(
            of(&order, last_enough, "").mass,
            Mass::micrograms(12_500 * k)
        );
        let next = of(&order, first_short, "").mass;
        assert_eq!(next, Mass::micrograms(12_500 * (k + 1)));
    }
    // F rounds 37.58, 62.63 and 87.68 lb up, so those bands print a top beyond the rule and leave no room above it.
    for (top, beyond, k) in [
        ("38 lb", "38.01 lb", 3),
        ("63 lb", "63.01 lb", 5),
        ("88 lb", "88.01 lb", 7),
    ] {
        assert_eq!(of(&order, top, "").mass, Mass::micrograms(12_500 * k));
        let next = of(&order, beyond, "").mass;
        assert_eq!(next, Mass::micrograms(12_500 * (k + 1)));
    }
}

/// Chart E: CDC Emergency Use Instructions group children of 76 lb (35 kg) or more with adults.
/// The same child gets 87.5 mg by chart F: a choice of the order, never a blend.
#[test]
fn chart_e_gives_adult_doses_from_76_lb() {
    let (first, second) = (
        demo_order("quillmere-doxy-1"),
        demo_order("quillmere-doxy-2"),
    );
    for (weight, by_f, by_e) in [
        ("75 lb", "75", "75"),
        ("76 lb", "87.5", "100"),
        ("88 lb", "87.5", "100"),
        ("35 kg", "87.5", "100"),
        ("89 lb", "100", "100"),
    ] {
        assert_eq!(of(&first, weight, "").mass.milligrams(), by_f, "{weight}");
        assert_eq!(of(&second, weight, "").mass.milligrams(), by_e, "{weight}");
    }
}

/// Chart L07: "How to Make Liquid Doxycycline", 2007, 25 mg in 5 mL, in quarter teaspoons.
/// Over 19 to 25 lb, over 62 to 75 lb and over 87 lb are not in the published part; they are filled by rule R1.
fn l07() -> CheckedOrder {
    let demo = demo_text("orders/quillmere-doxy-1");
    let (head, rest) = demo.split_once("[[row]]").expect("rows");
    let (_, tail) = rest.split_once("[between-rows]").expect("a rule");
    let rows = [
        ("under = \"7 lb\"", "1/4 tsp"),
        ("from = \"7 lb\"\nup-to = \"12 lb\"", "1/2 tsp"),
        ("over = \"12 lb\"\nup-to = \"19 lb\"", "3/4 tsp"),
        ("over = \"19 lb\"\nup-to = \"25 lb\"", "1 tsp"),
        ("over = \"25 lb\"\nup-to = \"37 lb\"", "1 1/2 tsp"),
        ("over = \"37 lb\"\nup-to = \"50 lb\"", "2 tsp"),
        ("over = \"50 lb\"\nup-to = \"62 lb\"", "2 1/2 tsp"),
        ("over = \"62 lb\"\nup-to = \"75 lb\"", "3 tsp"),
        ("over = \"75 lb\"\nup-to = \"87 lb\"", "3 1/2 tsp"),
        ("over = \"87 lb\"", "4 tsp"),
    ];
    let rows = rows.map(|(limits, amount)| format!("[[row]]\n{limits}\namount = \"{amount}\"\n"));
    let head = head
        .replace("step = \"1/2 tsp\"", "step = \"1/4 tsp\"")
        .replace("lightest = \"7 lb\"", "lightest = \"4.45 lb\"")
        .replace(
            "under = \"5 %\", over = \"110 %\"",
            "under = \"11 %\", over = \"79 %\"",
        );
    checked(&format!("{head}{}[between-rows]{tail}", rows.concat()))
}

#[test]
fn chart_l07_row_by_row() {
    let order = l07();
    for (weights, words, mg) in [
        (["5 lb", "6.99 lb"], "¼ teaspoon (1.25 mL)", "6.25"),
        (["7 lb", "12 lb"], "½ teaspoon (2.5 mL)", "12.5"),
        (["12.01 lb", "19 lb"], "¾ teaspoon (3.75 mL)", "18.75"),
        (["25.01 lb", "37 lb"], "1½ teaspoons (7.5 mL)", "37.5"),
        (["37.01 lb", "50 lb"], "2 teaspoons (10 mL)", "50"),
        (["50.01 lb", "62 lb"], "2½ teaspoons (12.5 mL)", "62.5"),
        (["75.01 lb", "87 lb"], "3½ teaspoons (17.5 mL)", "87.5"),
    ] {
        for weight in weights {
            let dose = of(&order, weight, "");
            assert_eq!(
                (dose.text.as_str(), dose.mass.milligrams().as_str()),
                (words, mg),
                "{weight}"
            );
        }
    }
}

/// L07 prints: 2.2 to 3.9 mg/kg from 7 to 87 lb, 2 to 3.1 mg/kg under 7 lb; worked out: 3.94 at 7 lb, 2.217 at 87 lb.
/// Its mean of 2.7 cannot be recomputed while some rows are held back.
#[test]
fn chart_l07_keeps_to_what_it_prints() {
    let order = l07();
    assert_eq!(per_kilogram(&of(&order, "7 lb", "")).unwrap(), "3.94");
    assert_eq!(per_kilogram(&of(&order, "87 lb", "")).unwrap(), "2.22");
    let one_decimal = |tenths_of_pound: u32| {
        let weight = format!("{}.{} lb", tenths_of_pound / 10, tenths_of_pound % 10);
        let weight = BodyWeight::parse(&weight).expect("a weight");
        let dose = of(&order, weight.typed(), "");
        (weight.hundredths_mg_per_kg(dose.mass) + 5) / 10
    };
    let band: Vec<u128> = (70..=870).map(one_decimal).collect();
    assert_eq!(
        (band.iter().min(), band.iter().max()),
        (Some(&22), Some(&39))
    );
    let infants: Vec<u128> = (45..70).map(one_decimal).collect();
    assert_eq!(
        (infants.iter().min(), infants.iter().max()),
        (Some(&20), Some(&31))
    );
}

/// A person of 45 kg or more gets 100 mg by every published rule; the chart's last row begins below that.
#[test]
fn from_45_kg_on_everybody_gets_the_adult_dose() {
    let order = demo_order("quillmere-doxy-1");
    for weight in ["45 kg", "99.2080 lb", "100 lb 8 oz", "70 kg", "200 kg"] {
        let dose = of(&order, weight, "");
        assert_eq!(dose.mass.milligrams(), "100", "{weight}");
        assert_eq!(dose.row_text, "89 lb or more");
    }
    assert_eq!(
        show::spoon_text(of(&order, "45 kg", "").amount),
        "4 teaspoons (20 mL)"
    );
}
