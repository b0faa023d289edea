//! How it is made and given, step by step: the sentences of the screens, each with its picture.

use hearthdose_core::dose::DoseForm;
use hearthdose_core::order::{ContactKind, KeepWhere, Recipe, WaterRule};

use super::document::Place;
use super::flow::{BODY, STRONG};
use super::home::Sheet;
use crate::text::{Measure, Words};

const PICTURE: (f32, f32) = (96.0, 56.0);

/// One step: what to do in bold, and the sentences below it.
struct Step {
    picture: &'static str,
    title: String,
    body: Vec<String>,
}

impl Sheet<'_> {
    pub(super) fn steps(&mut self) {
        let mixture = self.anybody(DoseForm::Mixture);
        let mut steps = vec![self.look_step(), self.label_step()];
        if let Some(recipe) = self.home.order.recipe.as_ref().filter(|_| mixture) {
            steps.extend(self.make_steps(recipe));
            steps.extend(self.dose_steps(recipe));
        }
        if self.anybody(DoseForm::Liquid) {
            steps.push(self.liquid_step());
        }
        if self.anybody(DoseForm::Tablets) {
            steps.push(self.tablet_step());
        }
        steps.push(self.tick_step());
        if let Some(recipe) = self.home.order.recipe.as_ref().filter(|_| mixture) {
            steps.extend(self.keep_steps(recipe));
        }
        let words = self.words;
        self.flow.new_page();
        self.flow.section(&words.say("paper-how"), 90.0);
        for (index, step) in steps.iter().enumerate() {
            self.step(index + 1, step);
        }
    }

    fn anybody(&self, form: DoseForm) -> bool {
        (0..self.home.seats.len()).any(|seat| self.takes(seat, form))
    }

    fn step(&mut self, number: usize, step: &Step) {
        let indent = PICTURE.0 + 16.0;
        let wide = self.flow.width() - indent;
        let title = format!("{number}. {}", step.title);
        let mut height = self.flow.height(STRONG, wide, &title);
        for text in &step.body {
            height += self.flow.height(BODY, wide, text);
        }
        let all = height.max(PICTURE.1);
        self.flow.room(all);
        let top = self.flow.y;
        let place = Place {
            x: self.flow.left(),
            y: top,
            width: PICTURE.0,
            height: PICTURE.1,
        };
        self.flow.document.picture(step.picture, place);
        let x = self.flow.left() + indent;
        let mut y = self.flow.put(STRONG, x, top + 1.0, wide, &title);
        for text in &step.body {
            y = self.flow.put(BODY, x, y, wide, text);
        }
        self.flow.y = top + all + 12.0;
    }

    /// What is asked before anything is made.
    fn look_step(&self) -> Step {
        let words = self.words;
        let phone = self.phone(ContactKind::Questions);
        let emergency = self.phone(ContactKind::Emergency);
        Step {
            picture: "allergy-stop",
            title: words.say("reactions-title"),
            body: vec![
                words.say("reactions-body"),
                words.say_with("paper-reaction", &[("phone", emergency.into())]),
                words.say_with("reaction-stop-body", &[("phone", phone.into())]),
            ],
        }
    }

    fn label_step(&self) -> Step {
        let words = self.words;
        let says = self
            .home
            .order
            .main_product()
            .map(|product| product.label_says.join(", "))
            .unwrap_or_default();
        let phone = self.phone(ContactKind::Questions);
        let call = words.say_with("wrong-bottle-body", &[("phone", phone.into())]);
        Step {
            picture: "bottle-label",
            title: words.say_with("label-title", &[("words", says.into())]),
            body: vec![
                words.say("label-body"),
                format!("{} {call}", words.say("paper-label-no")),
            ],
        }
    }

    fn make_steps(&self, recipe: &Recipe) -> Vec<Step> {
        let words = self.words;
        let measure = self.home.measure;
        let tool = tool_words(words, measure);
        let water = words.volume(recipe.water, measure);
        let rule = match self.home.water {
            WaterRule::Tap => "water-tap",
            WaterRule::BoilAndCool => "water-boil",
            WaterRule::BottledOnly => "water-bottled",
        };
        let each = words.say_with("thing-tablets-detail", &[("count", recipe.tablets.into())]);
        let soak = words.lapse(recipe.soak);
        let mut steps = vec![
            Step {
                picture: "table-set",
                title: words.say("gather-title"),
                body: vec![
                    words.say("paper-chart-bowls"),
                    format!("{tool}. {}", words.say("tool-body")),
                    format!(
                        "{}: {each}. {}. {}.",
                        words.say("ahead-tablets"),
                        words.say_with("thing-water", &[("amount", water.into())]),
                        words.say(rule)
                    ),
                    words.say("gather-then"),
                ],
            },
            Step {
                picture: "soak-half",
                title: words.say_with("soak-title", &[("count", recipe.tablets.into())]),
                body: vec![words.say_with("paper-soak", &[("length", soak.into())])],
            },
            Step {
                picture: "crush",
                title: words.say_with("crush-title", &[("count", 1_u32.into())]),
                body: vec![words.say("crush-body")],
            },
            Step {
                picture: "smooth",
                title: words.say("smooth-title"),
                body: vec![format!(
                    "{} {}: {}.",
                    words.say("smooth-body"),
                    words.say("smooth-no"),
                    words.say("smooth-no-detail")
                )],
            },
        ];
        if let Some(second) = &recipe.second_fluid {
            let name = words.named(self.home.order, &second.name, &second.words);
            let amount = words.volume(second.amount, measure);
            steps.push(Step {
                picture: "add-milk",
                title: words.say_with("second-title", &[("name", name.into())]),
                body: vec![words.say_with("second-body", &[("amount", amount.into())])],
            });
        }
        steps.push(Step {
            picture: "stir",
            title: words.say_with("stir-title", &[("count", 2_u32.into())]),
            body: vec![words.say("stir-body")],
        });
        steps
    }

    fn dose_steps(&self, recipe: &Recipe) -> Vec<Step> {
        let words = self.words;
        let each = words.say("paper-each");
        let name = || [("name", each.as_str().into())];
        let mut food = self.foods();
        if food.is_empty() {
            food.push(words.say("food-none"));
        } else {
            food.insert(0, words.say("paper-food-mix"));
        }
        if recipe.vehicles.is_empty() {
            food = vec![words.say("food-none")];
        }
        let measured = match self.home.measure {
            Measure::Spoon => ("measure", "measure-stir"),
            Measure::Syringe => ("measure-syringe", "paper-stir-syringe"),
        };
        vec![
            Step {
                picture: measured.0,
                title: words.say_with("measure-title", &name()),
                body: vec![
                    words.say(measured.1),
                    words.say("paper-measure"),
                    words.say("paper-never-pour"),
                ],
            },
            Step {
                picture: "add-juice",
                title: words.say("paper-food-title"),
                body: food,
            },
            Step {
                picture: "give",
                title: words.say_with("give-title", &name()),
                body: vec![words.say("give-body"), words.say("paper-finish")],
            },
        ]
    }

    fn liquid_step(&self) -> Step {
        let words = self.words;
        Step {
            picture: "liquid-bottle",
            title: words.say_with("measure-title", &[("name", words.say("paper-each").into())]),
            body: vec![words.say("measure-shake")],
        }
    }

    fn tablet_step(&self) -> Step {
        let words = self.words;
        let seats = 0..self.home.seats.len();
        let names: Vec<String> = seats
            .filter(|seat| self.takes(*seat, DoseForm::Tablets))
            .map(|seat| self.seat_name(seat))
            .collect();
        Step {
            picture: "whole-tablet",
            title: words.say_with(
                "paper-tablet",
                &[
                    ("names", words.list(&names).into()),
                    ("count", names.len().into()),
                ],
            ),
            body: vec![words.say("tablet-body")],
        }
    }

    fn tick_step(&self) -> Step {
        let words = self.words;
        Step {
            picture: "all-of-it",
            title: words.say("paper-tick"),
            body: vec![words.say("paper-tick-body")],
        }
    }

    fn keep_steps(&self, recipe: &Recipe) -> Vec<Step> {
        let words = self.words;
        let keep = words.lapse(recipe.keep);
        let (place, mut cold) = match recipe.keep_where {
            KeepWhere::Room => ("cover-room", Vec::new()),
            KeepWhere::Refrigerator => ("cover-fridge", vec![words.say("paper-cold")]),
        };
        let mut body = vec![
            words.say("paper-cover-label"),
            words.say(place),
            words.say_with("paper-keep", &[("length", keep.into())]),
        ];
        body.append(&mut cold);
        vec![
            Step {
                picture: "cover-label",
                title: words.say("paper-cover"),
                body,
            },
            Step {
                picture: "throw-away",
                title: words.say("paper-throw"),
                body: vec![words.say("paper-throw-body"), words.say("done-wash")],
            },
        ]
    }
}

fn tool_words(words: &Words, measure: Measure) -> String {
    match measure {
        Measure::Spoon => words.say("tool-spoon-detail"),
        Measure::Syringe => words.say("tool-syringe"),
    }
}
