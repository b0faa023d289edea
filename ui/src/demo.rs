//! The household to practise with: invented people, an invented order.

use hearthdose_core::household::{Answer, KnownAge, Manner, Person, parse_file};
use hearthdose_core::prep::PersonId;
use hearthdose_core::record::{Event, HouseholdWords, PersonWords};
use hearthdose_core::schedule;
use hearthdose_core::time::Now;
use jiff::civil::{Date, Time};
use jiff::tz::TimeZone;
use uuid::Uuid;

/// The demo order, byte for byte.
pub const ORDER: &str = include_str!("../../demo-data/orders/quillmere-doxy-1.toml");
/// The id in it.
const ORDER_ID: &str = "quillmere-doxy";
/// The demo household, written for its own start date; ages move with the day on which practice begins.
const HOUSEHOLD: &str = include_str!("../../demo-data/households/tarn-4.toml");

/// The household, beginning now: the first dose waits for no round.
pub fn household(now: &Now, zone: &str) -> HouseholdWords {
    let zone_name = if schedule::zone(zone).is_ok() {
        zone
    } else {
        "UTC"
    };
    let local = local(now, zone_name);
    let name = parse_file(HOUSEHOLD)
        .ok()
        .and_then(|file| file.name)
        .unwrap_or_default();
    HouseholdWords {
        name,
        zone: zone_name.to_owned(),
        start: local.0,
        rounds: vec![Time::constant(8, 0, 0, 0), Time::constant(20, 0, 0, 0)],
        first_dose_at: Some(local.1),
        fresh: false,
        practice: true,
    }
}

/// The people, as facts.
pub fn people(now: &Now, zone: &str) -> Vec<Event> {
    let Ok(file) = parse_file(HOUSEHOLD) else {
        return Vec::new();
    };
    let today = local(now, zone).0;
    let older = file.start.until(today).unwrap_or_default();
    let mut events = Vec::new();
    for (index, person) in file.people.iter().enumerate() {
        let id = PersonId(Uuid::new_v5(
            &Uuid::NAMESPACE_OID,
            format!("practice person {index}").as_bytes(),
        ));
        events.extend(facts_of(id, person, today, ORDER_ID, |born| {
            born.checked_add(older).unwrap_or(born)
        }));
    }
    events
}

/// The facts that set one person of a household file, on the day on which they are entered.
pub fn facts_of(
    id: PersonId,
    person: &Person,
    day: Date,
    order: &str,
    move_date: impl Fn(Date) -> Date,
) -> Vec<Event> {
    let born = match person.age {
        Some(KnownAge::Born(born)) => Some(move_date(born)),
        _ => None,
    };
    let told_age = match person.age {
        Some(KnownAge::Told(span)) => Some(span.to_string()),
        _ => None,
    };
    let sex = person.sex.map(|sex| match sex {
        hearthdose_core::growth::Sex::Female => "f".to_owned(),
        hearthdose_core::growth::Sex::Male => "m".to_owned(),
    });
    let words = PersonWords {
        person: id,
        name: person.name.clone(),
        born,
        told_age,
        adult: matches!(person.age, Some(KnownAge::Adult)),
        sex,
        swallows_tablets: person.swallows_tablets,
        born_early: person.born_early,
        food_allergies: person.food_allergies.clone(),
        starts: person.starts,
        screened: person.cleared,
    };
    let mut events = vec![Event::PersonSet(words)];
    if let Some(weighing) = &person.weighing {
        let on = weighing.on.map_or(day, move_date);
        let manner: Manner = weighing.manner;
        events.push(Event::Weighed {
            person: id,
            weight: weighing.weight.typed().to_owned(),
            on,
            manner,
        });
    }
    for (key, answer) in &person.answers {
        let answer: Answer = *answer;
        events.push(Event::Answered {
            person: id,
            order: order.to_owned(),
            key: key.clone(),
            answer,
        });
    }
    events
}

fn local(now: &Now, zone: &str) -> (Date, Time) {
    let zone = schedule::zone(zone).unwrap_or(TimeZone::UTC);
    let local = zone.to_datetime(now.wall);
    let minute = Time::new(local.hour(), local.minute(), 0, 0).unwrap_or(Time::midnight());
    (local.date(), minute)
}
