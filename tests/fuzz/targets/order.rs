//! Order files: reading and checking agree with each other, and a checked order gives or refuses a dose.
#![no_main]

use hearthdose_core::dose;
use hearthdose_core::household::{KnownAge, Manner, Person, Weighing};
use hearthdose_core::order::{CODES, CheckedOrder, Problem, check, check_bytes, parse};
use hearthdose_core::units::{AgeSpan, BodyWeight};
use hearthdose_fuzz::{demo_files, plant};
use jiff::civil::date;
use libfuzzer_sys::fuzz_target;

fuzz_target!(init: plant(demo_files(&["orders", "damaged"])), |data: &[u8]| {
    let problems = check_bytes(data, &[]);
    for problem in &problems {
        assert!(CODES.iter().any(|(code, _)| *code == problem.code), "{}", problem.code);
    }
    let wrong = problems.iter().any(Problem::is_error);
    if let Ok(order) = parse(data) {
        assert_eq!(check(&order), problems);
    } else {
        assert!(wrong);
    }
    let checked = CheckedOrder::from_bytes(data);
    assert_eq!(checked.is_err(), wrong);
    if let Ok(order) = checked {
        for person in people() {
            let _ = dose::work_out(&order, &person, date(2031, 4, 3));
        }
    }
});

fn people() -> Vec<Person> {
    let weights = [
        "2 kg",
        "9 lb 15 oz",
        "31 lb",
        "45 kg",
        "0.000001 kg",
        "600 kg",
    ];
    let ages = [
        None,
        Some(KnownAge::Adult),
        Some(KnownAge::Told(AgeSpan::days(40))),
    ];
    let mut people = Vec::new();
    for weight in weights {
        for age in ages {
            let mut person = Person::named("somebody");
            person.age = age;
            person.cleared = true;
            person.weighing = BodyWeight::parse(weight).ok().map(|weight| Weighing {
                weight,
                on: None,
                manner: Manner::Alone,
                hold_lifted: true,
            });
            people.push(person);
        }
    }
    people
}
