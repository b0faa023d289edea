//! More than one order in one home: which of them is in front now, and who takes what by which.
//!
//! The order whose round is under way, or comes next, is in front; bowls and rounds of different orders never mix.

use hearthdose_core::order::CheckedOrder;
use hearthdose_core::prep::{OrderRef, PersonId};
use hearthdose_core::record::{Event, OpenRound};
use hearthdose_core::time::Now;
use hearthdose_core::today::{self, NoRound, Today};

use super::make::picture;
use super::view::{Button, Choice, StepView};
use super::{Kitchen, Open, Place, Reading};

impl Open {
    /// All orders of the home, in the order in which they were taken.
    pub(super) fn orders(&self) -> Vec<&CheckedOrder> {
        let mut all: Vec<&CheckedOrder> =
            std::iter::once(&self.order).chain(&self.others).collect();
        let place = |order: &CheckedOrder| {
            let mut taken = self.state.orders.iter();
            taken.position(|of| of.id == order.id)
        };
        all.sort_by_key(|order| place(order).unwrap_or(usize::MAX));
        all
    }

    /// The round under way of the order in front.
    pub(super) fn round(&self) -> Option<&OpenRound> {
        self.state.round_of(&self.order.id)
    }

    /// The order by which somebody takes medicine: the one followed longest; else the one in front.
    pub(super) fn order_of(&self, person: PersonId) -> &CheckedOrder {
        let followed = self.state.orders_of(person);
        let known = |order: &OrderRef| self.orders().into_iter().find(|own| own.id == order.id);
        followed.into_iter().find_map(known).unwrap_or(&self.order)
    }

    /// Looks ahead under every order and puts the one in front that is under way or comes next.
    pub(super) fn look(&mut self, now: &Now) {
        let orders: Vec<CheckedOrder> = self.orders().into_iter().cloned().collect();
        let refs: Vec<&CheckedOrder> = orders.iter().collect();
        let evening = today::together(&self.state, &refs, now);
        let under_way = orders.iter().position(|order| {
            let round = self.state.round_of(&order.id);
            round.is_some_and(|round| !round.prep.is_done(now))
        });
        let sitting: Vec<usize> = evening.sitting().map(|(index, _)| *index).collect();
        let front = under_way
            .or(evening.rounds.first().map(|(index, _)| *index))
            .unwrap_or(0);
        let mut results: Vec<(usize, Result<Today, NoRound>)> = evening
            .rounds
            .into_iter()
            .map(|(index, today)| (index, Ok(today)))
            .chain(
                evening
                    .without
                    .into_iter()
                    .map(|(index, why)| (index, Err(why))),
            )
            .collect();
        let at_front = results.iter().position(|(index, _)| *index == front);
        self.today = at_front.map(|at| results.remove(at).1);
        self.also = results
            .into_iter()
            .filter(|(index, _)| sitting.contains(index))
            .filter_map(|(index, today)| Some((orders.get(index)?.id.clone(), today.ok()?)))
            .collect();
        if let Some(id) = orders.get(front).map(|order| order.id.clone()) {
            self.put_in_front(&id);
        }
    }

    pub(super) fn put_in_front(&mut self, id: &str) {
        if self.order.id != id
            && let Some(at) = self.others.iter().position(|order| order.id == id)
        {
            std::mem::swap(&mut self.order, &mut self.others[at]);
        }
    }
}

impl Kitchen {
    /// One more order for this home: in the record at once, followed by nobody until a person says who takes it.
    pub(super) fn take_other_order(&mut self, bytes: &[u8], order: CheckedOrder, now: &Now) {
        let Some(event) = self.put_order(bytes, &order) else {
            return;
        };
        if let Some(open) = self.open.as_mut() {
            open.others.push(order);
        }
        if self.record(now, vec![event]) {
            self.trail = vec![Place::Today];
            self.place = Place::Reading(Reading::People);
            self.tell("other-order-taken", "other-order-taken-body");
            if let Some(telling) = self.telling.as_mut() {
                telling.drawing = "household";
            }
        } else if let Some(open) = self.open.as_mut() {
            open.others.pop();
        }
    }

    /// Puts the bytes of an order beside the record and gives the fact that it was taken; none when it could not be saved, which is then told.
    pub(super) fn put_order(&mut self, bytes: &[u8], order: &CheckedOrder) -> Option<Event> {
        let open = self.open.as_mut()?;
        if let Err(error) = open.store.put_order(&order.id, order.revision, bytes) {
            self.tell_error(&error.into());
            return None;
        }
        Some(Event::OrderTaken {
            order: OrderRef {
                id: order.id.clone(),
                revision: order.revision,
            },
            fingerprint: order.fingerprint.to_string(),
        })
    }

