//! Whatever can be written is read back the same.

use hearthdose_core::exchange::{
    CodedAge, CodedWeighing, HouseholdCode, HouseholdId, Message, OrderMark, PersonCode, Scan,
    ScreeningOutcome, SealingKey, SiteKey, Slip, SlipLine, SlipUnit, Supply, write,
};
use hearthdose_core::household::{Answer, Manner};
use hearthdose_core::units::BodyWeight;
use jiff::Timestamp;
use jiff::civil::Date;
use proptest::option;
use proptest::prelude::*;

use crate::samples::{household, near, secret};

fn minute() -> impl Strategy<Value = Timestamp> {
    (31_000_000i64..34_000_000).prop_map(|minute| Timestamp::from_second(minute * 60).unwrap())
}

fn day() -> impl Strategy<Value = Date> {
    (-4_000i64..4_000).prop_map(near)
}

fn lot() -> impl Strategy<Value = String> {
    "[A-Z0-9/.-]{1,20}"
}

fn order() -> impl Strategy<Value = Option<OrderMark>> {
    option::of(
        ("[a-z][a-z0-9-]{0,40}", any::<u32>(), any::<[u8; 6]>()).prop_map(
            |(id, revision, fingerprint)| OrderMark {
                id,
                revision,
                fingerprint,
            },
        ),
    )
}

fn answer() -> impl Strategy<Value = Answer> {
    prop_oneof![Just(Answer::Yes), Just(Answer::No), Just(Answer::Unsure)]
}

fn weight() -> impl Strategy<Value = BodyWeight> {
    prop_oneof![
        (1u32..700, 0u32..100).prop_map(|(whole, part)| format!("{whole}.{part:02} lb")),
        (0u32..700, 1u32..16).prop_map(|(pounds, ounces)| format!("{pounds} lb {ounces} oz")),
        (1u32..300, 0u32..1000).prop_map(|(whole, part)| format!("{whole}.{part:03} kg")),
        (500u32..9000).prop_map(|grams| format!("{grams} g")),
        (1u32..700).prop_map(|whole| format!("{whole} 1/2 lb")),
    ]
    .prop_map(|text| BodyWeight::parse(&text).unwrap())
}

fn weighing() -> impl Strategy<Value = CodedWeighing> {
    let manner = prop_oneof![
        Just(Manner::Alone),
        Just(Manner::Together),
        Just(Manner::Site),
        Just(Manner::Clinic),
        Just(Manner::Told)
    ];
    (weight(), option::of(day()), manner).prop_map(|(weight, on, manner)| CodedWeighing {
        weight,
        on,
        manner,
    })
}

fn age() -> impl Strategy<Value = CodedAge> {
    prop_oneof![
        (0u8..90).prop_map(CodedAge::Days),
        (1u8..216).prop_map(CodedAge::Months),
        Just(CodedAge::Adult)
    ]
}

fn outcome() -> impl Strategy<Value = ScreeningOutcome> {
    prop_oneof![
        Just(ScreeningOutcome::Clear),
        Just(ScreeningOutcome::Caution),
        Just(ScreeningOutcome::Hold),
        Just(ScreeningOutcome::Stop),
        Just(ScreeningOutcome::NotScreened),
        Just(ScreeningOutcome::AskInPrivate)
    ]
}

prop_compose! {
    fn answers()(
        list in prop::collection::vec(option::of((answer(), option::of(day()))), 0..20),
        last in answer(),
    ) -> Vec<Option<(Answer, Option<Date>)>> {
        // The last question that was answered is the last in the list.
        let mut list = list;
        if let Some(end) = list.last_mut() && end.is_none() {
            *end = Some((last, None));
        }
        list
    }
}

prop_compose! {
    fn person()(
        age in option::of(age()),
        weighing in option::of(weighing()),
        bits in any::<[bool; 2]>(),
        born_early in option::of(answer()),
        answers in answers(),
        outcome in outcome(),
        nickname in option::of("[A-Za-zäéñ]{1,12}( [a-z]{1,5})?"),
        allergies in prop::collection::vec("[a-z]{3,10}", 0..3),
        course_day in option::of(any::<u16>()),
        since in option::of(0i64..90_000),
        supply in option::of((any::<u8>(), option::of(lot()))),
        left in option::of(any::<u16>()),
    ) -> (PersonCode, Option<i64>) {
        let [swallows_tablets, screened] = bits;
        let supply = supply.map(|(product, lot)| Supply { product, lot });
        (PersonCode {
            id: 0, nickname, age, weighing, swallows_tablets, born_early, screened, answers, outcome,
            food_allergies: allergies, course_day, last_dose: None, supply, left,
        }, since)
    }
}

prop_compose! {
    fn a_household()(
        id in any::<[u8; 8]>(),
        issue in any::<u32>(),
        made in minute(),
        order in order(),
        language in "[a-z]{2,3}(-[a-z]{2})?",
        interpreter in any::<bool>(),
        adult_collects in option::of(any::<bool>()),
        people in prop::collection::vec(person(), 1..10),
        step in 1u16..6_000,
    ) -> HouseholdCode {
        let people = people.into_iter().zip(0u16..).map(|((mut person, since), at)| {
            person.id = at * step;
            person.last_dose = since.map(|minutes| Timestamp::from_second(made.as_second() - minutes * 60).unwrap());
            person
        }).collect();
        HouseholdCode { household: HouseholdId(id), issue, made, order, language, interpreter, adult_collects, people }
    }
}

