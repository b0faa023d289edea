//! What stands on the label of a covered bowl.

use jiff::Timestamp;

use super::course::{CourseBowl, CoursePlan, Seat};
use crate::order::{CheckedOrder, KeepWhere};
use crate::units::{Volume, show};

/// The label of one bowl: for whom, how much, when it must be gone, and where it stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Label {
    pub medicine: String,
    pub made_at: Timestamp,
    pub discard_at: Timestamp,
    /// Name, amount in words, when.
    pub people: Vec<(String, String, Timestamp)>,
    pub where_kept: KeepWhere,
}

/// The label for what remains in a bowl after the round it is made in; nothing when it is empty then.
pub fn label_of(
    order: &CheckedOrder,
    plan: &CoursePlan,
    seats: &[Seat],
    bowl: &CourseBowl,
) -> Option<Label> {
    let later = bowl
        .takes
        .iter()
        .filter(|(round, _, _)| *round > bowl.round);
    let line = |(round, seat, amount): &(usize, usize, Volume)| {
        let name = seats.get(*seat).map(|s| s.person.name.clone())?;
        let at = plan.rounds.get(*round).map(|r| r.at)?;
        Some((name, show::spoon_text(*amount), at))
    };
    let people: Vec<_> = later.filter_map(line).collect();
    (!people.is_empty()).then(|| Label {
        medicine: order.medicine.name.clone(),
        made_at: bowl.made_at,
        discard_at: bowl.discard_at,
        people,
        where_kept: order
            .recipe
            .as_ref()
            .map_or(KeepWhere::Room, |r| r.keep_where),
    })
}
