//! What a press does.

use hearthdose_core::prep::{OrderRef, Outcome, PersonId, RoundKey, Stage, Stay, StepEvent, Tool};
use hearthdose_core::record::Event;
use hearthdose_core::time::Now;
use hearthdose_core::today;

use super::about::About;
use super::ports::Shelf;
use super::{Kitchen, Open, Place, Reading};

impl Kitchen {
    pub(super) fn press(&mut self, id: &str, now: &Now) {
        if self.press_told(id) || self.press_settings(id) {
            return;
        }
        let answered = match self.place {
            Place::SetUp => self.press_set_up(id, now),
            Place::Weigh => self.press_weigh(id, now),
            _ => false,
        };
        if answered || self.press_people(id, now) || self.press_history(id, now) {
            return;
        }
        if self.press_code(id, now)
            || self.press_receive(id, now)
            || self.press_packs(id, now)
            || self.press_print(id, now)
            || self.press_homes(id)
            || self.press_bell(id, now)
        {
            return;
        }
        match id {
            "practise" => self.practise(),
            "work-at-site" => self.work_at_site(now),
            "to-site" => self.back_to_site(now),
            "with-order" | "look-for-papers" => {
                self.look_for_papers();
                self.go(Place::Papers);
            }
            "take-paper" => self.take_paper(now),
            "take-paper-too" => self.take_paper_too(now),
            "not-this-paper" => self.back(),
            "about" => self.go(Place::Reading(Reading::About)),
            "settings" => self.go(Place::Reading(Reading::Settings)),
            "help" => self.go(Place::Reading(Reading::Help)),
            "order" => self.go(Place::Reading(Reading::Order)),
            "record" => self.go(Place::Reading(Reading::Record)),
            "people" => self.go(Place::Reading(Reading::People)),
            "ahead" => self.go(Place::Reading(Reading::Ahead)),
            "today" | "to-today" => self.show_today(),
            "leave-practice" => self.leave_practice(),
            "begin" => self.begin_round(now),
            "go-on" => self.show_round(),
            "wrong" => self.go(Place::Wrong),
            "look-again" | "after-outcome" => self.show_round(),
            "reactions-some" => self.go(Place::Reaction),
            _ => match id.strip_prefix("paper:").and_then(|at| at.parse().ok()) {
                Some(index) => self.go(Place::Reading(Reading::Paper(index))),
                None => self.press_in_round(id, now),
            },
        }
    }

    /// Words typed into the one field of a screen.
    pub(super) fn type_words(&mut self, text: &str) {
        // A name fits on a label, a code on a picture.
        let most = if self.place == Place::Receive {
            4_300
        } else {
            40
        };
        let words: String = text
            .chars()
            .filter(|c| !c.is_control())
            .take(most)
            .collect();
        match self.place {
            Place::About(_, About::Stopped | About::Lift) => self.typed = words,
            Place::SetUp => self.words_in_set_up(words),
            Place::Packs(_) | Place::Receive => self.typed = words,
            _ => {}
        }
    }

    /// Enter in a field: the main button, when it is ready.
    pub(super) fn accept(&mut self, now: &Now) {
        if let super::view::Screen::Step(step) = self.screen(now)
            && let Some(main) = step.main.filter(|main| main.ready)
        {
            self.press(&main.id, now);
        }
    }

    pub(super) fn go(&mut self, place: Place) {
        if self.place != place {
            let left = std::mem::replace(&mut self.place, place);
            self.trail.retain(|before| *before != left);
            self.trail.push(left);
        }
    }

    pub(super) fn back(&mut self) {
        if self.telling.is_some() {
            return;
        }
        self.reacting.clear();
        if self.place == Place::SetUp && self.back_in_set_up()
            || self.place == Place::Weigh && self.back_in_weighing()
        {
            return;
        }
        if self.place == Place::SetUp {
            self.leave_set_up();
            return;
        }
        if self.place == Place::Today && self.trail.is_empty() && self.at_table_of.is_some() {
            let now = self.clock.now();
            self.back_to_site(&now);
            return;
        }
        self.place = match (self.trail.pop(), &self.open) {
            (Some(place), _) => place,
            (None, Some(_)) => Place::Today,
            (None, None) => Place::Start,
        };
    }

