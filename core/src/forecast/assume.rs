//! What a forecast takes for granted, said with every answer.

use super::deal::SHARES;
use super::people::WHO_ENDS;
use super::population::{Group, Population};
use crate::order::{ChartBy, CheckedOrder, Form};
use crate::units::Age;

/// One assumption: a stable name and a sentence.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Assumption {
    pub code: &'static str,
    pub text: String,
}

/// Those that this forecast rests on.
pub(super) fn all(order: &CheckedOrder, population: &Population, days: u32) -> Vec<Assumption> {
    let groups = &population.groups;
    let medicine = &order.medicine;
    let is_liquid = order
        .main_product()
        .is_some_and(|product| product.form == Form::Liquid);
    let any_home_unknown = groups.iter().any(|group| group.home.is_none());
    let unweighed = || {
        let by_weight = order.chart_by() == ChartBy::Weight;
        let groups = groups.iter().filter(move |group| group.weight.is_none());
        groups.filter(move |_| by_weight)
    };
    let is_young = |group: &&Group| !Age::Told(group.age.from).reached(WHO_ENDS);
    let grown = |group: &Group| {
        let limit = medicine.adult_from;
        limit.is_some_and(|limit| Age::Told(group.age.from).reached(limit))
    };
    let mut found = vec![
        (
            "all-take-all",
            "Everybody takes every dose, and no answer holds anybody: only age and weight do."
                .to_owned(),
        ),
        (
            "one-day",
            "Ages and weights stay as they are on the first day.".to_owned(),
        ),
    ];
    if population.years_assumed {
        let text = "Ages without a unit are years.";
        found.push(("ages-in-years", text.to_owned()));
    }
    if any_home_unknown {
        let shares: Vec<String> = SHARES.iter().map(ToString::to_string).collect();
        let text = format!(
            "Where the file gives no size of home: of 100 homes {} have 1, 2, 3 and so on people in them.",
            shares.join(", ")
        );
        found.push(("sizes-of-homes", text));
    }
    let text =
        "A home has an adult wherever there are enough; otherwise chance puts people together.";
    found.push(("an-adult-each", text.to_owned()));
    if unweighed().any(|group| is_young(&group)) {
        let text = "Below 10 years, people without a weight weigh what WHO's weight-for-age has, spread alike.";
        found.push(("weights-below-ten", text.to_owned()));
    }
    if unweighed()
        .filter(is_young)
        .any(|group| group.sex.is_none())
    {
        let text = "Where the file gives no sex, half are girls.";
        found.push(("half-girls", text.to_owned()));
    }
    if unweighed().any(|group| group.age.reaches(WHO_ENDS) && !grown(group)) {
        let text = "From 10 years on, people without a weight take the last line of the chart.";
        found.push(("weights-from-ten", text.to_owned()));
    }
    if days > medicine.supply_days {
        let text = "All of it is handed out at once; every further pick-up takes packs of its own.";
        found.push(("one-hand-out", text.to_owned()));
    }
    if !is_liquid {
        let text =
            "Adults swallow whole tablets where the order allows it; all others get the bowl.";
        found.push(("adults-swallow", text.to_owned()));
        let text = "Nothing is spilt: the spare of the order is in what is handed out, not in the tablets.";
        found.push(("nothing-spilt", text.to_owned()));
    }
    found
        .into_iter()
        .map(|(code, text)| Assumption { code, text })
        .collect()
}
