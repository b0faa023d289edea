//! `plan`: the bowls of a household's course, or of bare numbers.

use super::{batch, course};
use crate::answer::{Answer, Stop};
use crate::arguments::Plan;

pub fn run(asked: &Plan) -> Result<Answer, Stop> {
    match (asked.stdin, &asked.order, &asked.household) {
        (true, _, _) => batch::run(),
        (false, Some(order), Some(household)) => {
            course::run(order, household, asked.days, asked.fresh)
        }
        // clap asks for both.
        _ => Err(Stop::unusable("give --order and --household, or --stdin")),
    }
}
