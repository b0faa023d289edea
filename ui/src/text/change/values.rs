//! The two sides of a change in words.

use hearthdose_core::order::compare::Value;
use hearthdose_core::order::{
    Apart, BetweenRows, FirstDose, Form, Group, HandOut, IfYes, KeepWhere, MostDoses, WaterRule,
};
use hearthdose_core::units::Strength;

use super::{Reader, Telling};

impl Telling<'_> {
    pub(super) fn value(self, value: &Value) -> String {
        let words = self.words;
        match value {
            Value::Text(text) | Value::Prose(text) => text.clone(),
            Value::Named { name, words: own } => self.named(name, own),
            Value::List(entries) => entries.join(", "),
            Value::Allergens(entries) => {
                let names = entries.iter().map(|entry| match self.reader {
                    Reader::Desk => entry.clone(),
                    Reader::Kitchen => words.allergen(entry),
                });
                names.collect::<Vec<_>>().join(", ")
            }
            Value::Count(count) => count.to_string(),
            Value::Days(days) => words.days(u64::from(*days)),
            Value::Lapse(lapse) => words.lapse(*lapse),
            Value::Volume(volume) => self.volume(*volume),
            Value::Mass(mass) => mass.to_string(),
            Value::Strength(Strength::PerTablet(mass)) => mass.to_string(),
            Value::Strength(Strength::PerVolume { mass, volume }) => {
                let values = [
                    ("mass", mass.to_string().into()),
                    ("volume", volume.to_string().into()),
                ];
                words.say_with("change-strength", &values)
            }
            Value::Weight(weight) => weight.to_string(),
            Value::Age(age) => words.age(*age),
            Value::Date(date) => match self.reader {
                Reader::Desk => date.to_string(),
                Reader::Kitchen => words.long_date(*date),
            },
            Value::Tolerance(tolerance) => {
                let values = [
                    ("under", tolerance.under.to_string().into()),
                    ("over", tolerance.over.to_string().into()),
                ];
                words.say_with("change-tolerance", &values)
            }
            Value::StaleWeight(stale) => {
                let values = [
                    ("young", words.lapse(stale.under_two_years).into()),
                    ("older", words.lapse(stale.older).into()),
                ];
                words.say_with("change-stale", &values)
            }
            Value::MostDoses { most, asks } => {
                let groups = most.iter().map(|most| self.most(most, asks));
                groups.collect::<Vec<_>>().join(", ")
            }
            Value::Apart(list) => {
                let entries = list.iter().map(|apart| self.apart(apart));
                entries.collect::<Vec<_>>().join("; ")
            }
            Value::SealingKey(key) => format!("{} {}", key.id, key.hex()),
            Value::SecondFluid(fluid) => {
                let values = [
                    ("amount", self.volume(fluid.amount).into()),
                    ("name", self.named(&fluid.name, &fluid.words).into()),
                ];
                words.say_with("change-fluid", &values)
            }
            Value::HandOut(HandOut::PlanAndSpare { spare }) => words.say_with(
                "change-hand-out-plan",
                &[("spare", spare.to_string().into())],
            ),
            Value::HandOut(HandOut::PerPerson) => words.say("change-hand-out-person"),
            Value::FirstDose(FirstDose::Now) => words.say("change-first-now"),
            Value::FirstDose(FirstDose::NextRound) => words.say("change-first-next"),
            Value::BetweenRows(BetweenRows::Enough) => words.say("change-between-enough"),
            Value::BetweenRows(BetweenRows::NextRow) => words.say("change-between-next"),
            Value::KeepWhere(KeepWhere::Room) => words.say("change-kept-room"),
            Value::KeepWhere(KeepWhere::Refrigerator) => words.say("change-kept-fridge"),
            Value::Water(WaterRule::Tap) => words.say("change-water-tap"),
            Value::Water(WaterRule::BoilAndCool) => words.say("change-water-boil"),
            Value::Water(WaterRule::BottledOnly) => words.say("change-water-bottled"),
            Value::Form(Form::Tablet) => words.say("change-form-tablet"),
            Value::Form(Form::Liquid) => words.say("change-form-liquid"),
            Value::IfYes(IfYes::Stop) => words.say("change-yes-stop"),
            Value::IfYes(IfYes::Hold) => words.say("change-yes-hold"),
            Value::IfYes(IfYes::Caution) => words.say("change-yes-caution"),
            Value::YesNo(true) => words.say("change-true"),
            Value::YesNo(false) => words.say("change-false"),
            Value::Split(true) => words.say("change-split-allowed"),
            Value::Split(false) => words.say("change-split-not"),
            Value::Extend(true) => words.say("change-missed-extend"),
            Value::Extend(false) => words.say("change-missed-not"),
            Value::Invented(true) => words.say("change-invented"),
            Value::Invented(false) => words.say("change-real"),
        }
    }

    fn most(
        self,
        most: &MostDoses,
        asks: &std::collections::BTreeMap<String, hearthdose_core::order::Words>,
    ) -> String {
        let words = self.words;
        let group = match &most.group {
            Group::UpToAge(age) => {
                words.say_with("row-limits-up-to", &[("to", words.age(*age).into())])
            }
            Group::UnderAge(age) => {
                words.say_with("row-limits-under", &[("to", words.age(*age).into())])
            }
            Group::If(key) => {
                let question = asks
                    .get(key)
                    .map_or_else(|| key.clone(), |ask| self.quoted(key, ask));
                words.say_with("change-most-if", &[("question", question.into())])
            }
            Group::Everyone => words.say("change-most-everyone"),
        };
        let values = [
            ("group", group.into()),
            ("doses", most.doses.to_string().into()),
        ];
        words.say_with("change-most", &values)
    }

    fn apart(self, apart: &Apart) -> String {
        let values = [
            ("what", self.named(&apart.what, &apart.words).into()),
            ("length", self.words.lapse(apart.gap).into()),
        ];
        self.words.say_with("change-apart", &values)
    }
}
