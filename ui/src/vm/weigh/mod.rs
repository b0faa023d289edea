//! Weighing: alone or together, twice, in the unit of the scale, on an own number pad.
//!
//! The weight is kept as it was typed; two readings that do not agree are taken again, never averaged away.

mod reading;
mod words;

use hearthdose_core::growth::Plausibility;
use hearthdose_core::household::{Manner, Person, Weighing};
use hearthdose_core::prep::PersonId;
use hearthdose_core::record::Event;
use hearthdose_core::screening;
use hearthdose_core::time::Now;
use hearthdose_core::units::{BodyWeight, WeightUnit};
use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::setup::DraftWeight;
use super::typing::Typing;
use super::{Kitchen, Place, Reading};

/// Where an unfinished weighing is kept.
const SETTING: &str = "weighing";

/// Where one is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
enum Step {
    How,
    /// The first or the second time on the scale.
    Read(usize),
    /// The day of a weight that was measured elsewhere.
    Day,
    /// "Pounds or kilograms?"
    WhichUnit,
    Found,
}

/// Somebody is being weighed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Weigh {
    person: Option<PersonId>,
    name: String,
    for_set_up: bool,
    step: Step,
    trail: Vec<Step>,
    manner: Manner,
    unit: WeightUnit,
    /// What was read each time: once, or with and without the child.
    turns: [Typing; 2],
    day: Typing,
    /// A person has said that the unit is right.
    unit_is_right: bool,
}

impl Weigh {
    /// Nothing was read yet.
    fn of(name: &str, unit: WeightUnit) -> Weigh {
        let mut weigh = Weigh {
            person: None,
            name: name.to_owned(),
            for_set_up: false,
            step: Step::How,
            trail: Vec::new(),
            manner: Manner::Alone,
            unit,
            turns: [Typing::default(), Typing::default()],
            day: Typing::of(&[2, 2, 4]),
            unit_is_right: false,
        };
        weigh.clear();
        weigh
    }

    fn go(&mut self, step: Step) {
        self.trail.push(self.step);
        self.step = step;
    }

    /// Readings of one turn: one, or with and without the child.
    fn readings(&self) -> usize {
        if self.manner == Manner::Together {
            2
        } else {
            1
        }
    }

    fn signs(&self) -> Vec<usize> {
        let one: &[usize] = match self.unit {
            WeightUnit::PoundsAndOunces => &[3, 4],
            WeightUnit::Pounds | WeightUnit::Kilograms => &[6],
        };
        one.repeat(self.readings())
    }

    fn clear(&mut self) {
        let signs = self.signs();
        self.turns = [Typing::of(&signs), Typing::of(&signs)];
    }

    fn takes_two_turns(&self) -> bool {
        matches!(self.manner, Manner::Alone | Manner::Together)
    }

    /// One reading as it was typed, with its unit.
    fn typed(&self, turn: usize, reading: usize) -> Option<String> {
        let typing = self.turns.get(turn)?;
        let number = |index: usize| {
            let value = typing.get(index).trim_end_matches('.');
            (!value.is_empty()).then(|| value.to_owned())
        };
        match self.unit {
            WeightUnit::Pounds => Some(format!("{} lb", number(reading)?)),
            WeightUnit::Kilograms => Some(format!("{} kg", number(reading)?)),
            WeightUnit::PoundsAndOunces => {
                let pounds = number(2 * reading)?;
                match number(2 * reading + 1) {
                    Some(ounces) => Some(format!("{pounds} lb {ounces} oz")),
                    None => Some(format!("{pounds} lb")),
                }
            }
        }
    }

    fn reading(&self, turn: usize, reading: usize) -> Option<BodyWeight> {
        BodyWeight::parse(&self.typed(turn, reading)?).ok()
    }

    /// The person's weight by one turn.
    fn of_turn(&self, turn: usize) -> Option<BodyWeight> {
        let first = self.reading(turn, 0)?;
        match self.readings() {
            1 => Some(first),
            _ => first.minus(&self.reading(turn, 1)?),
        }
    }

    /// Whether both times on the scale came within what a scale gets wrong.
    fn agrees(&self) -> bool {
        match (self.of_turn(0), self.of_turn(1)) {
            (Some(first), Some(second)) => {
                first.distance(&second) <= BodyWeight::scale_error().as_picograms()
            }
            _ => false,
        }
    }

