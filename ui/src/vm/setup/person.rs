//! What a press means in the questions about one person, and which question comes next.

use hearthdose_core::dose;
use hearthdose_core::household::Answer;
use hearthdose_core::prep::PersonId;
use hearthdose_core::record::Event;
use hearthdose_core::screening;
use hearthdose_core::time::Now;
use hearthdose_core::units::AgeSpan;
use jiff::civil::Date;

use super::{Ask, SetUp, Taken, allergens};
use crate::vm::{Kitchen, Open, Place};

/// Under this age it matters whether a baby was born early.
pub(in crate::vm) const BABY: AgeSpan = AgeSpan { months: 3, days: 0 };

impl Kitchen {
    pub(super) fn press_person(&mut self, set_up: &mut SetUp, id: &str, now: &Now) -> Taken {
        if set_up.typing.press(id) {
            return Taken::Yes;
        }
        let day = self.day(now);
        let person = &mut set_up.person;
        match (set_up.ask, id) {
            (Ask::Name, "next") if !person.name.trim().is_empty() => set_up.go(Ask::Age),
            (Ask::Age, "adult") => {
                (person.adult, person.born, person.told_age) = (true, None, None);
                set_up.go(Ask::Swallows);
            }
            (Ask::Age, "child") | (Ask::ToldAge, "birth-date") => set_up.go(Ask::Birth),
            (Ask::Age | Ask::Birth, "told-age") => set_up.go(Ask::ToldAge),
            (Ask::Birth, "next") => {
                let Some(born) = self.typed_birth(set_up, day).date() else {
                    return Taken::No;
                };
                let person = &mut set_up.person;
                (person.adult, person.born, person.told_age) = (false, Some(born), None);
                self.after_age(set_up, day);
            }
            (Ask::ToldAge, "next") => {
                let Some(told) = typed_age(set_up) else {
                    return Taken::No;
                };
                let person = &mut set_up.person;
                (person.adult, person.born, person.told_age) = (false, None, Some(told));
                self.after_age(set_up, day);
            }
            (Ask::BornEarly, answer) => {
                let Some(answer) = answer_of(answer) else {
                    return Taken::No;
                };
                person.born_early = Some(answer);
                set_up.go(Ask::Swallows);
            }
            (Ask::Swallows, "yes" | "no") => {
                person.swallows = id == "yes";
                return self.after_food(set_up, 0, now);
            }
            // Whoever is not sure gets it left out.
            (Ask::Food(index), "yes" | "no" | "unsure") => {
                let allergen = self
                    .open
                    .as_ref()
                    .and_then(|open| allergens(&open.order).into_iter().nth(index));
                if let Some(allergen) = allergen {
                    if id != "no" {
                        person.foods.insert(allergen);
                    } else {
                        person.foods.remove(&allergen);
                    }
                }
                return self.after_food(set_up, index + 1, now);
            }
            (Ask::Question(index), answer) => {
                let key = self
                    .open
                    .as_ref()
                    .and_then(|open| open.order.questions.get(index).map(|q| q.key.clone()));
                let (Some(answer), Some(key)) = (answer_of(answer), key) else {
                    return Taken::No;
                };
                person.answers.insert(key, answer);
                return self.after_questions(set_up, index + 1, now);
            }
            (Ask::Outcome, "next") => return self.after_outcome_of(set_up, now),
            (Ask::Weight, "weigh") => {
                let (id, name) = (person.id, person.name.clone());
                self.begin_weighing(id, &name, true);
            }
            (Ask::Weight, "later") => return self.person_done(set_up, now),
            _ => return Taken::No,
        }
        Taken::Yes
    }

    /// The weight that was found belongs to the person being entered.
    pub(in crate::vm) fn weight_for_set_up(&mut self, kept: super::DraftWeight, now: &Now) {
        let Some(mut set_up) = self.open.as_mut().and_then(|open| open.set_up.take()) else {
            return;
        };
        set_up.person.weight = Some(kept);
        let taken = self.person_done(&mut set_up, now);
        if let Some(open) = self.open.as_mut() {
            open.set_up = (taken != Taken::Done).then_some(set_up);
        }
        self.keep_set_up();
        self.place = if taken == Taken::Done {
            self.refresh();
            Place::Today
        } else {
            Place::SetUp
        };
    }