    pub(super) fn show_today(&mut self) {
        self.trail.clear();
        self.place = match &self.open {
            Some(open) if open.set_up.is_some() => Place::SetUp,
            Some(_) => Place::Today,
            None => Place::Start,
        };
        self.refresh();
    }

    pub(super) fn show_round(&mut self) {
        self.trail.clear();
        self.trail.push(Place::Today);
        self.place = Place::Round;
    }

    /// The practice is put aside, not erased: it can be taken up by beginning it again.
    fn leave_practice(&mut self) {
        if self
            .open
            .as_ref()
            .is_some_and(|open| open.shelf == Shelf::Practice)
        {
            self.open = None;
            self.trail.clear();
            self.place = Place::Start;
        }
    }

    fn begin_round(&mut self, now: &Now) {
        self.refresh();
        let ids = &mut self.ids;
        let plan = self.open.as_ref().and_then(|open| {
            let today = open.today.as_ref()?.as_ref().ok()?;
            let plan = today::round_plan(today, &open.state, &open.order, &mut || ids.fresh())?;
            Some((plan, today.missed.clone()))
        });
        let Some((plan, missed)) = plan else {
            self.tell("told-no-plan", "told-no-plan-body");
            return;
        };
        let reason = String::new();
        let mut events: Vec<Event> = missed
            .into_iter()
            .map(|round| Event::RoundMissed {
                round,
                reason: reason.clone(),
            })
            .collect();
        events.push(Event::RoundBegun {
            plan: Box::new(plan),
        });
        self.reacting.clear();
        if self.record(now, events) {
            self.show_round();
        }
    }

    fn press_in_round(&mut self, id: &str, now: &Now) {
        if let Some(person) = id
            .strip_prefix("reaction:")
            .and_then(|id| id.parse().ok())
            .map(PersonId)
        {
            if !self.reacting.remove(&person) {
                self.reacting.insert(person);
            }
            return;
        }
        if let Some(person) = id
            .strip_prefix("why:")
            .and_then(|id| id.parse().ok())
            .map(PersonId)
        {
            self.go(Place::Reading(Reading::Why(person)));
            return;
        }
        if id == "crushed" && self.crushed_after_the_soak(now) {
            return;
        }
        if self.place == Place::Wrong {
            if let Some(event) = self.wrong_event(id, now) {
                self.step(event, now);
            }
            return;
        }
        if let Some(event) = self.event_of(id, now) {
            self.step(event, now);
        }
    }

    /// The end of the soak and the crushing in one press and one transaction; false when the soak was noted before.
    fn crushed_after_the_soak(&mut self, now: &Now) -> bool {
        let Some(round) = self.open.as_ref().and_then(Open::round) else {
            return false;
        };
        let round_key = round.prep.plan.key;
        let both = [StepEvent::Crush, StepEvent::Crushed];
        let first = round.prep.after(&StepEvent::Crush, now);
        if first.is_ok_and(|prep| prep.after(&StepEvent::Crushed, now).is_ok()) {
            let events = both.map(|event| Event::Step {
                round: round_key,
                event,
            });
            if self.record(now, events.to_vec()) {
                self.show_round();
            }
            return true;
        }
        false
    }

