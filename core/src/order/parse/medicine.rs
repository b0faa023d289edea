//! Reading `[medicine]`, with the defaults an order may leave unsaid.
//!
//! Defaults: `least-gap` two thirds of the interval, `skip-if-next-within` half of it, `first-gap` the same as `least-gap`, `first-dose` now, `margin` 15 minutes, handed out what the plan needs and nothing to spare, a weight stale after 14 days under two years and 60 days above, no dose from two bowls, a course that missed doses do not lengthen.

use jiff::SignedDuration;

use super::section::Section;
use super::supply;
use crate::order::model::{Apart, FirstDose, Group, Medicine, MostDoses, StaleWeight, Tolerance};
use crate::order::problem::Problem;
use crate::units::{AgeSpan, BodyWeight, Lapse, Mass, Percent, parse_lapse};

/// Stands in for a missing interval so that the rest can still be checked; such an order never leaves [`super::parse`].
const STAND_IN: Lapse = SignedDuration::from_hours(12);
const MARGIN: Lapse = SignedDuration::from_mins(15);
const STALE: StaleWeight = StaleWeight {
    under_two_years: SignedDuration::from_hours(14 * 24),
    older: SignedDuration::from_hours(60 * 24),
};

/// Whether the interval could be read; without it the times are not checked.
pub(super) struct MedicineReading {
    pub medicine: Medicine,
    pub timed: bool,
}

pub(super) fn medicine(top: &mut Section<'_>) -> Option<MedicineReading> {
    top.require("medicine");
    let mut at = top.optional_table("medicine")?;
    let given = at.quantity("interval", parse_lapse).filter(|i| {
        let some = i.is_positive();
        if !some {
            at.error(
                "interval-zero",
                "interval",
                "The time between doses is zero.",
            );
        }
        some
    });
    let interval = given.unwrap_or(STAND_IN);
    let least_gap = at.optional_quantity("least-gap", parse_lapse);
    let least_gap = least_gap.unwrap_or_else(|| share(interval, 2, 3));
    let skip = at.optional_quantity("skip-if-next-within", parse_lapse);
    let medicine = Medicine {
        name: at.text("name").unwrap_or_default(),
        words: at.words("words"),
        allergy_class: at.optional_text("allergy-class"),
        interval,
        supply_days: at.whole("supply-days").unwrap_or(1),
        course_days: at.whole("course-days").unwrap_or(1),
        per_kg: at.optional_quantity("per-kg", Mass::parse),
        max_dose: at.optional_quantity("max-dose", Mass::parse),
        tolerance: tolerance(&mut at),
        lightest: at.optional_quantity("lightest", BodyWeight::parse),
        youngest: at.optional_quantity("youngest", AgeSpan::parse),
        adult_from: at.optional_quantity("adult-from", AgeSpan::parse),
        least_gap,
        skip_if_next_within: skip.unwrap_or_else(|| share(interval, 1, 2)),
        first_dose: first_dose(&mut at),
        first_gap: at
            .optional_quantity("first-gap", parse_lapse)
            .unwrap_or(least_gap),
        most_doses: most_doses(&mut at),
        apart: at
            .tables("apart")
            .into_iter()
            .fold(Vec::new(), |mut list, mut entry| {
                let what = entry.text("what");
                let gap = entry.quantity("gap", parse_lapse);
                let words = entry.words("words");
                if let (Some(what), Some(gap)) = (what, gap) {
                    list.push(Apart { what, words, gap });
                }
                at.absorb(entry);
                list
            }),
        margin: at
            .optional_quantity("margin", parse_lapse)
            .unwrap_or(MARGIN),
        stale_weight: stale_weight(&mut at),
        expires: at
            .optional_date("expires")
            .or_else(|| top.optional_date("expires")),
        withdraws: either(&mut at, top, "withdraws"),
        sealing_key: supply::sealing_key(&mut at, top),
        hand_out: supply::hand_out(&mut at),
        event: either(&mut at, top, "event"),
        split: at
            .optional_flag("split")
            .or_else(|| top.optional_flag("split"))
            .unwrap_or(false),
        missed_doses_extend: at.optional_flag("missed-doses-extend").unwrap_or(false),
    };
    // Known at the top as well, so that only a real stranger is reported there.
    for key in ["expires", "withdraws", "sealing-key", "event", "split"] {
        top.optional(key);
    }
    top.absorb(at);
    Some(MedicineReading {
        medicine,
        timed: given.is_some(),
    })
}

