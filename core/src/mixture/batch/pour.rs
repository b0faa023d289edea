//! The bowls of a way, filled dose by dose.

use super::ahead::Way;
use super::course::{Course, Draft, Fill, Part};
use super::frontier::Classes;
use super::leg::Leg;
use super::packing::Fit;

/// Search steps to find out in how few bowls the doses covered ahead find room.
const COVERING: u64 = 3_000;

/// The bowls of a way, filled.
pub(super) fn draft(course: &Course, way: &Way) -> Option<Draft> {
    let mut draft = Draft {
        bowls: Vec::new(),
        open: vec![Vec::new(); course.open.len()],
    };
    for round in 0..course.rounds.len() {
        pour(course, way, round, &mut draft)?;
    }
    Some(draft)
}

/// Fills the bowls of one round so that few of them stand covered until the next.
fn pour(course: &Course, way: &Way, round: usize, draft: &mut Draft) -> Option<()> {
    let (done, ahead, bowls) = (way.covered[round], way.covered[round + 1], way.bowls[round]);
    let volume = course
        .rounds
        .get(round + 1)
        .map_or(0, |_| Leg::new(course, round, 0).next.volume(ahead));
    let fewest = usize::try_from(volume.div_ceil(u64::from(course.capacity))).unwrap_or(bowls);
    let covering = (fewest.max(1)..bowls)
        .filter(|_| volume > 0)
        .find_map(|covering| {
            let mut leg = Leg::new(course, round, bowls - covering);
            (leg.fill(done, ahead, covering, COVERING) == Fit::Yes).then_some(leg)
        });
    let leg = match covering {
        Some(leg) => leg,
        None => {
            let mut leg = Leg::new(course, round, 0);
            if leg.fill(done, ahead, bowls, u64::MAX) != Fit::Yes {
                return None;
            }
            leg
        }
    };
    let mut due: Vec<Vec<Part>> = vec![Vec::new(); leg.slots];
    let mut hand = |at: usize, classes: &Classes, slots: &[usize], skip: &[u32], take: &[u32]| {
        let mut first = 0;
        for (class, &count) in classes.counts.iter().enumerate() {
            let from = first + usize::try_from(skip[class]).unwrap_or(0);
            let to = from + usize::try_from(take[class]).unwrap_or(0);
            due[slots[class]].extend((from..to).map(|position| course.whole(at, position)));
            first += usize::try_from(count).unwrap_or(0);
        }
    };
    let ahead = ahead.counts(leg.next.len());
    hand(
        round + 1,
        &leg.next,
        &leg.next_slot,
        &vec![0; leg.next.len()],
        &ahead,
    );
    let due_now = leg.due(done);
    let done = done.counts(leg.now.len());
    hand(round, &leg.now, &leg.now_slot, &done, &due_now);
    let opened = if round == 0 { course.open.len() } else { 0 };
    for (index, bowl) in leg.packing.filling().into_iter().enumerate() {
        let parts: Vec<Part> = bowl
            .into_iter()
            .filter_map(|slot| due[slot].pop())
            .collect();
        if index < opened {
            draft.open[index] = parts;
        } else if !parts.is_empty() {
            draft.bowls.push(Fill { round, parts });
        }
    }
    Some(())
}
