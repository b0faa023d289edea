//! Who might stand behind a line of the file: some hundred people of its ages and weights, alike in number.

use super::cells::{self, GROWN};
use super::dice::Dice;
use super::plans::{Kind, Plans};
use super::population::Group;
use crate::growth::{self, Sex};
use crate::household::{KnownAge, Manner, Person, Weighing};
use crate::order::{ChartBy, CheckedOrder, Limit, Measure};
use crate::units::{Age, AgeSpan, BodyWeight};

/// People who stand for a line; each of its people is one of them by chance.
const SAMPLES: u32 = 1_024;
/// Where WHO's weight-for-age ends.
pub(super) const WHO_ENDS: AgeSpan = AgeSpan::years(10);

/// Somebody who may live in a home.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Guest {
    pub(super) adult: bool,
    /// What they take, or why nothing.
    pub(super) takes: Result<Kind, &'static str>,
}

/// People who stand for a group.
pub(super) fn of(
    order: &CheckedOrder,
    group: &Group,
    plans: &mut Plans<'_>,
    dice: &mut Dice,
) -> Vec<Guest> {
    let grown = order.medicine.adult_from.unwrap_or(GROWN);
    let (first, end) = (cells::days(group.age.from), cells::days(group.age.before));
    // Grown people of a chart by weight all take its last line.
    let all_alike = order.chart_by() == ChartBy::Weight
        && order.medicine.adult_from.is_some()
        && Age::Told(group.age.from).reached(grown);
    let samples = if all_alike { 1 } else { SAMPLES };
    (0..samples)
        .map(|number| {
            let share = u64::from(end - first) * u64::from(number) / u64::from(samples);
            let age = told(first + u32::try_from(share).unwrap_or(0));
            let sex = group.sex.unwrap_or(if dice.below(2) == 0 {
                Sex::Female
            } else {
                Sex::Male
            });
            let adult = Age::Told(age).reached(grown);
            let mut person = Person::named("somebody");
            person.age = Some(KnownAge::Told(age));
            person.sex = Some(sex);
            person.swallows_tablets = adult;
            person.cleared = true;
            person.weighing = weight(order, group, age, sex, dice).map(|weight| Weighing {
                weight,
                on: None,
                manner: Manner::Told,
                hold_lifted: true,
            });
            Guest {
                adult,
                takes: plans.kind(&person),
            }
        })
        .collect()
}

/// Completed months and days of an age in days.
fn told(days: u32) -> AgeSpan {
    let sixteenths = u64::from(days) * 16;
    let part = |number: u64| u32::try_from(number).unwrap_or(u32::MAX);
    AgeSpan {
        months: part(sixteenths / 487),
        days: part(sixteenths % 487 / 16),
    }
}

/// A weight by chance: of the line, of the reference, or one of the chart's last line; none where the chart asks for none.
fn weight(
    order: &CheckedOrder,
    group: &Group,
    age: AgeSpan,
    sex: Sex,
    dice: &mut Dice,
) -> Option<BodyWeight> {
    if let Some((from, to)) = &group.weight {
        let between = to.as_picograms().saturating_sub(from.as_picograms());
        let share = usize::try_from(between).ok()?.checked_add(1)?;
        return from.plus(u64::try_from(dice.below(share)).ok()?);
    }
    if order.chart_by() == ChartBy::Age {
        return None;
    }
    let days = cells::days(age);
    if days < cells::days(WHO_ENDS) {
        let kilograms = growth::weight_at(sex, days, dice.deviation())?;
        let grams = growth::grams(kilograms);
        return BodyWeight::parse(&format!("{grams} g")).ok();
    }
    let last = order.rows.last()?;
    let from = match &last.from {
        Some(Limit {
            at: Measure::Weight(weight),
            ..
        }) => weight.clone(),
        _ => BodyWeight::kilograms(40),
    };
    // Heavier than a limit that is not in the line itself.
    from.plus(1_000_000_000_000)
}