    /// Whether this person may take the medicine of one more order: its questions first, then the answer of the rules.
    pub(super) fn follow_view(&self, open: &Open, person: PersonId, index: usize) -> StepView {
        let words = &self.words;
        let orders = open.orders();
        let Some(order) = orders.get(index) else {
            return StepView::titled(words.say("people-title"));
        };
        let name = self.name_of(open, person);
        if let Some(question) = self.next_question(open, person, order) {
            let asked = order.questions.iter().position(|q| q.key == question.key);
            let place = asked.map(|at| (at + 1, order.questions.len()));
            return self.question_view(question, &name, None, place);
        }
        let values = [
            ("name", name.as_str().into()),
            ("medicine", self.medicine_of(order).into()),
        ];
        let instead = self.instead_of(open, person, order);
        let day = self.day(&self.clock.now());
        let allowed = today::may_follow(&open.state, person, order, instead, &orders, day);
        let mut view = match allowed {
            Ok(()) => {
                let key = if instead.is_some() {
                    "follow-instead"
                } else {
                    "follow-too"
                };
                let mut view = StepView::titled(words.say_with(key, &values));
                view.picture = Some(picture("order-paper"));
                view.body = vec![words.say("follow-body")];
                view.choices = vec![
                    Choice::new(
                        "yes",
                        words.say_with("follow-yes", &values),
                        String::new(),
                        "",
                    ),
                    Choice::new("no", words.say("leaves-no"), String::new(), ""),
                ];
                view
            }
            Err(reasons) => {
                let mut view = StepView::titled(words.say_with("follow-not", &values));
                view.picture = Some(picture("hold"));
                view.body = vec![self.reasons_words(open, &name, &reasons)];
                view.main = Some(Button::ready("no", words.say("told-go-on")));
                view
            }
        };
        view.eyebrow = self.title_of(order);
        view
    }

    /// The first question of an order that has no answer about this person.
    fn next_question<'a>(
        &self,
        open: &Open,
        person: PersonId,
        order: &'a CheckedOrder,
    ) -> Option<&'a hearthdose_core::order::Question> {
        let record = open.state.people.get(&person)?;
        let known = today::seated_in(&open.state, order, record).answers;
        order
            .questions
            .iter()
            .find(|question| !known.contains_key(&question.key))
    }

    /// The order that this one would serve somebody in place of.
    fn instead_of<'a>(
        &self,
        open: &'a Open,
        person: PersonId,
        order: &CheckedOrder,
    ) -> Option<&'a str> {
        let day = self.day(&self.clock.now());
        let mut followed = open.orders().into_iter();
        followed
            .find(|own| {
                open.state.follows(person, &own.id)
                    && today::instead_for(&open.state, person, own, day).as_deref()
                        == Some(order.id.as_str())
            })
            .map(|own| own.id.as_str())
    }

    /// Answers on the way to following one more order; false when the id belongs elsewhere.
    pub(super) fn answer_follow(
        &mut self,
        person: PersonId,
        index: usize,
        id: &str,
        now: &Now,
    ) -> bool {
        let Some(open) = &self.open else { return false };
        let Some(order) = open.orders().get(index).map(|order| order.id.clone()) else {
            return false;
        };
        let question = open
            .orders()
            .get(index)
            .and_then(|order| self.next_question(open, person, order))
            .map(|question| question.key.clone());
        if let Some(key) = question {
            let Some(answer) = super::setup::answer_of(id) else {
                return false;
            };
            let event = Event::Answered {
                person,
                order,
                key,
                answer,
            };
            self.record(now, vec![event]);
            return true;
        }
        match id {
            "yes" => {
                let instead_of = open
                    .orders()
                    .get(index)
                    .and_then(|order| self.instead_of(open, person, order))
                    .map(str::to_owned);
                let event = Event::Follows {
                    person,
                    order,
                    instead_of,
                };
                if self.record(now, vec![event]) {
                    self.back();
                }
            }
            "no" => self.back(),
            _ => return false,
        }
        true
    }

    /// Ways for a person to take the medicine of the home's other orders.
    pub(super) fn follow_actions(&self, open: &Open, person: PersonId) -> Vec<(usize, String)> {
        let orders = open.orders();
        let others = orders
            .iter()
            .enumerate()
            .filter(|(_, order)| !open.state.follows(person, &order.id));
        others
            .map(|(index, order)| {
                let values = [("medicine", self.medicine_of(order).into())];
                (index, self.words.say_with("person-follow", &values))
            })
            .collect()
    }
}