    /// What a press means at the present step; ids of other steps mean nothing.
    fn event_of(&self, id: &str, now: &Now) -> Option<StepEvent> {
        let prep = &self.open.as_ref()?.round()?.prep;
        let stage = prep.stage(now);
        if let (Stage::Food { person }, Some(food)) = (&stage, id.strip_prefix("food:")) {
            let foods = &super::round::taking(prep, *person)?.take.foods;
            let chosen = food
                .parse()
                .ok()
                .and_then(|index: usize| foods.get(index))
                .map(|food| food.name.clone());
            return Some(StepEvent::FoodAdded {
                person: *person,
                food: chosen,
            });
        }
        Some(match (stage, id) {
            (_, "reactions-nobody") => StepEvent::Reactions {
                people: Default::default(),
            },
            (_, "reaction-stop") => StepEvent::Reactions {
                people: self.reacting.clone(),
            },
            (Stage::AskCold { bowl }, "cold-yes") => StepEvent::StayedCold { bowl, cold: true },
            (Stage::AskCold { bowl }, "cold-no") => StepEvent::StayedCold { bowl, cold: false },
            (_, "label-yes") => StepEvent::Label { matches: true },
            (_, "label-no") => StepEvent::Label { matches: false },
            (_, "tool-spoon") => StepEvent::ToolChosen { tool: Tool::Spoon },
            (_, "tool-syringe") => StepEvent::ToolChosen {
                tool: Tool::Syringe,
            },
            (_, "water-in") => StepEvent::WaterIn,
            (_, "crushed") => StepEvent::Crushed,
            (_, "smooth-yes") => StepEvent::Smooth { smooth: true },
            (_, "smooth-no") => StepEvent::Smooth { smooth: false },
            (_, "second-fluid") => StepEvent::SecondFluidIn,
            (_, "stirred") => StepEvent::Stirred,
            (Stage::Measure { person, .. }, "measured") => StepEvent::Measured { person },
            (Stage::Give { person } | Stage::WholeTablet { person }, "given") => {
                StepEvent::Given { person }
            }
            (Stage::AskOutcome { person }, "answer-later") => StepEvent::AnswerLater { person },
            (Stage::AskOutcome { person }, id) => StepEvent::Outcome {
                person,
                outcome: outcome_of(id)?,
            },
            (Stage::Cover { bowl }, "cover") => StepEvent::Covered { bowl },
            (Stage::ThrowAway { bowl, .. }, "throw-away") => StepEvent::ThrownAway { bowl },
            _ => return None,
        })
    }

    fn step(&mut self, event: StepEvent, now: &Now) {
        let Some(round) = self.open.as_ref().and_then(Open::round) else {
            return;
        };
        let key: RoundKey = round.prep.plan.key;
        match round.prep.after(&event, now) {
            Err(Stay::LabelDiffers) => self.go(Place::WrongBottle),
            // Any other refusal leaves the screen as it is: it already says what to do and when.
            Err(_) => {}
            Ok(_) => {
                let not_all =
                    matches!(event, StepEvent::Outcome { outcome, .. } if outcome != Outcome::All);
                if self.record(now, vec![Event::Step { round: key, event }]) {
                    self.reacting.clear();
                    self.show_round();
                    if not_all {
                        self.place = Place::AfterOutcome;
                    }
                }
            }
        }
    }

    /// Which order the open record follows.
    pub fn order_ref(&self) -> Option<OrderRef> {
        self.open.as_ref().map(|open| OrderRef {
            id: open.order.id.clone(),
            revision: open.order.revision,
        })
    }

    /// Tells when the wall clock was moved while nobody looked, and writes it down.
    pub(super) fn notice_clock(&mut self, now: &Now) {
        let recorded = self.open.as_ref().and_then(|open| open.state.last.clone());
        let before = self.seen.take().or(recorded);
        self.seen = Some(now.clone());
        let Some(moved) = before.and_then(|before| now.moved_since(&before)) else {
            return;
        };
        if self.open.is_some() {
            let seconds = moved.as_secs();
            let key = if seconds > 0 {
                "clock-forward"
            } else {
                "clock-back"
            };
            let length = self.words.minutes(moved.abs());
            if self.record(now, vec![Event::ClockMoved { seconds }]) {
                let body = self.words.say_with(key, &[("length", length.into())]);
                self.telling = Some(super::Telling {
                    title: self.words.say("clock-moved"),
                    body,
                    drawing: "hold",
                    main: self.words.say("told-go-on"),
                    ..super::Telling::default()
                });
            }
        }
    }

    /// The plan is looked at again when a minute has passed; between two the picture stays as it is.
    pub(super) fn refresh_when_due(&mut self, now: &Now) {
        let minute = |now: &Now| now.wall.as_second().div_euclid(60);
        let due = self.looked.is_none_or(|looked| looked != minute(now));
        if due && self.place == Place::Today {
            self.looked = Some(minute(now));
            self.refresh();
        }
    }
}

pub(super) fn outcome_of(id: &str) -> Option<Outcome> {
    Some(match id {
        "outcome-all" => Outcome::All,
        "outcome-some" => Outcome::Some,
        "outcome-back-up" => Outcome::CameBackUp,
        "outcome-would-not" => Outcome::WouldNotTake,
        _ => return None,
    })
}
