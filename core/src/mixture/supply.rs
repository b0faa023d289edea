//! What is handed out for a plan: what it uses, what is kept to spare, in whole packs.

use super::course::{CoursePlan, Seat};
use crate::order::{Form, HandOut, Order};
use crate::units::Volume;

/// Counted by the order's rule.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Supply {
    /// Tablets the plan uses.
    pub tablets: u64,
    /// Tablets kept for what is spilt.
    pub spare: u64,
    /// Whole packs, or bottles of liquid; none where the order names no size.
    pub packs: Option<u64>,
    /// Tablets handed out.
    pub handed_out: u64,
}

/// What to hand out for a plan; nothing where the plan needs nothing.
pub fn supply(order: &Order, plan: &CoursePlan, seats: &[Seat]) -> Supply {
    let product = order.main_product();
    let size = product
        .and_then(|product| product.pack_size)
        .map(u64::from)
        .filter(|size| *size > 0);
    let is_liquid = product.is_some_and(|product| product.form == Form::Liquid);
    let needed = match order.medicine.hand_out {
        HandOut::PerPerson => (0..seats.len())
            .map(|seat| of_seat(order, plan, seat))
            .collect(),
        HandOut::PlanAndSpare { .. } if is_liquid => vec![millilitres(plan.liquid)],
        HandOut::PlanAndSpare { .. } => vec![plan.tablets],
    };
    let any = needed.iter().any(|need| *need > 0);
    let spare = if any && !is_liquid {
        u64::from(order.medicine.hand_out.spare())
    } else {
        0
    };
    let with_spare = |need: &u64| need.saturating_add(spare);
    let packs = size.map(|size| {
        let each = needed.iter().map(|need| with_spare(need).div_ceil(size));
        each.fold(0, u64::saturating_add)
    });
    let loose = needed.iter().map(with_spare).fold(0, u64::saturating_add);
    let handed_out = match (is_liquid, packs, size) {
        (true, ..) => 0,
        (false, Some(packs), Some(size)) => packs.saturating_mul(size),
        _ => loose,
    };
    Supply {
        tablets: plan.tablets,
        spare,
        packs,
        handed_out,
    }
}

/// Tablets, or millilitres, of packs of one's own: each dose a whole tablet or as many as a bowl takes.
pub fn of_seat(order: &Order, plan: &CoursePlan, seat: usize) -> u64 {
    let per_bowl = order.recipe.as_ref().map_or(0, |recipe| recipe.tablets);
    let doses = plan.rounds.iter().flat_map(|round| &round.doses);
    let mine = doses.filter(|planned| planned.seat == seat);
    let mut tablets: u64 = 0;
    let mut liquid = Volume::ZERO;
    for planned in mine {
        let dose = &planned.dose;
        match dose.form {
            crate::dose::DoseForm::Liquid => {
                liquid = liquid.checked_add(dose.amount).unwrap_or(liquid);
            }
            _ => {
                let each = dose.tablets.unwrap_or(per_bowl);
                tablets = tablets.saturating_add(u64::from(each));
            }
        }
    }
    tablets.saturating_add(millilitres(liquid))
}

/// Whole millilitres, rounded up.
fn millilitres(volume: Volume) -> u64 {
    volume.as_microlitres().div_ceil(1_000)
}
