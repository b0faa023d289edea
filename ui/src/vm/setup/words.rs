//! The questions about one person, as screens.

use hearthdose_core::household::{Answer, Person};
use hearthdose_core::order::{CheckedOrder, IfYes, Question};
use hearthdose_core::screening::{self, ReasonKind};
use hearthdose_core::time::Now;
use hearthdose_core::units::AgeSpan;

use super::{Ask, SetUp, allergens};
use crate::vm::make::{number_field, picture};
use crate::vm::view::{Button, Choice, Entry, Field, Link, Pad, StepView};
use crate::vm::{Kitchen, Open};

impl Kitchen {
    pub(super) fn who_view(&self, open: &Open, set_up: &SetUp, now: &Now) -> StepView {
        let words = &self.words;
        let name = set_up.person.name.trim().to_owned();
        let named = |key: &str| words.say_with(key, &[("name", name.as_str().into())]);
        let mut view = match set_up.ask {
            Ask::Name => {
                let first = open.state.people().next().is_none();
                let mut view =
                    StepView::titled(words.say(if first { "set-up-first" } else { "set-up-next" }));
                view.picture = Some(picture("household"));
                view.body = vec![words.say("set-up-name-body")];
                view.entry = Some(Entry {
                    fields: vec![Field {
                        id: "name".to_owned(),
                        label: words.say("set-up-name"),
                        value: set_up.person.name.clone(),
                        unit: String::new(),
                        spoken: words.say("set-up-name"),
                        active: true,
                        text: true,
                        problem: String::new(),
                    }],
                    ..Entry::default()
                });
                view.main = Some(self.next_when(!name.is_empty()));
                view
            }
            Ask::Age => {
                let mut view = StepView::titled(named("set-up-age"));
                view.choices = vec![
                    Choice::new(
                        "adult",
                        self.adult_words(open),
                        words.say("set-up-adult-detail"),
                        "household",
                    ),
                    Choice::new(
                        "child",
                        words.say("set-up-child"),
                        words.say("set-up-child-detail"),
                        "weigh-child",
                    ),
                ];
                view.asides = vec![Link::to("told-age", words.say("set-up-age-unknown"))];
                view
            }
            Ask::Birth => {
                let mut view = StepView::titled(named("set-up-birth"));
                view.picture = Some(picture("weigh-child"));
                view.body = vec![words.say(match self.day_counts() {
                    true => "birth-whole",
                    false => "birth-without-day",
                })];
                view.entry = Some(self.date_entry(&set_up.typing));
                let typed = self.typed_birth(set_up, self.day(now));
                if let Some(entry) = view.entry.as_mut() {
                    entry.result = self.birth_note(&typed);
                }
                view.main = Some(self.next_when(typed.date().is_some()));
                view.ways = vec![Link::to("told-age", words.say("set-up-age-unknown"))];
                view
            }
            Ask::ToldAge => {
                let mut view = StepView::titled(named("set-up-told"));
                view.picture = Some(picture("weigh-child"));
                let field = |index, key: &str| {
                    number_field(index, words.say(key), &set_up.typing, String::new())
                };
                view.entry = Some(Entry {
                    fields: vec![field(0, "age-years"), field(1, "age-months")],
                    pad: Some(self.pad(false)),
                    ..Entry::default()
                });
                view.main = Some(self.next_when(super::person::typed_age(set_up).is_some()));
                view.ways = vec![Link::to("birth-date", words.say("set-up-birth-known"))];
                view
            }
            Ask::BornEarly => {
                let mut view = StepView::titled(named("set-up-early"));
                view.body = vec![words.say("set-up-early-body")];
                view.choices = self.yes_no_unsure(set_up.person.born_early);
                view
            }
            _ => {
                let mut view = StepView::titled(named("set-up-swallows"));
                view.body = vec![named("set-up-swallows-body")];
                view.choices = vec![
                    Choice::new(
                        "yes",
                        words.say("set-up-swallows-yes"),
                        words.say("set-up-swallows-yes-detail"),
                        "whole-tablet",
                    ),
                    Choice::new(
                        "no",
                        words.say("set-up-swallows-no"),
                        words.say("set-up-swallows-no-detail"),
                        "give",
                    ),
                ];
                view
            }
        };
        view.eyebrow = match set_up.ask {
            Ask::Name => String::new(),
            _ => named("set-up-about"),
        };
        view
    }

    pub(super) fn screening_view(&self, open: &Open, set_up: &SetUp) -> StepView {
        let words = &self.words;
        let name = set_up.person.name.trim().to_owned();
        let named = |key: &str| words.say_with(key, &[("name", name.as_str().into())]);
        match set_up.ask {
            Ask::Food(index) => {
                let allergen = allergens(&open.order).into_iter().nth(index);
                let what = words.allergen(allergen.as_deref().unwrap_or_default());
                let values = [("name", name.as_str().into()), ("what", what.into())];
                let mut view = StepView::titled(words.say_with("set-up-food", &values));
                view.eyebrow = named("set-up-about");
                view.body = vec![words.say("set-up-food-body")];
                let mut yes =
                    Choice::new("yes", words.say("yes"), words.say("set-up-food-yes"), "");
                yes.chosen = allergen.is_some_and(|what| set_up.person.foods.contains(&what));
                view.choices = vec![
                    yes,
                    Choice::new("no", words.say("no"), String::new(), ""),
                    Choice::new(
                        "unsure",
                        words.say("unsure"),
                        words.say("set-up-food-yes"),
                        "",
                    ),
                ];
                view
            }
            Ask::Question(index) => {
                let Some(question) = open.order.questions.get(index) else {
                    return StepView::titled(String::new());
                };
                let given = set_up.person.answers.get(&question.key).copied();
                let place = (index + 1, open.order.questions.len());
                self.question_view(question, &name, given, Some(place))
            }
            Ask::Outcome => self.outcome_of_answers(open, &open.order, &set_up.person.person()),
            _ => {
                let mut view = StepView::titled(named("set-up-weigh"));
                view.eyebrow = named("set-up-about");
                view.picture = Some(picture("weigh-child"));
                view.body = vec![named("set-up-weigh-body")];
                view.main = Some(Button::ready("weigh", named("weigh-now")));
                view.ways = vec![Link::to("later", words.say("weigh-later"))];
                view
            }
        }
    }