    fn after_age(&self, set_up: &mut SetUp, day: Date) {
        let baby = set_up
            .person
            .person()
            .age_on(day)
            .is_some_and(|age| !age.reached(BABY));
        if baby {
            set_up.go(Ask::BornEarly);
        } else {
            set_up.person.born_early = None;
            set_up.go(Ask::Swallows);
        }
    }

    fn after_food(&mut self, set_up: &mut SetUp, next: usize, now: &Now) -> Taken {
        let open = self.open.as_ref();
        // Somebody who swallows tablets whole may still get the bowl, so food matters for everybody.
        if open.is_some_and(|open| next < allergens(&open.order).len()) {
            set_up.go(Ask::Food(next));
            return Taken::Yes;
        }
        self.after_questions(set_up, 0, now)
    }

    fn after_questions(&mut self, set_up: &mut SetUp, next: usize, now: &Now) -> Taken {
        let Some(open) = &self.open else {
            return Taken::No;
        };
        if next < open.order.questions.len() {
            set_up.go(Ask::Question(next));
        } else if self.has_outcome(open, set_up) {
            set_up.go(Ask::Outcome);
        } else {
            return self.after_outcome_of(set_up, now);
        }
        Taken::Yes
    }

    fn has_outcome(&self, open: &Open, set_up: &SetUp) -> bool {
        let person = set_up.person.person();
        !screening::answers(&open.order, &person).is_empty()
            || !super::words::cautions_of(&open.order, &person).is_empty()
    }

    fn after_outcome_of(&mut self, set_up: &mut SetUp, now: &Now) -> Taken {
        let day = self.day(now);
        let Some(open) = &self.open else {
            return Taken::No;
        };
        if dose::needs_weight(&open.order, &set_up.person.person(), day) {
            set_up.go(Ask::Weight);
            return Taken::Yes;
        }
        self.person_done(set_up, now)
    }

    /// Everything about this person goes into the record, in one transaction.
    fn person_done(&mut self, set_up: &mut SetUp, now: &Now) -> Taken {
        if !self.write_person(set_up, now) {
            return Taken::Yes;
        }
        if set_up.joining {
            set_up.go(Ask::Elsewhere);
            set_up.forget_screens();
            return Taken::Yes;
        }
        set_up.go(Ask::More);
        set_up.forget_screens();
        Taken::Yes
    }

    /// Writes the person down; false when it could not be saved, which was then told.
    pub(super) fn write_person(&mut self, set_up: &mut SetUp, now: &Now) -> bool {
        let id = set_up.person.id.unwrap_or(PersonId(self.ids.fresh()));
        let starts = set_up.joining.then(|| self.day(now));
        let order = self.open.as_ref().map(|open| open.order.id.clone());
        let draft = &set_up.person;
        let mut events = vec![Event::PersonSet(draft.words(id, starts))];
        for (key, answer) in &draft.answers {
            events.push(Event::Answered {
                person: id,
                order: order.clone().unwrap_or_default(),
                key: key.clone(),
                answer: *answer,
            });
        }
        if let Some(kept) = &draft.weight {
            events.push(Event::Weighed {
                person: id,
                weight: kept.weight.clone(),
                on: kept.on,
                manner: kept.manner,
            });
        }
        let written = self.record(now, events);
        if written {
            set_up.person = super::Draft::default();
            set_up.joined = Some(id);
            if let Some(open) = self.open.as_mut() {
                open.put_aside = None;
            }
        }
        written
    }

    /// The date typed into a day, a month and a year, when it is one and not after today.
    pub(super) fn typed_date(&self, set_up: &SetUp, today: Date) -> Option<Date> {
        self.date_of(&set_up.typing).filter(|date| *date <= today)
    }
}

/// The age typed as years and months, as the record writes it.
pub(super) fn typed_age(set_up: &SetUp) -> Option<String> {
    let (years, months) = (set_up.typing.get(0), set_up.typing.get(1));
    let text = match (years.parse::<u32>(), months.parse::<u32>()) {
        (Ok(years), Ok(months)) if months < 12 => format!("{years} y {months} mo"),
        (Ok(years), Err(_)) if months.is_empty() => format!("{years} y"),
        (Err(_), Ok(months)) if years.is_empty() => format!("{months} mo"),
        _ => return None,
    };
    AgeSpan::parse(&text).ok().map(|_| text)
}

pub(in crate::vm) fn answer_of(id: &str) -> Option<Answer> {
    Some(match id {
        "yes" => Answer::Yes,
        "no" => Answer::No,
        "unsure" => Answer::Unsure,
        _ => return None,
    })
}
