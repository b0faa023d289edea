//! What is never in a household's code.

use std::collections::BTreeMap;

use hearthdose_core::exchange::{
    DeviceRandom, HouseholdCode, Making, Member, Message, Scan, ScreeningOutcome, base45,
    household_code, write,
};
use hearthdose_core::household::{Answer, KnownAge, Manner, Person, Weighing};
use hearthdose_core::units::BodyWeight;
use jiff::civil::date;

use crate::samples::{doxycycline, made, secret};

const NAMES: [&str; 3] = ["Wilhelmina", "Thaddeus", "Oona"];

fn people() -> Vec<Person> {
    let mut people: Vec<Person> = NAMES.iter().map(|name| Person::named(name)).collect();
    for (person, born) in
        people
            .iter_mut()
            .zip([date(1994, 11, 23), date(1951, 7, 9), date(2030, 12, 19)])
    {
        person.age = Some(KnownAge::Born(born));
        person.weighing = Some(Weighing {
            weight: BodyWeight::parse("131 lb").unwrap(),
            on: Some(date(2031, 4, 1)),
            manner: Manner::Alone,
            hold_lifted: false,
        });
        person.born_early = Some(Answer::No);
        person.food_allergies = ["milk".to_owned(), "hazelnut".to_owned()].into();
        person.answers = answers([Answer::No; 5]);
    }
    people
}

fn answers(given: [Answer; 5]) -> BTreeMap<String, Answer> {
    let keys = [
        "allergy-tetracycline",
        "pregnant",
        "breastfeeding",
        "kidney-or-liver",
        "current-medicines",
    ];
    keys.into_iter().map(str::to_owned).zip(given).collect()
}

fn code(people: &[Person], sealed: bool) -> HouseholdCode {
    let order = doxycycline();
    let members: Vec<Member<'_>> = people
        .iter()
        .zip(1..)
        .map(|(p, id)| Member::new(id, p))
        .collect();
    let random = DeviceRandom::new([3; 32]);
    let making = Making {
        household: random.household(&order.id, "Wilhelmina's house"),
        issue: 1,
        made: made(),
        day: date(2031, 4, 5),
        order: Some(&order),
        language: "en",
        interpreter: false,
        adult_collects: None,
        sealed,
    };
    household_code(&making, &members)
}

fn bytes(code: &HouseholdCode) -> Vec<u8> {
    let text = write(&Message::Household(code.clone()), &secret()).unwrap();
    base45::decode(&text[3..text.len() - 1]).unwrap()
}

fn holds(bytes: &[u8], part: &[u8]) -> bool {
    bytes.windows(part.len()).any(|window| window == part)
}

// promise: P24
#[test]
fn no_name_and_no_birth_date() {
    let code = code(&people(), false);
    let bytes = bytes(&code);
    for name in NAMES {
        assert!(!holds(&bytes, name.as_bytes()), "{name}");
    }
    // Every way in which a birth date could stand there: text, digits, whole numbers, days since 1970.
    for born in [date(1994, 11, 23), date(1951, 7, 9), date(2030, 12, 19)] {
        let days = born.duration_since(date(1970, 1, 1)).as_hours() / 24;
        let packed =
            i64::from(born.year()) * 10_000 + i64::from(born.month()) * 100 + i64::from(born.day());
        assert!(!holds(&bytes, born.to_string().as_bytes()));
        assert!(!holds(&bytes, packed.to_string().as_bytes()));
        for number in [days, packed] {
            let number = number.unsigned_abs();
            let whole = u32::try_from(number).unwrap().to_be_bytes();
            assert!(!holds(&bytes, &whole), "{born}: {number}");
            if let Ok(short) = u16::try_from(number) {
                // As CBOR writes it, with its head: two bytes alone stand anywhere.
                let [high, low] = short.to_be_bytes();
                assert!(!holds(&bytes, &[0x19, high, low]) && !holds(&bytes, &[0x39, high, low]));
            }
        }
    }
    // Of two allergies only the one that a food of this order depends on.
    assert!(holds(&bytes, b"milk") && !holds(&bytes, b"hazelnut"));
    // Texts in the code: the order's name, the language, and that allergy; nothing else can be read as words.
    let words: Vec<String> = bytes
        .split(|byte| !byte.is_ascii_graphic())
        .filter(|run| run.len() >= 6)
        .map(|run| String::from_utf8_lossy(run).into_owned())
        .filter(|run| run.chars().filter(char::is_ascii_lowercase).count() >= 6)
        .collect();
    assert!(
        words.iter().all(|run| run.contains("quillmere-doxy")),
        "{words:?}"
    );
}

/// Two households that differ in nothing but the answers about pregnancy give the same code.
#[test]
fn an_open_code_does_not_tell_who_is_pregnant() {
    let with = |pregnant, breastfeeding| {
        let mut people = people();
        people[0].answers = answers([Answer::No, pregnant, breastfeeding, Answer::No, Answer::No]);
        code(&people, false)
    };
    let plain = with(Answer::No, Answer::No);
    for pregnant in [Answer::Yes, Answer::No, Answer::Unsure] {
        for breastfeeding in [Answer::Yes, Answer::No, Answer::Unsure] {
            assert_eq!(bytes(&with(pregnant, breastfeeding)), bytes(&plain));
        }
    }
    assert_eq!(plain.people[0].outcome, ScreeningOutcome::AskInPrivate);
    assert_eq!(plain.people[0].answers[1], None);
    assert_eq!(plain.people[0].answers[2], None);
    assert!(plain.people[0].answers[0].is_some());
}

#[test]
fn a_sealed_code_carries_all_answers() {
    let mut people = people();
    people[0].answers = answers([Answer::No, Answer::Yes, Answer::No, Answer::No, Answer::No]);
    let sealed = code(&people, true);
    assert_eq!(sealed.people[0].answers[1], Some((Answer::Yes, None)));
    assert_ne!(sealed.people[0].outcome, ScreeningOutcome::AskInPrivate);
    assert_eq!(sealed.people[1].outcome, ScreeningOutcome::Clear);
}

/// Another order, another key and another household id: two codes cannot be told to come from one house.
#[test]
fn codes_of_two_orders_share_nothing() {
    let device = DeviceRandom::new([3; 32]);
    let (one, other) = ("quillmere-doxy", "quillmere-iodide");
    assert_ne!(device.key(one).public(), device.key(other).public());
    assert_ne!(device.household(one, "x"), device.household(other, "x"));
    assert_eq!(device.household(one, "x"), device.household(one, "x"));
    assert_ne!(device.household(one, "x"), device.household(one, "y"));
    let stranger = DeviceRandom::new([4; 32]);
    assert_ne!(device.key(one).public(), stranger.key(one).public());
    assert_ne!(device.household(one, "x"), stranger.household(one, "x"));
    // The random bytes themselves are no key of any order.
    assert!(!holds(&device.key(one).public().0, &[3; 4]));
    // People who would get the same number get different ones.
    let ids = device.people(device.household(one, "x"), &["a", "b", "a", "a"]);
    let unique: std::collections::BTreeSet<u16> = ids.iter().copied().collect();
    assert_eq!(unique.len(), 4);
}

#[test]
fn the_code_reads_back_what_it_is_made_of() {
    let code = code(&people(), false);
    let text = write(&Message::Household(code.clone()), &secret()).unwrap();
    let Scan::Message(scanned) = Scan::read(&text) else {
        panic!("not read");
    };
    assert_eq!(scanned.message, Message::Household(code));
}