prop_compose! {
    fn line()(
        person in option::of(any::<u16>()),
        product in "[a-z]{3,20} [0-9]{1,3} mg",
        lot in option::of(lot()),
        expiry in option::of(day()),
        count in any::<u32>(),
        bottles in any::<bool>(),
        enough_until in option::of(day()),
        extension in option::of("[A-Za-z0-9][A-Za-z0-9 .]{0,60}[a-z]"),
    ) -> SlipLine {
        let unit = if bottles { SlipUnit::Bottles } else { SlipUnit::Tablets };
        SlipLine { person, product, lot, expiry, count, unit, enough_until, extension }
    }
}

prop_compose! {
    fn a_slip()(
        id in any::<[u8; 8]>(),
        issue in any::<u32>(),
        site in "[A-Z0-9]{1,8}",
        at in minute(),
        order in order(),
        lines in prop::collection::vec(line(), 1..10),
    ) -> Slip {
        Slip { household: HouseholdId(id), issue, site, at, order, lines }
    }
}

fn comes_back(message: &Message) -> Result<(), TestCaseError> {
    let text = write(message, &secret()).map_err(|error| TestCaseError::fail(error.to_string()))?;
    match Scan::read(&text) {
        Scan::Message(scanned) => prop_assert_eq!(&scanned.message, message),
        other => prop_assert!(false, "{:?}", other),
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn households(code in a_household()) {
        comes_back(&Message::Household(code))?;
    }

    #[test]
    fn slips(slip in a_slip()) {
        comes_back(&Message::Slip(slip))?;
    }

    #[test]
    fn site_keys(site in "[A-Z0-9]{1,8}", words in "[A-Za-z]{1,20}( [a-z]{1,20})?", key in any::<[u8; 32]>(), made in minute(), days in 1i64..400) {
        let until = Timestamp::from_second(made.as_second() + days * 86_400).unwrap();
        comes_back(&Message::SiteKey(SiteKey { site, words, key: SealingKey(key), made, until }))?;
    }

    /// A weight is what was typed, to the last digit and in its unit.
    #[test]
    fn weights_stay_exact(weight in weight()) {
        let mut code = household(1);
        code.people[0].weighing.as_mut().unwrap().weight = weight.clone();
        let text = write(&Message::Household(code), &secret()).unwrap();
        let Scan::Message(scanned) = Scan::read(&text) else { panic!("not read") };
        let Message::Household(read) = scanned.message else { panic!("no household") };
        let found = &read.people[0].weighing.as_ref().unwrap().weight;
        prop_assert_eq!(found.as_picograms(), weight.as_picograms());
        prop_assert_eq!(found.unit(), weight.unit());
    }
}

#[test]
fn words_of_weights_are_as_typed() {
    for text in [
        "31 lb 4 oz",
        "31 lb",
        "14.2 kg",
        "168.5 lb",
        "8 lb 9 oz",
        "58.5 kg",
        "300 kg",
    ] {
        let mut code = household(1);
        code.people[0].weighing.as_mut().unwrap().weight = BodyWeight::parse(text).unwrap();
        let written = write(&Message::Household(code), &secret()).unwrap();
        let Scan::Message(scanned) = Scan::read(&written) else {
            panic!("{text}")
        };
        let Message::Household(read) = scanned.message else {
            panic!("{text}")
        };
        assert_eq!(
            read.people[0].weighing.as_ref().unwrap().weight.typed(),
            text
        );
    }
}

/// What a reader would refuse cannot be written.
#[test]
fn what_does_not_fit_is_not_written() {
    let refused = |change: &dyn Fn(&mut HouseholdCode)| {
        let mut code = household(2);
        change(&mut code);
        write(&Message::Household(code), &secret()).is_err()
    };
    assert!(!refused(&|_| {}));
    assert!(refused(&|code| code.people.clear()));
    assert!(refused(&|code| code.people[1].id = code.people[0].id));
    assert!(refused(&|code| code.language = "English".to_owned()));
    assert!(refused(
        &|code| code.people[0].nickname = Some("line\nbreak".to_owned())
    ));
    assert!(refused(
        &|code| code.people[0].nickname = Some("x".repeat(25))
    ));
    assert!(refused(
        &|code| code.people[0].age = Some(CodedAge::Days(90))
    ));
    assert!(refused(
        &|code| code.people[0].age = Some(CodedAge::Months(0))
    ));
    assert!(refused(
        &|code| code.people[0].age = Some(CodedAge::Months(216))
    ));
    assert!(refused(
        &|code| code.made = Timestamp::from_second(-60).unwrap()
    ));
    assert!(refused(
        &|code| code.made = Timestamp::from_second(1_933_000_001).unwrap()
    ));
    // A dose after the code was made.
    assert!(refused(&|code| {
        code.people[0].last_dose =
            Some(Timestamp::from_second(code.made.as_second() + 60).unwrap());
    }));
    assert!(refused(
        &|code| code.order.as_mut().unwrap().id = "Quillmere Doxy".to_owned()
    ));
    assert!(refused(&|code| code.people[0].supply = Some(Supply {
        product: 0,
        lot: Some("A B".to_owned())
    })));
    // A mean of two weighings that six decimals cannot hold.
    assert!(refused(&|code| {
        let weights = ["12.000001 lb", "12.000002 lb"].map(|text| BodyWeight::parse(text).unwrap());
        code.people[0].weighing.as_mut().unwrap().weight = weights[0].mean(&weights[1]);
    }));
}
