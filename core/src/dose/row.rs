//! Which line of the chart serves a person.

use jiff::civil::Date;

use crate::household::Person;
use crate::order::{BetweenRows, ChartBy, Limit, Measure, Order, Row};
use crate::screening::{Cleared, Reason, ReasonKind};
use crate::units::{Age, BodyWeight, Mass, Percent};

/// The row found, and how.
pub(super) struct Found {
    pub index: usize,
    pub why: Why,
}

pub(super) enum Why {
    /// Within the printed limits.
    Within,
    /// Between two printed rows; the rule chose the lower one.
    LowerStillEnough { between: (usize, usize) },
    /// Between two printed rows; the rule chose the upper one.
    UpperTaken {
        between: (usize, usize),
        rule: BetweenRows,
    },
    /// An adult takes the last row whatever the weight.
    Adult,
    /// Heavy enough for the next age row.
    HeavyForAge,
}

/// What the chart needs and does not have, whatever the screening says.
pub(super) fn missing(order: &Order, person: &Person, day: Date) -> Result<(), Reason> {
    match order.chart_by() {
        ChartBy::Weight if super::needs_weight(order, person, day) && person.weighing.is_none() => {
            Err(weight_needed(order, person))
        }
        ChartBy::Age if person.age.is_none() => Err(age_needed(person)),
        _ => Ok(()),
    }
}

pub(super) fn find(cleared: &Cleared<'_>) -> Result<Found, Reason> {
    let order: &Order = cleared.order();
    match order.chart_by() {
        ChartBy::Weight => by_weight(cleared, order),
        ChartBy::Age => by_age(cleared, order),
    }
}

fn by_weight(cleared: &Cleared<'_>, order: &Order) -> Result<Found, Reason> {
    let person = cleared.person();
    if cleared.is_adult() {
        let index = order
            .rows
            .len()
            .checked_sub(1)
            .ok_or_else(|| outside(person))?;
        return Ok(Found {
            index,
            why: Why::Adult,
        });
    }
    let Some(weight) = person.weight() else {
        return Err(weight_needed(order, person));
    };
    of_weight(order, weight).ok_or_else(|| outside(person))
}

/// The row of a weight chart that serves a weight, if one does.
pub(super) fn of_weight(order: &Order, weight: &BodyWeight) -> Option<Found> {
    let place = |limit: &Limit| match &limit.at {
        Measure::Weight(at) => Some((weight.cmp(at), limit.inclusive)),
        Measure::Age(_) => None,
    };
    if let Some(index) = order.rows.iter().position(|row| holds(row, place)) {
        return Some(Found {
            index,
            why: Why::Within,
        });
    }
    let upper = order.rows.iter().position(|row| starts_above(row, place))?;
    let lower = upper.checked_sub(1)?;
    let between = (lower, upper);
    let rule = order.between_rows;
    if rule == BetweenRows::Enough
        && order
            .rows
            .get(lower)
            .is_some_and(|row| reaches(order, row, weight))
    {
        return Some(Found {
            index: lower,
            why: Why::LowerStillEnough { between },
        });
    }
    Some(Found {
        index: upper,
        why: Why::UpperTaken { between, rule },
    })
}

fn by_age(cleared: &Cleared<'_>, order: &Order) -> Result<Found, Reason> {
    let person = cleared.person();
    let Some(age) = cleared.age() else {
        return Err(age_needed(person));
    };
    let place = |limit: &Limit| match &limit.at {
        Measure::Age(at) => Some((age.compare(*at), limit.inclusive)),
        Measure::Weight(_) => None,
    };
    let index = match order.rows.iter().position(|row| holds(row, place)) {
        Some(index) => index,
        None => {
            // Ages printed as "4 through 11 years, 12 …" leave days between birthdays to the older row.
            let upper = order
                .rows
                .iter()
                .position(|row| starts_above(row, place))
                .filter(|upper| *upper > 0);
            let index = upper.ok_or_else(|| outside(person))?;
            return Ok(Found {
                index,
                why: Why::UpperTaken {
                    between: (index - 1, index),
                    rule: BetweenRows::NextRow,
                },
            });
        }
    };
    // The weight that stands for age serves the row just below only: the chart never skips a row.
    let next = index + 1;
    let heavy = order
        .rows
        .get(next)
        .and_then(|row| row.or_weight_from.as_ref());
    match (heavy, person.weight()) {
        (Some(limit), Some(weight)) if weight >= limit => Ok(Found {
            index: next,
            why: Why::HeavyForAge,
        }),
        _ => Ok(Found {
            index,
            why: Why::Within,
        }),
    }
}

type Place = Option<(std::cmp::Ordering, bool)>;

fn holds(row: &Row, place: impl Fn(&Limit) -> Place) -> bool {
    let from = row.from.as_ref().is_none_or(|limit| {
        place(limit).is_some_and(|(order, inclusive)| order.is_gt() || (inclusive && order.is_eq()))
    });
    let to = row.to.as_ref().is_none_or(|limit| {
        place(limit).is_some_and(|(order, inclusive)| order.is_lt() || (inclusive && order.is_eq()))
    });
    from && to
}

fn starts_above(row: &Row, place: impl Fn(&Limit) -> Place) -> bool {
    row.from
        .as_ref()
        .and_then(&place)
        .is_some_and(|(order, inclusive)| order.is_lt() || (!inclusive && order.is_eq()))
}

/// Whether a row still gives the order's mass per kilogram at this weight; at most the largest dose is wanted.
pub(super) fn reaches(order: &Order, row: &Row, weight: &BodyWeight) -> bool {
    let mass = order
        .measured_strength()
        .and_then(|s| s.mass_in(row.amount));
    let (Some(per_kg), Some(mass)) = (order.medicine.per_kg, mass) else {
        return false;
    };
    let at_most = order.medicine.max_dose.is_some_and(|max: Mass| mass >= max);
    at_most || weight.compare_dose(mass, per_kg, Percent::WHOLE).is_ge()
}

fn weight_needed(order: &Order, person: &Person) -> Reason {
    let name = &person.name;
    let or_age = match (order.medicine.adult_from, person.age) {
        (Some(limit), None) => format!(", or say that {name} is {limit} or older"),
        _ => String::new(),
    };
    Reason::new(
        ReasonKind::Missing,
        "weight-needed",
        format!("this chart goes by weight: weigh {name}{or_age}"),
    )
}

fn age_needed(person: &Person) -> Reason {
    Reason::new(
        ReasonKind::Missing,
        "age-needed",
        format!("this chart goes by age: say how old {} is", person.name),
    )
}

fn outside(person: &Person) -> Reason {
    Reason::new(
        ReasonKind::Hold,
        "outside-chart",
        format!(
            "the chart has no line for {}; ask a nurse first",
            person.name
        ),
    )
}

impl Found {
    /// The age or weight as a reader of the trace wants it.
    pub(super) fn age_words(age: Age) -> String {
        match age {
            Age::Born { born, on } => format!("born {born}, dose on {on}"),
            Age::Told(span) => span.to_string(),
            Age::Adult => "adult".to_owned(),
        }
    }
}
