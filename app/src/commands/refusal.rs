//! Refusals of the rules, as the program hands them out.

use hearthdose_core::order::{ContactKind, Order};
use hearthdose_core::screening;

use super::advice;
use crate::answer::{Reason, Refused};

/// Screening and chart reasons of one person; `name` is left out where only one person was asked for.
pub fn reasons(found: &[screening::Reason], name: Option<&str>) -> Vec<Reason> {
    found
        .iter()
        .map(|reason| Reason {
            person: name.map(str::to_owned),
            instead: reason.instead.clone(),
            ..Reason::new(reason.code, reason.text.clone())
        })
        .collect()
}

/// A refusal with the order's own words and whom to call.
pub fn refused(order: &Order, found: &[screening::Reason], reasons: Vec<Reason>) -> Refused {
    let mut advice: Vec<String> = found
        .iter()
        .filter_map(|reason| reason.then.get("en").cloned())
        .collect();
    advice.dedup();
    advice.extend(advice::contact(order, ContactKind::Questions, "Questions"));
    advice.push(advice::NOT_A_CLINICIAN.to_owned());
    Refused { reasons, advice }
}