    /// The weight to keep; none while something is missing or the two do not agree.
    pub(super) fn found(&self) -> Option<BodyWeight> {
        let first = self.of_turn(0)?;
        if !self.takes_two_turns() {
            return Some(first);
        }
        let second = self.of_turn(1).filter(|_| self.agrees())?;
        Some(first.halfway(&second))
    }
}

impl Kitchen {
    pub(super) fn begin_weighing(&mut self, person: Option<PersonId>, name: &str, set_up: bool) {
        let unit = match &self.open {
            // The unit that this home used last is the one of its scale.
            Some(open) => open
                .state
                .people()
                .filter_map(|(_, record)| record.person.weight().map(BodyWeight::unit))
                .last()
                .unwrap_or(WeightUnit::Pounds),
            None => WeightUnit::Pounds,
        };
        let weigh = Weigh {
            person,
            for_set_up: set_up,
            ..Weigh::of(name, unit)
        };
        let before = self.open.as_mut().and_then(|open| open.put_aside.take());
        let same = before.filter(|before| {
            (before.person, before.for_set_up) == (person, set_up) && before.name == name
        });
        self.weigh = Some(same.unwrap_or(weigh));
        self.keep_weighing();
        self.go(Place::Weigh);
    }

    /// Takes up a weighing in which the program was closed; false when there was none.
    pub(super) fn resume_weighing(&mut self) -> bool {
        let kept = self
            .open
            .as_ref()
            .and_then(|open| open.store.setting(SETTING).ok().flatten())
            .and_then(|text| serde_json::from_str::<Weigh>(&text).ok());
        let Some(weigh) = kept else {
            return false;
        };
        self.trail = match weigh.person.filter(|_| !weigh.for_set_up) {
            Some(person) => vec![
                Place::Today,
                Place::Reading(Reading::People),
                Place::Reading(Reading::Person(person)),
            ],
            None => vec![Place::SetUp],
        };
        self.weigh = Some(weigh);
        self.place = Place::Weigh;
        true
    }

    /// Writes down how far the weighing is; nothing that was typed is lost by closing the program.
    fn keep_weighing(&mut self) {
        let text = self
            .weigh
            .as_ref()
            .and_then(|weigh| serde_json::to_string(weigh).ok())
            .unwrap_or_default();
        let saved = self
            .open
            .as_mut()
            .map(|open| open.store.set_setting(SETTING, &text));
        if let Some(Err(error)) = saved {
            self.tell_error(&error.into());
        }
    }

    pub(super) fn back_in_weighing(&mut self) -> bool {
        let Some(weigh) = self.weigh.as_mut() else {
            return false;
        };
        match weigh.trail.pop() {
            Some(step) => {
                weigh.step = step;
                self.keep_weighing();
                true
            }
            None => {
                // Whoever comes back to it finds what was read.
                let weigh = self.weigh.take();
                if let Some(open) = self.open.as_mut() {
                    open.put_aside = weigh;
                }
                self.keep_weighing();
                false
            }
        }
    }

    /// Presses of the weighing screens; false when the id belongs elsewhere.
    pub(super) fn press_weigh(&mut self, id: &str, now: &Now) -> bool {
        let Some(mut weigh) = self.weigh.take() else {
            return false;
        };
        let (taken, over) = self.weigh_press(&mut weigh, id, now);
        if !over {
            self.weigh = Some(weigh);
        }
        if taken {
            self.keep_weighing();
        }
        taken
    }

