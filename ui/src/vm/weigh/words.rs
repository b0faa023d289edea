//! The weighing screens.

use hearthdose_core::dose::{self, Dose};
use hearthdose_core::growth::Plausibility;
use hearthdose_core::household::{Manner, Weighing};
use hearthdose_core::screening;
use hearthdose_core::time::Now;
use hearthdose_core::today;
use hearthdose_core::units::{BodyWeight, WeightUnit};
use jiff::civil::Date;

use super::{Step, Weigh};
use crate::text::Measure;
use crate::vm::make::{number_field, picture};
use crate::vm::view::{Button, Choice, Entry, Field, Link, Note, StepView};
use crate::vm::{Kitchen, Open, Telling};

impl Kitchen {
    pub(in crate::vm) fn weigh_view(&self, open: &Open, weigh: &Weigh, now: &Now) -> StepView {
        let words = &self.words;
        let named = |key: &str| words.say_with(key, &[("name", weigh.name.as_str().into())]);
        let day = self.day(now);
        let mut view = match weigh.step {
            Step::How => self.how_view(open, weigh),
            Step::Read(turn) => self.read_view(weigh, turn),
            Step::Day => {
                let mut view = StepView::titled(named("weigh-day"));
                view.picture = Some(picture("weigh-child"));
                view.entry = Some(self.date_entry(&weigh.day));
                let date = self.weighed_on(weigh, day);
                if let Some(entry) = view.entry.as_mut() {
                    entry.result = self.date_note(&weigh.day, date);
                }
                view.main = Some(self.next_when(date.is_some()));
                view
            }
            Step::WhichUnit => {
                let typed = weigh.found().map(|w| w.typed().to_owned());
                let values = [
                    ("name", weigh.name.as_str().into()),
                    ("weight", typed.unwrap_or_default().into()),
                ];
                let mut view = StepView::titled(words.say_with("weigh-unit-title", &values));
                view.picture = Some(picture("weigh-child"));
                view.body = vec![words.say_with("weigh-unit-body", &values)];
                view.choices = vec![
                    Choice::new(
                        "unit-right",
                        words.say_with("weigh-unit-right", &values),
                        words.say("weigh-unit-right-detail"),
                        "",
                    ),
                    self.other_unit(weigh),
                    Choice::new("weigh-again", words.say("weigh-again"), String::new(), ""),
                ];
                view
            }
            Step::Found => self.found_view(open, weigh, day),
        };
        view.eyebrow = named("weigh-person");
        view
    }

    fn how_view(&self, open: &Open, weigh: &Weigh) -> StepView {
        let words = &self.words;
        let named = |key: &str| words.say_with(key, &[("name", weigh.name.as_str().into())]);
        let choice = |id: &str, title: String, detail: &str, drawing: &str| {
            Choice::new(id, title, words.say(detail), drawing)
        };
        let mut view = StepView::titled(named("weigh-how"));
        view.choices = vec![
            choice(
                "alone",
                named("weigh-alone"),
                "weigh-alone-detail",
                "weigh-child",
            ),
            choice(
                "together",
                named("weigh-together"),
                "weigh-together-detail",
                "hold-and-subtract",
            ),
            choice(
                "clinic",
                words.say("weigh-clinic"),
                "weigh-clinic-detail",
                "order-paper",
            ),
            choice(
                "site",
                words.say("weigh-site"),
                "weigh-site-detail",
                "boxes-lots",
            ),
        ];
        let values = [("phone", self.phone(open).into())];
        view.body = vec![words.say_with("weigh-none", &values)];
        view
    }

