//! Setting up a household: one question a screen, in the order in which a tired person can answer.
//!
//! What was answered is kept in the record's settings after every press, so that closing the program loses nothing.
//! A person becomes part of the record when the last question about them is answered, all in one transaction.

mod birth;
mod house;
mod joining;
mod person;
mod words;

pub(super) use house::{FIRST_HOURS, times_from};
pub(super) use person::{BABY, answer_of};

use std::collections::{BTreeMap, BTreeSet};

use joining::Before;

use hearthdose_core::household::{Answer, KnownAge, Manner, Person, Weighing};
use hearthdose_core::order::{CheckedOrder, Form};
use hearthdose_core::prep::PersonId;
use hearthdose_core::record::PersonWords;
use hearthdose_core::time::Now;
use hearthdose_core::units::{AgeSpan, BodyWeight};
use jiff::civil::{Date, Time};
use serde::{Deserialize, Serialize};

use super::typing::Typing;
use super::view::StepView;
use super::{Kitchen, Open, Place};

/// The questions, each a screen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(super) enum Ask {
    Name,
    Age,
    Birth,
    ToldAge,
    BornEarly,
    Swallows,
    /// By place in the list of what the order's foods contain.
    Food(usize),
    /// By place in the order's list of questions.
    Question(usize),
    /// What the answers mean, where they mean anything.
    Outcome,
    Weight,
    More,
    Times,
    OtherTime,
    Ready,
    Tablets,
    Lot,
    /// Somebody who joins: was the medicine taken elsewhere?
    Elsewhere,
    LastDay,
    LastTime,
    CourseStart,
    Brought,
}

/// Everything that was answered so far.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct SetUp {
    pub ask: Ask,
    pub trail: Vec<Ask>,
    pub person: Draft,
    pub typing: Typing,
    /// Whether the hour that is typed is after noon.
    pub after_noon: bool,
    pub times: Vec<Time>,
    /// Tablets that came, and the lot on their bottle.
    pub tablets: u32,
    pub lot: String,
    /// One more person for a household that is already on its course.
    pub joining: bool,
    /// That person, once they are in the record.
    pub joined: Option<PersonId>,
    pub before: Before,
    /// Screens that were left, as they were: Back and forward again find everything there.
    #[serde(default)]
    left: Vec<Left>,
}

/// A screen as it was when it was left.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
struct Left {
    ask: Ask,
    typing: Typing,
    /// The answer that was pressed.
    chosen: Option<String>,
}

/// One person as far as they are known.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Draft {
    pub id: Option<PersonId>,
    pub name: String,
    pub born: Option<Date>,
    pub told_age: Option<String>,
    pub adult: bool,
    pub born_early: Option<Answer>,
    pub swallows: bool,
    pub foods: BTreeSet<String>,
    pub answers: BTreeMap<String, Answer>,
    pub weight: Option<DraftWeight>,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct DraftWeight {
    pub weight: String,
    pub on: Date,
    pub manner: Manner,
}

impl SetUp {
    pub fn new() -> SetUp {
        SetUp {
            ask: Ask::Name,
            trail: Vec::new(),
            person: Draft::default(),
            typing: Typing::default(),
            after_noon: false,
            times: Vec::new(),
            tablets: 0,
            lot: String::new(),
            joining: false,
            joined: None,
            before: Before::default(),
            left: Vec::new(),
        }
    }

    pub fn joining() -> SetUp {
        SetUp {
            joining: true,
            ..SetUp::new()
        }
    }

    pub fn go(&mut self, ask: Ask) {
        self.leave();
        self.trail.push(self.ask);
        self.ask = ask;
        if let Some(before) = self.left.iter().find(|left| left.ask == ask) {
            self.typing = before.typing.clone();
            return;
        }
        self.typing = match ask {
            Ask::Birth | Ask::CourseStart => Typing::of(&[2, 2, 4]),
            Ask::ToldAge => Typing::of(&[3, 2]),
            Ask::OtherTime | Ask::LastTime => Typing::of(&[2, 2]),
            Ask::Tablets | Ask::Brought => Typing::of(&[4]),
            _ => Typing::default(),
        };
    }

    /// Keeps what stands on the present screen.
    fn leave(&mut self) {
        let (ask, typing) = (self.ask, self.typing.clone());
        match self.left.iter_mut().find(|left| left.ask == ask) {
            Some(before) => before.typing = typing,
            None => self.left.push(Left {
                ask,
                typing,
                chosen: None,
            }),
        }
    }

    /// Which answer led on from this screen.
    fn choose(&mut self, ask: Ask, id: &str) {
        if let Some(left) = self.left.iter_mut().find(|left| left.ask == ask) {
            left.chosen = Some(id.to_owned());
        }
    }

    /// The person is in the record: the next one begins with empty screens.
    fn forget_screens(&mut self) {
        self.trail.clear();
        self.left.clear();
    }
}

impl Draft {
    /// The person as the rules see them.
    pub fn person(&self) -> Person {
        let mut person = Person::named(&self.name);
        person.age = match (self.born, &self.told_age, self.adult) {
            (Some(born), _, _) => Some(KnownAge::Born(born)),
            (None, Some(told), _) => AgeSpan::parse(told).ok().map(KnownAge::Told),
            (None, None, true) => Some(KnownAge::Adult),
            (None, None, false) => None,
        };
        person.born_early = self.born_early;
        person.swallows_tablets = self.swallows;
        person.food_allergies = self.foods.clone();
        person.answers = self.answers.clone();
        person.weighing = self.weight.as_ref().and_then(|kept| {
            Some(Weighing {
                weight: BodyWeight::parse(&kept.weight).ok()?,
                on: Some(kept.on),
                manner: kept.manner,
                hold_lifted: false,
            })
        });
        person
    }

