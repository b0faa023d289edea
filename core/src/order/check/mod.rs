//! Checking an order: every problem at once, each with a code, a place and a plain sentence.
//!
//! All arithmetic is exact; a limit that is met exactly is kept.
//! An order with an error cannot become a [`CheckedOrder`], and only a checked order gives a dose.

mod amounts;
mod chart;
mod contacts;
mod exact;
mod head;
mod instead;
mod recipe;
mod screening;
mod supply;
mod times;
mod tolerance;
mod words;

use std::ops::Deref;

use super::model::Order;
use super::parse::{self, Draft, Parts};
use super::problem::Problem;

/// An order without errors. Warnings may remain.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CheckedOrder(Order);

impl CheckedOrder {
    /// Checks the order and keeps it when nothing is wrong that would forbid its use.
    ///
    /// # Errors
    /// Every problem, warnings included, when at least one is an error.
    pub fn new(order: Order) -> Result<CheckedOrder, Vec<Problem>> {
        let problems = check(&order);
        if problems.iter().any(Problem::is_error) {
            Err(problems)
        } else {
            Ok(CheckedOrder(order))
        }
    }

    /// Reads and checks the exact bytes of a file.
    ///
    /// # Errors
    /// Every problem, of reading and of checking, when at least one is an error.
    pub fn from_bytes(bytes: &[u8]) -> Result<CheckedOrder, Vec<Problem>> {
        let problems = check_bytes(bytes, &[]);
        if problems.iter().any(Problem::is_error) {
            return Err(problems);
        }
        parse::parse(bytes).map(CheckedOrder)
    }

    pub fn order(&self) -> &Order {
        &self.0
    }
}

impl Deref for CheckedOrder {
    type Target = Order;

    fn deref(&self) -> &Order {
        &self.0
    }
}

/// Everything wrong with one order, seen alone; what reading it remarked comes first.
pub fn check(order: &Order) -> Vec<Problem> {
    check_with(order, &[])
}

/// Everything wrong with one order beside the other orders at hand: also where `instead` leads.
pub fn check_with(order: &Order, others: &[Order]) -> Vec<Problem> {
    let mut problems = order.remarks.clone();
    problems.extend(check_parts(order, Parts::ALL, others));
    problems
}

/// Everything wrong with a file: what stops it from being read and, as far as it can be read, what the checks find.
pub fn check_bytes(bytes: &[u8], others: &[Order]) -> Vec<Problem> {
    let (draft, mut problems) = parse::draft(bytes);
    if let Some(Draft { order, parts }) = draft {
        problems.extend(check_parts(&order, parts, others));
    }
    problems
}

/// Runs every check whose part of the file could be read.
fn check_parts(order: &Order, parts: Parts, others: &[Order]) -> Vec<Problem> {
    let mut problems = head::check(order);
    if parts.times {
        problems.extend(times::check(order));
    }
    if parts.products {
        problems.extend(recipe::products(order));
        problems.extend(supply::check(order));
    }
    if parts.products && parts.recipe {
        problems.extend(recipe::recipe(order, parts));
    }
    if parts.chart {
        problems.extend(chart::check(order));
    }
    if parts.chart && parts.products && parts.recipe {
        problems.extend(amounts::check(order));
        problems.extend(tolerance::check(order));
    }
    problems.extend(screening::check(order));
    problems.extend(instead::check(order, others));
    problems.extend(words::check(order));
    problems.extend(contacts::check(order));
    problems
}
