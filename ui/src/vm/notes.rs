//! Names, numbers to call and outcomes in words.

use hearthdose_core::order::ContactKind;
use hearthdose_core::prep::{Outcome, PersonId};

use super::make::picture;
use super::view::{Button, Choice, Note, StepView};
use super::{Kitchen, Open};

impl Kitchen {
    pub(super) fn name_of(&self, open: &Open, person: PersonId) -> String {
        let known = open
            .state
            .people
            .get(&person)
            .map(|record| record.person.name.clone());
        known.unwrap_or_else(|| self.words.say("someone"))
    }

    /// The number for questions; every order has one, or it would not have passed its check.
    pub(super) fn phone(&self, open: &Open) -> String {
        self.phone_of(open, ContactKind::Questions)
            .unwrap_or_default()
    }

    pub(super) fn phone_of(&self, open: &Open, kind: ContactKind) -> Option<String> {
        open.order
            .contacts
            .iter()
            .find(|contact| contact.kind == kind)
            .map(|contact| contact.phone.clone())
    }

    pub(super) fn outcome_words(&self, outcome: Outcome, short: bool) -> String {
        let key = match outcome {
            Outcome::All if short => "outcome-all-short",
            Outcome::All => "outcome-all-log",
            Outcome::Some => "outcome-some-log",
            Outcome::CameBackUp => "outcome-back-up-log",
            Outcome::WouldNotTake => "outcome-would-not-log",
        };
        self.words.say(key)
    }

    /// The bottle says something else than the order: stop and call.
    pub(super) fn wrong_bottle_view(&self, open: &Open) -> StepView {
        let words = &self.words;
        let phone = self.phone(open);
        let mut view = StepView::titled(words.say("wrong-bottle-title"));
        view.picture = Some(picture("hold"));
        let body = words.say_with("wrong-bottle-body", &[("phone", phone.into())]);
        view.note = Some(Note::new(words.say("wrong-bottle-note"), body, None));
        view.main = Some(Button::ready("look-again", words.say("look-again")));
        view
    }

    /// Somebody had a rash, swelling or trouble breathing.
    pub(super) fn reaction_view(&self, open: &Open) -> StepView {
        let words = &self.words;
        let names: Vec<String> = self
            .reacting
            .iter()
            .map(|person| self.name_of(open, *person))
            .collect();
        let mut view = StepView::titled(words.say_with(
            "reaction-stop-title",
            &[("names", words.list(&names).into())],
        ));
        view.picture = Some(picture("allergy-stop"));
        self.reaction_advice(open, &mut view);
        view.main = Some(Button::ready("reaction-stop", words.say("reaction-stop")));
        view.in_the_way = true;
        view
    }

    /// Whom to call after a reaction.
    pub(super) fn reaction_advice(&self, open: &Open, view: &mut StepView) {
        let words = &self.words;
        let emergency = self
            .phone_of(open, ContactKind::Emergency)
            .unwrap_or_default();
        let body = words.say_with("reaction-stop-emergency", &[("phone", emergency.into())]);
        view.note = Some(Note::new(words.say("reaction-stop-note"), body, None));
        view.after = words.say_with("reaction-stop-body", &[("phone", self.phone(open).into())]);
    }

    /// What an answer other than "all of it" means now: one sentence, one number.
    pub(super) fn after_outcome_view(&self, open: &Open) -> StepView {
        let words = &self.words;
        let last = open.state.doses.last();
        let (name, outcome) = last.map_or((String::new(), Outcome::All), |d| {
            (self.name_of(open, d.person), d.outcome)
        });
        let (title, body) = match outcome {
            Outcome::All | Outcome::Some => ("after-some-title", "after-some-body"),
            Outcome::CameBackUp => ("after-back-up-title", "after-back-up-body"),
            Outcome::WouldNotTake => ("after-would-not-title", "after-would-not-body"),
        };
        let values = [("name", name.into()), ("phone", self.phone(open).into())];
        let mut view = StepView::titled(words.say_with(title, &values));
        view.small_picture = Some(picture("ask-clinician"));
        view.body = vec![words.say_with(body, &values)];
        view.main = Some(Button::ready("after-outcome", words.say("told-go-on")));
        view.back = false;
        view
    }

    /// The four answers to "did … get all of it?".
    pub(super) fn outcome_choices(&self, tablet: bool) -> Vec<Choice> {
        let say = |key: &str| self.words.say(key);
        let all = if tablet {
            Choice::new(
                "outcome-all",
                say("outcome-all-tablet"),
                say("outcome-all-tablet-detail"),
                "glass-of-water",
            )
        } else {
            Choice::new(
                "outcome-all",
                say("outcome-all"),
                say("outcome-all-detail"),
                "all-of-it",
            )
        };
        // A tablet is swallowed or not; half of one is nothing to answer.
        let some = (!tablet).then(|| {
            Choice::new(
                "outcome-some",
                say("outcome-some"),
                say("outcome-some-detail"),
                "some-of-it",
            )
        });
        let rest = [
            Choice::new(
                "outcome-back-up",
                say("outcome-back-up"),
                say("outcome-back-up-detail"),
                "came-back-up",
            ),
            Choice::new(
                "outcome-would-not",
                say("outcome-would-not"),
                say("outcome-would-not-detail"),
                "would-not-take",
            ),
        ];
        std::iter::once(all.usual())
            .chain(some)
            .chain(rest)
            .collect()
    }
}