    fn weigh_press(&mut self, weigh: &mut Weigh, id: &str, now: &Now) -> (bool, bool) {
        let typing = match weigh.step {
            Step::Read(turn) => weigh.turns.get_mut(turn),
            Step::Day => Some(&mut weigh.day),
            Step::How | Step::WhichUnit | Step::Found => None,
        };
        if typing.is_some_and(|typing| typing.press(id)) {
            return (true, false);
        }
        if let Some(unit) = unit_of(id) {
            if unit != weigh.unit {
                weigh.unit = unit;
                weigh.clear();
                weigh.step = Step::Read(0);
            }
            return (true, false);
        }
        let day = self.day(now);
        match (weigh.step, id) {
            (Step::How, "alone" | "together" | "clinic" | "site") => {
                let manner = match id {
                    "alone" => Manner::Alone,
                    "together" => Manner::Together,
                    "site" => Manner::Site,
                    _ => Manner::Clinic,
                };
                if manner != weigh.manner {
                    weigh.manner = manner;
                    weigh.clear();
                }
                weigh.go(Step::Read(0));
            }
            (Step::Read(0), "next") if weigh.of_turn(0).is_some() => {
                if weigh.takes_two_turns() {
                    weigh.go(Step::Read(1));
                } else {
                    weigh.go(Step::Day);
                }
            }
            (Step::Read(1), "next") if weigh.found().is_some() => self.check_unit(weigh, day),
            (Step::Day, "next") if self.weighed_on(weigh, day).is_some() => {
                self.check_unit(weigh, day);
            }
            (Step::WhichUnit, "unit-right") => {
                weigh.unit_is_right = true;
                weigh.go(Step::Found);
            }
            (_, "weigh-again") => {
                weigh.clear();
                weigh.unit_is_right = false;
                weigh.trail = vec![Step::How];
                weigh.step = Step::Read(0);
            }
            (Step::Found, "keep-weight") => return (true, self.keep_weight(weigh, now)),
            _ => return (false, false),
        }
        (true, false)
    }

    fn check_unit(&self, weigh: &mut Weigh, day: Date) {
        let asks = weigh.found().is_some_and(|weight| {
            let person = self.weighed_person(weigh, &weight, day);
            screening::weight_question(&person, &weight, day) == Plausibility::Ask
        });
        weigh.go(if asks && !weigh.unit_is_right {
            Step::WhichUnit
        } else {
            Step::Found
        });
    }

    /// The day of the weight: today on an own scale, the typed day otherwise.
    fn weighed_on(&self, weigh: &Weigh, today: Date) -> Option<Date> {
        if weigh.takes_two_turns() {
            return Some(today);
        }
        self.date_of(&weigh.day).filter(|date| *date <= today)
    }

    /// The person with this weight instead of the one that is known.
    fn weighed_person(&self, weigh: &Weigh, weight: &BodyWeight, day: Date) -> Person {
        let open = self.open.as_ref();
        let known = weigh
            .person
            .and_then(|id| open?.state.people.get(&id).map(|r| r.person.clone()));
        let draft = open
            .and_then(|open| open.set_up.as_ref())
            .filter(|_| weigh.for_set_up)
            .map(|set_up| set_up.person.person());
        let mut person = draft
            .or(known)
            .unwrap_or_else(|| Person::named(&weigh.name));
        person.weighing = Some(Weighing {
            weight: weight.clone(),
            on: self.weighed_on(weigh, day),
            manner: weigh.manner,
            hold_lifted: false,
        });
        person
    }

    /// Puts the weight into the record, or into the set-up; true when the weighing is over.
    fn keep_weight(&mut self, weigh: &Weigh, now: &Now) -> bool {
        let today = self.day(now);
        let (Some(weight), Some(on)) = (weigh.found(), self.weighed_on(weigh, today)) else {
            return false;
        };
        if weigh.for_set_up {
            self.trail.pop();
            self.weight_for_set_up(
                DraftWeight {
                    weight: weight.typed().to_owned(),
                    on,
                    manner: weigh.manner,
                },
                now,
            );
            return true;
        }
        let Some(person) = weigh.person else {
            return true;
        };
        let change = self.dose_change(weigh, &weight, today);
        let event = Event::Weighed {
            person,
            weight: weight.typed().to_owned(),
            on,
            manner: weigh.manner,
        };
        if !self.record(now, vec![event]) {
            return false;
        }
        self.place = self.trail.pop().unwrap_or(Place::Today);
        if change.is_some() {
            self.telling = change;
        }
        true
    }
}

fn unit_of(id: &str) -> Option<WeightUnit> {
    Some(match id {
        "unit-lb" => WeightUnit::Pounds,
        "unit-lb-oz" => WeightUnit::PoundsAndOunces,
        "unit-kg" => WeightUnit::Kilograms,
        _ => return None,
    })
}
