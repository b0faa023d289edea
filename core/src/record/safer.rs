//! The safer reading of a fact whose corrections contradict each other.
//!
//! A dose counts as given, as much of it as anybody says; a hold is kept; a stop is kept; everything else stays as it was.

use std::collections::BTreeSet;

use super::fact::Event;
use super::site::SiteEvent;
use crate::household::Answer;
use crate::prep::{Outcome, StepEvent};

/// What holds until a person has settled the conflict; `said` is what each correction makes of the fact.
pub(super) fn safer(original: &Event, said: &[Option<&Event>]) -> Option<Event> {
    let others = || said.iter().filter_map(|event| *event);
    match original {
        Event::HoldLifted { .. }
        | Event::Site {
            site: SiteEvent::HomeHoldLifted { .. },
        } => None,
        Event::Step {
            event: StepEvent::Outcome { .. },
            ..
        }
        | Event::Answered { .. }
        | Event::Site {
            site: SiteEvent::HomeAnswered { .. },
        } => std::iter::once(original)
            .chain(others())
            .filter(|event| is_about_the_same(original, event))
            .min_by_key(|event| rank(event))
            .cloned(),
        Event::Step {
            round,
            event: StepEvent::Reactions { .. },
        } => {
            let people: BTreeSet<_> = std::iter::once(original)
                .chain(others())
                .filter_map(|event| match event {
                    Event::Step {
                        event: StepEvent::Reactions { people },
                        ..
                    } => Some(people),
                    _ => None,
                })
                .flatten()
                .copied()
                .collect();
            Some(Event::Step {
                round: *round,
                event: StepEvent::Reactions { people },
            })
        }
        Event::Joined { .. } => Some(others().fold(original.clone(), most_taken)),
        _ => Some(original.clone()),
    }
}

/// The later last dose, the more doses and the fewer tablets of two.
fn most_taken(one: Event, other: &Event) -> Event {
    match (one, other) {
        (
            Event::Joined {
                person,
                order,
                last_dose,
                course_started,
                doses,
                tablets,
            },
            Event::Joined {
                person: p,
                order: o,
                last_dose: last,
                doses: more,
                tablets: fewer,
                ..
            },
        ) if (person, &order) == (*p, o) => Event::Joined {
            person,
            last_dose: last_dose.max(*last),
            course_started,
            doses: doses.max(*more),
            tablets: tablets.min(*fewer),
            order,
        },
        (one, _) => one,
    }
}

fn is_about_the_same(one: &Event, other: &Event) -> bool {
    match (one, other) {
        (
            Event::Answered {
                person, order, key, ..
            },
            Event::Answered {
                person: p,
                order: o,
                key: k,
                ..
            },
        ) => (person, order, key) == (p, o, k),
        (
            Event::Step {
                round,
                event: StepEvent::Outcome { person, .. },
            },
            Event::Step {
                round: r,
                event: StepEvent::Outcome { person: p, .. },
            },
        ) => (round, person) == (r, p),
        (
            Event::Site {
                site:
                    SiteEvent::HomeAnswered {
                        home, person, key, ..
                    },
            },
            Event::Site {
                site:
                    SiteEvent::HomeAnswered {
                        home: h,
                        person: p,
                        key: k,
                        ..
                    },
            },
        ) => (home, person, key) == (h, p, k),
        _ => false,
    }
}

/// Smaller is safer: more of the medicine was swallowed, more is held.
fn rank(event: &Event) -> u8 {
    match event {
        Event::Answered { answer, .. }
        | Event::Site {
            site: SiteEvent::HomeAnswered { answer, .. },
        } => match answer {
            Answer::Yes => 0,
            Answer::Unsure => 1,
            Answer::No => 2,
        },
        Event::Step {
            event: StepEvent::Outcome { outcome, .. },
            ..
        } => match outcome {
            Outcome::All => 0,
            Outcome::Some => 1,
            Outcome::CameBackUp => 2,
            Outcome::WouldNotTake => 3,
        },
        _ => u8::MAX,
    }
}
