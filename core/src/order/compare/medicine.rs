//! The medicine: doses, limits, times, course.

use super::{Changes, said};
use crate::order::model::{FirstDose, Group, Medicine, Order};
use crate::order::supply::HandOut;
use crate::units::show::lapse_text;

pub(super) fn compare(changes: &mut Changes, old: &Order, new: &Order) {
    let (old, new) = (&old.medicine, &new.medicine);
    let at = |key: &str| format!("medicine.{key}");
    let mut tell = |key: &str, label: &str, say: &dyn Fn(&Medicine) -> String| {
        changes.changed(&at(key), label, &say(old), &say(new));
    };
    tell("name", "medicine", &|m| m.name.clone());
    tell("allergy-class", "allergy class", &|m| {
        said(m.allergy_class.as_ref())
    });
    tell("interval", "time between doses", &|m| {
        lapse_text(m.interval)
    });
    tell("supply-days", "handed out now", &|m| days(m.supply_days));
    tell("course-days", "course", &|m| days(m.course_days));
    tell("per-kg", "dose for each kilogram", &|m| said(m.per_kg));
    tell("max-dose", "largest dose", &|m| said(m.max_dose));
    tell("tolerance", "allowed distance of the chart", &|m| {
        said(
            m.tolerance
                .map(|allowed| format!("{} under to {} over", allowed.under, allowed.over)),
        )
    });
    tell("lightest", "lightest weight served", &|m| {
        said(m.lightest.as_ref())
    });
    tell("youngest", "youngest age served", &|m| said(m.youngest));
    tell("adult-from", "adult from", &|m| said(m.adult_from));
    tell("least-gap", "least gap between doses", &|m| {
        lapse_text(m.least_gap)
    });
    tell(
        "skip-if-next-within",
        "a late dose is skipped if the next is within",
        &|m| lapse_text(m.skip_if_next_within),
    );
    tell("first-dose", "first dose", &|m| {
        first(m.first_dose).to_owned()
    });
    tell("first-gap", "least gap after the first dose", &|m| {
        lapse_text(m.first_gap)
    });
    tell("most-doses", "most doses", &most);
    tell("apart", "to be taken apart", &apart);
    tell("margin", "margin before a bowl's end", &|m| {
        lapse_text(m.margin)
    });
    tell("stale-weight", "a weight counts for", &|m| {
        let stale = m.stale_weight;
        format!(
            "{} under two years, {} above",
            lapse_text(stale.under_two_years),
            lapse_text(stale.older)
        )
    });
    tell("expires", "the order expires on", &|m| said(m.expires));
    tell("withdraws", "withdraws", &|m| said(m.withdraws.as_ref()));
    tell("sealing-key", "sealing key", &|m| {
        said(
            m.sealing_key
                .as_ref()
                .map(|key| format!("{} {}", key.id, key.hex())),
        )
    });
    tell("hand-out", "handed out", &|m| match m.hand_out {
        HandOut::PerPerson => "packs for each person".to_owned(),
        HandOut::PlanAndSpare { spare } => format!("what the plan needs and {spare} to spare"),
    });
    tell("event", "event", &|m| said(m.event.as_ref()));
    tell("split", "a dose from two bowls", &|m| {
        if m.split { "allowed" } else { "not allowed" }.to_owned()
    });
    tell("missed-doses-extend", "missed doses", &|m| {
        if m.missed_doses_extend {
            "make the course longer"
        } else {
            "do not make the course longer"
        }
        .to_owned()
    });
}

fn days(count: u32) -> String {
    if count == 1 {
        "1 day".to_owned()
    } else {
        format!("{count} days")
    }
}

fn first(dose: FirstDose) -> &'static str {
    match dose {
        FirstDose::Now => "now",
        FirstDose::NextRound => "at the next round",
    }
}

fn most(medicine: &Medicine) -> String {
    let groups = medicine.most_doses.iter().map(|most| {
        let group = match &most.group {
            Group::UpToAge(age) => format!("up to {age}"),
            Group::UnderAge(age) => format!("under {age}"),
            Group::If(key) => format!("if {key}"),
            Group::Everyone => "everyone".to_owned(),
        };
        format!("{group} {}", most.doses)
    });
    groups.collect::<Vec<_>>().join(", ")
}

fn apart(medicine: &Medicine) -> String {
    let entries = medicine
        .apart
        .iter()
        .map(|entry| format!("{} by {}", entry.what, lapse_text(entry.gap)));
    entries.collect::<Vec<_>>().join("; ")
}
