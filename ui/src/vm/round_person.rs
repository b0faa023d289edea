//! The part of the round that is about one person: measure, food or drink, give, and what became of it.

use hearthdose_core::dose::DoseForm;
use hearthdose_core::prep::{BowlId, PersonId, Prep, Tool};

use super::Kitchen;
use super::make::picture;
use super::round::taking;
use super::view::{Button, Choice, Link, StepView};
use crate::text::Measure;

impl Kitchen {
    pub(super) fn measure(
        &self,
        prep: &Prep,
        person: PersonId,
        bowl: Option<BowlId>,
        tool: Option<Tool>,
    ) -> StepView {
        let words = &self.words;
        let Some(taking) = taking(prep, person) else {
            return StepView::titled(String::new());
        };
        let take = &taking.take;
        let name = take.name.clone();
        let measure = tool.map_or(Measure::Spoon, Measure::from);
        let mut view =
            StepView::titled(words.say_with("measure-title", &[("name", name.as_str().into())]));
        view.picture = Some(picture(match (take.form, measure) {
            (DoseForm::Liquid, _) => "liquid-bottle",
            (_, Measure::Syringe) => "measure-syringe",
            _ => "measure",
        }));
        view.eyebrow = match bowl.and_then(|b| prep.brew(b)) {
            Some(brew) => {
                let values = [
                    ("number", brew.bowl.number.to_string().into()),
                    ("name", name.as_str().into()),
                ];
                words.say_with("measure-from", &values)
            }
            None => words.say("measure-liquid"),
        };
        view.amount = Some(words.amount(take.form, take.amount, take.tablets, measure));
        view.body = vec![words.say(if take.form == DoseForm::Liquid {
            "measure-shake"
        } else {
            "measure-stir"
        })];
        view.asides = vec![Link::to(
            &format!("why:{}", person.0),
            words.say("why-this-much"),
        )];
        view.main = Some(Button::ready(
            "measured",
            words.say_with("measured", &[("name", name.into())]),
        ));
        view
    }

    pub(super) fn food(&self, prep: &Prep, person: PersonId) -> StepView {
        let words = &self.words;
        let Some(taking) = taking(prep, person) else {
            return StepView::titled(String::new());
        };
        let name = taking.take.name.clone();
        let mut view =
            StepView::titled(words.say_with("food-title", &[("name", name.as_str().into())]));
        view.body = vec![words.say_with("food-body", &[("name", name.into())])];
        for (index, food) in taking.take.foods.iter().enumerate() {
            let amount = words.volume(food.at_least, Measure::Spoon);
            let detail = match food.sugar {
                Some(sugar) => {
                    let sugar = words.volume(sugar, Measure::Spoon);
                    words.say_with(
                        "food-detail-sugar",
                        &[("amount", amount.into()), ("sugar", sugar.into())],
                    )
                }
                None => words.say_with("food-detail", &[("amount", amount.into())]),
            };
            let mut choice = Choice::new(
                &format!("food:{index}"),
                self.food_name(&food.name),
                detail,
                food_drawing(&food.name),
            );
            choice.main = index == 0;
            view.choices.push(choice);
        }
        view.asides = vec![Link::to("food:none", words.say("food-none"))];
        view
    }

    pub(super) fn give(&self, prep: &Prep, person: PersonId) -> StepView {
        let words = &self.words;
        let name = taking(prep, person)
            .map(|t| t.take.name.clone())
            .unwrap_or_default();
        let mut view =
            StepView::titled(words.say_with("give-title", &[("name", name.as_str().into())]));
        view.picture = Some(picture("give"));
        view.body = vec![
            words.say("give-body"),
            words.say_with("give-finish", &[("name", name.as_str().into())]),
        ];
        view.main = Some(Button::ready(
            "given",
            words.say_with("given", &[("name", name.into())]),
        ));
        view
    }

    pub(super) fn whole_tablet(&self, prep: &Prep, person: PersonId) -> StepView {
        let words = &self.words;
        let Some(taking) = taking(prep, person) else {
            return StepView::titled(String::new());
        };
        let name = taking.take.name.clone();
        let mut view =
            StepView::titled(words.say_with("tablet-title", &[("name", name.as_str().into())]));
        view.picture = Some(picture("whole-tablet"));
        view.amount = Some(words.amount(
            taking.take.form,
            taking.take.amount,
            taking.take.tablets,
            Measure::Spoon,
        ));
        view.body = vec![words.say("tablet-body")];
        view.asides = vec![Link::to(
            &format!("why:{}", person.0),
            words.say("why-this-much"),
        )];
        view.main = Some(Button::ready(
            "given",
            words.say_with("given", &[("name", name.into())]),
        ));
        view
    }

    pub(super) fn ask_outcome(&self, prep: &Prep, person: PersonId) -> StepView {
        let words = &self.words;
        let taking = taking(prep, person);
        let name = taking.map(|t| t.take.name.clone()).unwrap_or_default();
        let tablet = taking.is_some_and(|t| t.take.tablets.is_some());
        let (title, drawing) = if tablet {
            ("outcome-title-tablet", "whole-tablet")
        } else {
            ("outcome-title", "give")
        };
        let mut view = StepView::titled(words.say_with(title, &[("name", name.into())]));
        view.small_picture = Some(picture(drawing));
        view.body = vec![words.say("outcome-body")];
        view.choices = self.outcome_choices(tablet);
        if taking.is_some_and(|t| !t.later) {
            view.ways
                .push(Link::to("answer-later", words.say("answer-later")));
        }
        view
    }
}

/// The drawing for a food or drink by its name in the order.
fn food_drawing(name: &str) -> &'static str {
    let name = name.to_lowercase();
    let pairs = [
        ("chocolate milk", "add-chocolate-milk"),
        ("pudding", "add-pudding"),
        ("juice", "add-juice"),
        ("syrup", "add-syrup"),
        ("soda", "add-juice"),
        ("water", "glass-of-water"),
    ];
    pairs
        .iter()
        .find(|(word, _)| name.contains(word))
        .map_or("add-milk", |(_, drawing)| drawing)
}