    pub(in crate::vm) fn read_view(&self, weigh: &Weigh, turn: usize) -> StepView {
        let words = &self.words;
        let named = |key: &str| words.say_with(key, &[("name", weigh.name.as_str().into())]);
        let together = weigh.manner == Manner::Together;
        let title = match (together, turn, weigh.takes_two_turns()) {
            (true, 0, _) => named("weigh-step-on"),
            (false, 0, true) => named("weigh-read"),
            (_, 0, false) => named("weigh-read-elsewhere"),
            _ => words.say("weigh-once-more"),
        };
        let mut view = StepView::titled(title);
        view.picture = Some(picture(if together {
            "hold-and-subtract"
        } else {
            "weigh-child"
        }));
        let labels = if together {
            vec![named("weigh-with"), named("weigh-without")]
        } else {
            vec![named("weigh-field")]
        };
        let weight = weigh.of_turn(turn);
        let differ = turn == 1 && weight.is_some() && !weigh.agrees();
        if differ {
            let typed = |turn| {
                weigh
                    .of_turn(turn)
                    .map(|w: BodyWeight| w.typed().to_owned())
            };
            let values = [
                ("first", typed(0).unwrap_or_default().into()),
                ("second", typed(1).unwrap_or_default().into()),
            ];
            view.title = words.say("weigh-differ");
            view.body = vec![words.say_with("weigh-differ-body", &values)];
        }
        let ready = match turn {
            0 => weight.is_some(),
            _ => weigh.found().is_some(),
        };
        let label = if turn == 0 && weigh.takes_two_turns() {
            words.say("weigh-then-again")
        } else {
            words.say("next")
        };
        view.entry = Some(Entry {
            // Another unit the second time would compare two scales.
            units: if turn == 0 {
                self.units(weigh.unit)
            } else {
                Vec::new()
            },
            fields: self.fields(weigh, turn, &labels),
            pad: Some(self.pad(true)),
            result: weight
                .filter(|_| !differ && (together || weigh.unit == WeightUnit::PoundsAndOunces))
                .map(|weight| {
                    let body = match turn {
                        1 => words.say("weigh-agree-note"),
                        _ => String::new(),
                    };
                    Note::new(self.name_and_weight(weigh, &weight), body, None)
                }),
        });
        view.main = Some(match (differ, ready) {
            (true, _) => Button::ready("weigh-again", words.say("weigh-again")),
            (false, true) => Button::ready("next", label),
            (false, false) => Button::waiting(label),
        });
        view
    }

    fn fields(&self, weigh: &Weigh, turn: usize, labels: &[String]) -> Vec<Field> {
        let Some(typing) = weigh.turns.get(turn) else {
            return Vec::new();
        };
        let mut fields = Vec::new();
        for (index, label) in labels.iter().enumerate() {
            let field = |at: usize, label: String, unit: &str| {
                number_field(at, label, typing, unit.to_owned())
            };
            match weigh.unit {
                WeightUnit::Pounds => fields.push(field(index, label.clone(), "lb")),
                WeightUnit::Kilograms => fields.push(field(index, label.clone(), "kg")),
                WeightUnit::PoundsAndOunces => {
                    fields.push(field(2 * index, label.clone(), "lb"));
                    let ounces = self.words.say("weigh-and-ounces");
                    fields.push(field(2 * index + 1, ounces, "oz"));
                }
            }
        }
        fields
    }

    fn units(&self, chosen: WeightUnit) -> Vec<Link> {
        let unit = |id: &str, key: &str, unit: WeightUnit| Link {
            here: unit == chosen,
            ..Link::to(id, self.words.say(key))
        };
        vec![
            unit("unit-lb", "unit-lb", WeightUnit::Pounds),
            unit("unit-lb-oz", "unit-lb-oz", WeightUnit::PoundsAndOunces),
            unit("unit-kg", "unit-kg", WeightUnit::Kilograms),
        ]
    }

    fn other_unit(&self, weigh: &Weigh) -> Choice {
        let (id, key) = match weigh.unit {
            WeightUnit::Kilograms => ("unit-lb", "weigh-unit-pounds"),
            WeightUnit::Pounds | WeightUnit::PoundsAndOunces => ("unit-kg", "weigh-unit-kilograms"),
        };
        Choice::new(
            id,
            self.words.say(key),
            self.words.say("weigh-unit-other-detail"),
            "",
        )
    }

