//! What a population takes, as JSON.

use hearthdose_core::forecast::{Forecast, Range};
use hearthdose_core::order::{Form, Order};
use serde::Serialize;

#[derive(Serialize)]
pub struct Document<'a> {
    people: u64,
    tablets: Count,
    one_tablet_per_dose: u64,
    /// Which draws lie from `low` to `high`.
    interval: &'static str,
    days: u32,
    doses_each: u64,
    homes: Count,
    /// Tablets with spares, in whole packs; null for a liquid.
    handed_out: Option<Count>,
    /// Packs, or bottles; null where the order names no size.
    packs: Option<Count>,
    /// Null for tablets.
    liquid_ml: Option<Count>,
    held: Vec<Held>,
    draws: u64,
    proven: bool,
    assumptions: Vec<Assumption<'a>>,
    order: &'a str,
    revision: u32,
    signed: bool,
    invented: bool,
}

#[derive(Serialize)]
struct Count {
    expected: u64,
    low: u64,
    high: u64,
}

#[derive(Serialize)]
struct Held {
    code: &'static str,
    people: u64,
}

#[derive(Serialize)]
struct Assumption<'a> {
    code: &'static str,
    text: &'a str,
}

impl From<Range> for Count {
    fn from(range: Range) -> Count {
        Count {
            expected: range.expected,
            low: range.low,
            high: range.high,
        }
    }
}

impl Document<'_> {
    pub fn of<'a>(order: &'a Order, found: &'a Forecast) -> Document<'a> {
        let is_tablet = order
            .main_product()
            .is_some_and(|product| product.form == Form::Tablet);
        let held = found.held.iter();
        let assumptions = found.assumptions.iter();
        Document {
            people: found.people,
            tablets: found.tablets.into(),
            one_tablet_per_dose: found.one_tablet_per_dose,
            interval: "5th to 95th percentile of the draws",
            days: found.days,
            doses_each: found.rounds,
            homes: found.homes.into(),
            handed_out: is_tablet.then(|| found.handed_out.into()),
            packs: found.packs.map(Count::from),
            liquid_ml: found.liquid_ml.map(Count::from),
            held: held
                .map(|(code, people)| Held {
                    code,
                    people: *people,
                })
                .collect(),
            draws: found.draws,
            proven: found.proven,
            assumptions: assumptions
                .map(|assumption| Assumption {
                    code: assumption.code,
                    text: &assumption.text,
                })
                .collect(),
            order: &order.id,
            revision: order.revision,
            signed: false,
            invented: order.invented,
        }
    }
}