    /// One question of the order, about one person by name.
    pub(in crate::vm) fn question_view(
        &self,
        question: &Question,
        name: &str,
        given: Option<Answer>,
        place: Option<(usize, usize)>,
    ) -> StepView {
        let words = &self.words;
        let mut view = StepView::titled(words.of_order_about(&question.ask, name));
        view.eyebrow = match place {
            Some((at, of)) => {
                let values = [
                    ("name", name.into()),
                    ("at", at.to_string().into()),
                    ("of", of.to_string().into()),
                ];
                words.say_with("question-place", &values)
            }
            None => words.say_with("set-up-about", &[("name", name.into())]),
        };
        view.choices = self.yes_no_unsure(given);
        view
    }

    pub(in crate::vm) fn yes_no_unsure(&self, given: Option<Answer>) -> Vec<Choice> {
        let words = &self.words;
        let answers = [
            ("yes", Answer::Yes, String::new()),
            ("no", Answer::No, String::new()),
            ("unsure", Answer::Unsure, words.say("unsure-detail")),
        ];
        answers
            .into_iter()
            .map(|(id, answer, detail)| {
                let mut choice = Choice::new(id, words.say(id), detail, "");
                choice.chosen = given == Some(answer);
                choice
            })
            .collect()
    }

    /// What the answers come to, with the number to call.
    pub(in crate::vm) fn outcome_of_answers(
        &self,
        open: &Open,
        order: &CheckedOrder,
        person: &Person,
    ) -> StepView {
        let words = &self.words;
        let day = self.day(&self.clock.now());
        let reasons = screening::evaluate(order, person, day).err();
        let reasons = reasons.unwrap_or_default();
        let worst = reasons.iter().map(|reason| reason.kind).max();
        let (title, drawing) = match worst {
            Some(ReasonKind::Stop) => ("outcome-stop", "allergy-stop"),
            Some(_) => ("outcome-hold", "hold"),
            None => ("outcome-caution", "ask-clinician"),
        };
        let name = person.name.trim();
        let mut view = StepView::titled(words.say_with(title, &[("name", name.into())]));
        view.picture = Some(picture(drawing));
        view.body = match worst {
            Some(worst) => {
                let none_until = match worst {
                    ReasonKind::Stop => "outcome-no-dose-stop",
                    _ => "outcome-no-dose",
                };
                vec![
                    self.reasons_words(open, name, &reasons),
                    words.say_with(none_until, &[("name", name.into())]),
                ]
            }
            None => Vec::new(),
        };
        for question in cautions_of(order, person) {
            view.body.push(words.of_order_about(&question.then, name));
        }
        let go_on = match worst {
            Some(ReasonKind::Stop) | None => words.say("told-go-on"),
            Some(_) => words.say_with("outcome-go-on", &[("name", name.into())]),
        };
        view.main = Some(Button::ready("next", go_on));
        view
    }

    pub(in crate::vm) fn date_entry(&self, typing: &crate::vm::typing::Typing) -> Entry {
        let words = &self.words;
        let keys = if self.day_first() {
            ["date-day", "date-month", "date-year"]
        } else {
            ["date-month", "date-day", "date-year"]
        };
        Entry {
            fields: keys
                .iter()
                .enumerate()
                .map(|(index, key)| number_field(index, words.say(key), typing, String::new()))
                .collect(),
            pad: Some(self.pad(false)),
            ..Entry::default()
        }
    }

    pub(in crate::vm) fn pad(&self, point: bool) -> Pad {
        Pad {
            point: point.then(|| self.words.say("key-point")),
            delete: self.words.say("key-delete"),
        }
    }

    pub(in crate::vm) fn next_when(&self, ready: bool) -> Button {
        if ready {
            Button::ready("next", self.words.say("next"))
        } else {
            Button::waiting(self.words.say("next"))
        }
    }

    fn adult_words(&self, open: &Open) -> String {
        let from = open.order.medicine.adult_from.unwrap_or(AgeSpan::years(18));
        let years = (from.months / 12).to_string();
        self.words
            .say_with("set-up-adult", &[("years", years.into())])
    }
}

/// Questions whose yes only needs a word of advice.
pub(super) fn cautions_of<'a>(order: &'a CheckedOrder, person: &Person) -> Vec<&'a Question> {
    order
        .questions
        .iter()
        .filter(|question| {
            question.if_yes == IfYes::Caution
                && person.answers.get(&question.key) == Some(&Answer::Yes)
        })
        .collect()
}