    fn found_view(&self, open: &Open, weigh: &Weigh, day: Date) -> StepView {
        let words = &self.words;
        let Some(weight) = weigh.found() else {
            return StepView::titled(words.say("weigh-again"));
        };
        let person = self.weighed_person(weigh, &weight, day);
        let mut view = StepView::titled(self.name_and_weight(weigh, &weight));
        view.picture = Some(picture("weigh-child"));
        if weight.unit() != WeightUnit::Kilograms {
            view.large = words.say_with(
                "weigh-kilograms",
                &[("kg", short_kilograms(&weight).into())],
            );
        }
        if screening::weight_question(&person, &weight, day) == Plausibility::Implausible {
            let values = [("phone", self.phone(open).into())];
            view.note = Some(Note::new(
                words.say("reason-implausible"),
                words.say_with("weigh-implausible-body", &values),
                Some("hold"),
            ));
            view.picture = None;
            view.main = Some(Button::ready("weigh-again", words.say("weigh-again")));
            let keep = words.say("weigh-implausible-keep");
            view.ways = vec![Link::to("keep-weight", keep)];
            return view;
        }
        if let Some(change) = self.dose_change(weigh, &weight, day) {
            view.body = vec![change.title, change.body];
            view.amount = change.amount;
        } else if let Some(record) = weigh.person.and_then(|id| open.state.people.get(&id)) {
            // A little less than before changes nothing until a second weighing says the same.
            let seated = today::seated(&open.order, record);
            if let Ok(dose) = dose::work_out(&open.order, &seated, day) {
                let values = [("amount", self.dose_line(&dose).into())];
                view.body = vec![words.say_with("weigh-dose-stays", &values)];
            }
        } else if let Ok(dose) = dose::work_out(&open.order, &person, day) {
            let values = [("amount", self.dose_line(&dose).into())];
            view.body = vec![words.say_with("weigh-dose-is", &values)];
        }
        view.main = Some(Button::ready("keep-weight", words.say("weigh-keep")));
        view.ways = vec![Link::to("weigh-again", words.say("weigh-again"))];
        view
    }

    fn name_and_weight(&self, weigh: &Weigh, weight: &BodyWeight) -> String {
        let values = [
            ("name", weigh.name.as_str().into()),
            ("weight", weight.typed().into()),
        ];
        self.words.say_with("weigh-result", &values)
    }

    fn dose_line(&self, dose: &Dose) -> String {
        self.words
            .dose_words(dose.form, dose.amount, dose.tablets, Measure::Spoon)
    }

    /// A new weight that changes the dose, told in words and spoons; none where nothing changes.
    pub(super) fn dose_change(
        &self,
        weigh: &Weigh,
        weight: &BodyWeight,
        day: Date,
    ) -> Option<Telling> {
        let open = self.open.as_ref()?;
        let record = open.state.people.get(&weigh.person?)?;
        let weighing = Weighing {
            weight: weight.clone(),
            on: self.weighed_on(weigh, day),
            manner: weigh.manner,
            hold_lifted: false,
        };
        let crossing = today::crossing(&open.order, record, &weighing, day)?;
        let words = &self.words;
        let now = self.clock.now().wall;
        let next = match &open.today {
            Some(Ok(today)) => today
                .next_at()
                .map(|at| words.clock_and_day(at.max(now), &today.zone, now)),
            _ => None,
        };
        let values = [
            ("name", weigh.name.as_str().into()),
            ("old", self.dose_line(&crossing.old).into()),
            (
                "time",
                next.unwrap_or_else(|| words.say("next-dose")).into(),
            ),
        ];
        let new = &crossing.new;
        Some(Telling {
            title: words.say_with("dose-changes", &values),
            body: words.say_with("dose-changes-body", &values),
            drawing: "",
            amount: Some(words.amount(new.form, new.amount, new.tablets, Measure::Spoon)),
            after: Some(words.say("dose-changes-plan")),
            main: words.say("dose-changes-main"),
            ..Telling::default()
        })
    }
}

/// Two decimals are enough to compare with a scale.
fn short_kilograms(weight: &BodyWeight) -> String {
    let text = weight.shown_kilograms();
    match text.split_once('.') {
        Some((whole, rest)) if rest.len() > 2 => format!("{whole}.{}", &rest[..2]),
        _ => text,
    }
}
