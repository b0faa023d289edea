//! When more medicine must be there.

use jiff::civil::Date;

use super::{LotStanding, Today, lots};
use crate::dose::DoseForm;
use crate::order::Order;
use crate::record::{PackRecord, State};
use crate::schedule;

/// The last day before which nobody has to fetch more: of the packs received, what is left after the rounds of the plan stays at the order's spare or above.
///
/// Lots that the issuer set aside or called back do not count, used or not: too early is safer than too late.
/// Without packs in the record, the last day of the order's first supply. None when it is enough for the whole course.
pub fn refill_date(state: &State, order: &Order, today: &Today) -> Option<Date> {
    let medicine = &order.medicine;
    let for_it = |pack: &PackRecord| pack.order.as_ref().is_none_or(|own| *own == order.id);
    if !state.packs.iter().any(for_it) {
        let start = state.household.as_ref()?.start;
        return schedule::refill_date(start, medicine.supply_days, today.days);
    }
    let needs: Vec<(Date, u64)> = today
        .plan
        .rounds
        .iter()
        .map(|round| {
            let made = round
                .makes
                .iter()
                .filter_map(|index| today.plan.bowls.get(*index));
            let bowls = made.map(|bowl| u64::from(bowl.tablets));
            let whole = round
                .doses
                .iter()
                .filter(|planned| planned.dose.form == DoseForm::Tablets);
            let whole = whole.map(|planned| u64::from(planned.dose.tablets.unwrap_or(0)));
            (round.day, bowls.chain(whole).fold(0, u64::saturating_add))
        })
        .collect();
    let spare = u64::from(medicine.hand_out.spare());
    let withdrawn = lots(state, order)
        .into_iter()
        .filter(|lot| lot.standing >= LotStanding::SetAside)
        .map(|lot| lot.tablets);
    let not_for_use = withdrawn.fold(spare, u64::saturating_add);
    let left = state.tablets_of(&order.id).left();
    schedule::refill_by(&needs, left.saturating_sub(not_for_use))
}