    pub fn words(&self, id: PersonId, starts: Option<Date>) -> PersonWords {
        PersonWords {
            person: id,
            name: self.name.trim().to_owned(),
            born: self.born,
            told_age: self.told_age.clone(),
            adult: self.adult,
            sex: None,
            swallows_tablets: self.swallows,
            born_early: self.born_early,
            food_allergies: self.foods.clone(),
            starts,
            screened: false,
        }
    }
}

/// What the order's food or drink may contain that somebody can be allergic to.
pub(super) fn allergens(order: &CheckedOrder) -> Vec<String> {
    let vehicles = order.recipe.iter().flat_map(|recipe| &recipe.vehicles);
    let all: BTreeSet<String> = vehicles
        .flat_map(|vehicle| vehicle.contains.iter().cloned())
        .collect();
    all.into_iter().collect()
}

pub(super) fn counts_tablets(order: &CheckedOrder) -> bool {
    order.main_product().is_some_and(|p| p.form == Form::Tablet)
}

impl Kitchen {
    /// The set-up screen one is at.
    pub(super) fn set_up_view(&self, open: &Open, set_up: &SetUp, now: &Now) -> StepView {
        let mut view = self.asked_view(open, set_up, now);
        let before = set_up.left.iter().find(|left| left.ask == set_up.ask);
        if let Some(chosen) = before.and_then(|left| left.chosen.as_ref()) {
            for choice in &mut view.choices {
                choice.chosen = choice.id == *chosen;
            }
        }
        view
    }

    fn asked_view(&self, open: &Open, set_up: &SetUp, now: &Now) -> StepView {
        match set_up.ask {
            Ask::Name | Ask::Age | Ask::Birth | Ask::ToldAge | Ask::BornEarly | Ask::Swallows => {
                self.who_view(open, set_up, now)
            }
            Ask::Food(_) | Ask::Question(_) | Ask::Outcome | Ask::Weight => {
                self.screening_view(open, set_up)
            }
            Ask::More | Ask::Times | Ask::OtherTime | Ask::Ready | Ask::Tablets | Ask::Lot => {
                self.house_view(open, set_up)
            }
            Ask::Elsewhere | Ask::LastDay | Ask::LastTime | Ask::CourseStart | Ask::Brought => {
                self.joining_view(open, set_up, now)
            }
        }
    }

    /// A press on a set-up screen; false when the id belongs elsewhere.
    pub(super) fn press_set_up(&mut self, id: &str, now: &Now) -> bool {
        let Some(mut set_up) = self.open.as_mut().and_then(|open| open.set_up.take()) else {
            return false;
        };
        let ask = set_up.ask;
        let taken = match ask {
            Ask::More | Ask::Times | Ask::OtherTime | Ask::Ready | Ask::Tablets | Ask::Lot => {
                self.press_house(&mut set_up, id, now)
            }
            Ask::Elsewhere | Ask::LastDay | Ask::LastTime | Ask::CourseStart | Ask::Brought => {
                self.press_joining(&mut set_up, id, now)
            }
            _ => self.press_person(&mut set_up, id, now),
        };
        if set_up.ask != ask {
            set_up.choose(ask, id);
        }
        let done = taken == Taken::Done;
        if let Some(open) = self.open.as_mut() {
            open.set_up = (!done).then_some(set_up);
        }
        if taken != Taken::No {
            self.keep_set_up();
        }
        if done {
            self.trail.clear();
            self.place = Place::Today;
            self.refresh();
        }
        taken != Taken::No
    }

    /// Back within the questions; false when one is at the first of them.
    pub(super) fn back_in_set_up(&mut self) -> bool {
        let Some(set_up) = self.open.as_mut().and_then(|open| open.set_up.as_mut()) else {
            return false;
        };
        let Some(before) = set_up.trail.pop() else {
            return false;
        };
        let trail = std::mem::take(&mut set_up.trail);
        set_up.go(before);
        set_up.trail = trail;
        self.keep_set_up();
        true
    }

    /// Back from the first question: one more person is left out again, a new home waits for another time.
    pub(super) fn leave_set_up(&mut self) {
        let joining = self
            .open
            .as_ref()
            .and_then(|open| open.set_up.as_ref())
            .is_some_and(|set_up| set_up.joining);
        if joining {
            if let Some(open) = self.open.as_mut() {
                open.set_up = None;
            }
            self.keep_set_up();
            self.place = self.trail.pop().unwrap_or(Place::Today);
        } else {
            self.open = None;
            self.trail.clear();
            self.place = Place::Start;
            self.read_homes();
        }
    }

    /// Words typed into the field of a set-up screen.
    pub(super) fn words_in_set_up(&mut self, words: String) {
        if let Some(set_up) = self.open.as_mut().and_then(|open| open.set_up.as_mut()) {
            match set_up.ask {
                Ask::Name => set_up.person.name = words,
                Ask::Lot => set_up.lot = words,
                _ => return,
            }
            self.keep_set_up();
        }
    }

    /// Writes the answers down; nothing that was answered is lost by closing the program.
    pub(super) fn keep_set_up(&mut self) {
        let Some(open) = self.open.as_mut() else {
            return;
        };
        let text = open
            .set_up
            .as_ref()
            .and_then(|set_up| serde_json::to_string(set_up).ok())
            .unwrap_or_default();
        if let Err(error) = open.store.set_setting(SETTING, &text) {
            self.tell_error(&error.into());
        }
    }
}

/// Where the answers are kept.
pub(super) const SETTING: &str = "set-up";

/// What became of a press.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Taken {
    No,
    Yes,
    /// The set-up is over.
    Done,
}