/// `over` / `under` of a length of time, to the whole second below.
fn share(whole: Lapse, over: i64, under: i64) -> Lapse {
    let seconds = whole.as_secs().saturating_mul(over);
    SignedDuration::from_secs(seconds.checked_div(under).unwrap_or(0))
}

fn either(at: &mut Section<'_>, top: &mut Section<'_>, key: &'static str) -> Option<String> {
    at.optional_text(key).or_else(|| top.optional_text(key))
}

fn tolerance(at: &mut Section<'_>) -> Option<Tolerance> {
    let mut table = at.optional_table("tolerance")?;
    let under = table.quantity("under", Percent::parse);
    let over = table.quantity("over", Percent::parse);
    at.absorb(table);
    Some(Tolerance {
        under: under?,
        over: over?,
    })
}

fn first_dose(at: &mut Section<'_>) -> FirstDose {
    let choices = [
        ("now", FirstDose::Now),
        ("next round", FirstDose::NextRound),
    ];
    at.optional_choice("first-dose", &choices)
        .unwrap_or(FirstDose::Now)
}

/// Both limits, or one of them; a length alone counts for both.
fn stale_weight(at: &mut Section<'_>) -> StaleWeight {
    match at.optional("stale-weight") {
        None => STALE,
        Some(value) if value.is_str() => {
            let limit = at.optional_quantity("stale-weight", parse_lapse);
            limit.map_or(STALE, |limit| StaleWeight {
                under_two_years: limit,
                older: limit,
            })
        }
        Some(_) => {
            let Some(mut table) = at.optional_table("stale-weight") else {
                return STALE;
            };
            let under = table.optional_quantity("under-two-years", parse_lapse);
            let older = table.optional_quantity("older", parse_lapse);
            at.absorb(table);
            StaleWeight {
                under_two_years: under.unwrap_or(STALE.under_two_years),
                older: older.unwrap_or(STALE.older),
            }
        }
    }
}

fn most_doses(at: &mut Section<'_>) -> Vec<MostDoses> {
    let place = at.place_of("most-doses");
    let Some(value) = at.optional("most-doses") else {
        return Vec::new();
    };
    let Some(table) = value.as_table() else {
        at.error(
            "wrong-type",
            "most-doses",
            "“most-doses” must be a table, such as { \"up to 1 mo\" = 1 }.",
        );
        return Vec::new();
    };
    let mut list = Vec::new();
    for (name, value) in table {
        let doses = value
            .as_integer()
            .and_then(|doses| u32::try_from(doses).ok())
            .filter(|doses| *doses > 0);
        match (group(name), doses) {
            (Ok(group), Some(doses)) => list.push(MostDoses { group, doses }),
            (Err(text), _) => at.report(Problem::error("unknown-group", place.clone(), text)),
            (_, None) => {
                let text = format!("The most doses for “{name}” must be a whole number from 1.");
                at.report(Problem::error("wrong-type", place.clone(), text));
            }
        }
    }
    list
}

fn group(name: &str) -> Result<Group, String> {
    let name = name.trim();
    let age = |text: &str| {
        AgeSpan::parse(text).map_err(|error| format!("The group “{name}” cannot be read: {error}."))
    };
    if name == "everyone" {
        Ok(Group::Everyone)
    } else if let Some(limit) = name.strip_prefix("up to ") {
        age(limit).map(Group::UpToAge)
    } else if let Some(limit) = name.strip_prefix("under ") {
        age(limit).map(Group::UnderAge)
    } else if let Some(key) = name.strip_prefix("if ") {
        Ok(Group::If(key.trim().to_owned()))
    } else {
        Err(format!(
            "“{name}” is no group; write “up to 1 mo”, “under 1 mo”, “if pregnant” with the key of a question, or “everyone”."
        ))
    }
}
