//! From facts as they arrive to the tables of a site.

use std::collections::{BTreeMap, BTreeSet};

use rusqlite::Connection;

use super::super::StoreError;
use super::super::facts::Forgot;
use super::chains::{self, Root};
use super::lots::Lots;
use super::{READING, forget, homes, set_progress};
use crate::household::HouseholdId;
use crate::record::{Event, Fact, SiteEvent};
use crate::site::Movement;

/// Takes facts that have just been written, with their numbers, the smallest first.
///
/// What is older than the erasure of its home leaves the file again.
pub(in crate::store) fn project(
    connection: &Connection,
    arrived: &[(i64, &Fact)],
) -> Result<Forgot, StoreError> {
    let mut homes: BTreeMap<HouseholdId, BTreeSet<i64>> = BTreeMap::new();
    let mut lots = Lots::default();
    let mut has_erasure = false;
    for (number, fact) in arrived {
        match &fact.event {
            Event::Correction { target, .. } => chains::note(connection, *target, *number)?,
            Event::Site { site } => {
                if let Some(movement) = Movement::of(&fact.event) {
                    lots.take(connection, fact.stamp, &movement)?;
                }
                if let Some(home) = site.home() {
                    homes.entry(home).or_default().insert(*number);
                    if matches!(site, SiteEvent::HomeErased { .. }) {
                        has_erasure = true;
                        forget::note(connection, home, fact.stamp)?;
                    }
                }
            }
            _ => {}
        }
    }
    lots.write(connection)?;
    let waiting = if chains::any(connection)? {
        attach(connection, arrived, &mut homes)?
    } else {
        Vec::new()
    };
    let mut gone = BTreeSet::new();
    for (home, numbers) in &homes {
        gone.append(&mut homes::update(connection, *home, numbers, arrived)?);
    }
    gone.append(&mut forget::waiting(
        connection,
        waiting,
        has_erasure || !gone.is_empty(),
    )?);
    if let Some((last, _)) = arrived.last() {
        set_progress(connection, READING, *last)?;
    }
    let is_new = |number: &&i64| arrived.binary_search_by_key(*number, |(at, _)| *at).is_ok();
    let new = gone.iter().filter(is_new).count();
    Ok(Forgot {
        new,
        older: gone.len() - new,
    })
}

/// Puts corrections to the homes of what they correct; those whose target is missing are handed back.
fn attach(
    connection: &Connection,
    arrived: &[(i64, &Fact)],
    homes: &mut BTreeMap<HouseholdId, BTreeSet<i64>>,
) -> Result<Vec<i64>, StoreError> {
    let mut waiting = Vec::new();
    for (number, fact) in arrived {
        let home = match &fact.event {
            Event::Site { site } => site.home(),
            Event::Correction { target, .. } => match chains::root(connection, *target)? {
                Root::Fact(root) => match &root.event {
                    Event::Site { site } => site.home(),
                    _ => None,
                },
                Root::Missing(_) | Root::Ring => {
                    waiting.push(*number);
                    None
                }
            },
            _ => None,
        };
        if let Some(home) = home {
            let mine = homes.entry(home).or_default();
            mine.insert(*number);
            mine.extend(chains::below(connection, fact.id)?);
        }
    }
    Ok(waiting)
}
