//! What of the record was handed over in shift files, and whether all of a home was.
//!
//! Kept as a setting: stretches of arrivals as JSON, sorted, with a gap between any two. Facts that come in later have higher numbers, so they are never taken for handed over.

use super::super::settings::HANDED;
use super::super::{Store, StoreError};
use super::homes;
use crate::household::HouseholdId;
use crate::record::{Event, Fact, SiteEvent};

impl Store {
    /// Arrivals from `first` to `last`, both included, were written into a file that is on the disk.
    ///
    /// # Errors
    /// See [`StoreError`].
    pub fn note_handed_over(&mut self, first: u64, last: u64) -> Result<(), StoreError> {
        if first > last {
            return Ok(());
        }
        let mut stretches = self.handed_over()?;
        stretches.push((first, last));
        stretches.sort_unstable();
        let mut joined: Vec<(u64, u64)> = Vec::new();
        for (first, last) in stretches {
            match joined.last_mut() {
                Some(before) if first <= before.1.saturating_add(1) => {
                    before.1 = before.1.max(last)
                }
                _ => joined.push((first, last)),
            }
        }
        let text = serde_json::to_string(&joined).map_err(|_| StoreError::Unstorable {
            what: "stretches of arrivals that JSON cannot hold",
        })?;
        self.set_setting(HANDED, &text)
    }

    /// The facts of a home with all corrections of them, in the one order of facts, and how many of them were never handed over.
    ///
    /// # Errors
    /// [`StoreError::Damaged`] when one of them is not what was written.
    pub fn facts_of_home(&self, home: HouseholdId) -> Result<(Vec<Fact>, usize), StoreError> {
        let stretches = self.handed_over()?;
        let mut facts = homes::numbered(&self.connection, home)?;
        // Earlier erasures stay.
        facts.retain(|(_, fact)| {
            !matches!(
                &fact.event,
                Event::Site {
                    site: SiteEvent::HomeErased { .. }
                }
            )
        });
        let is_handed = |number: u64| {
            let mut stretches = stretches.iter();
            stretches.any(|(first, last)| (*first..=*last).contains(&number))
        };
        let unheard = facts
            .iter()
            .filter(|(number, _)| !is_handed(*number))
            .count();
        facts.sort_by_key(|(_, fact)| fact.stamp);
        Ok((facts.into_iter().map(|(_, fact)| fact).collect(), unheard))
    }

    /// One that cannot be read counts as nothing handed over.
    fn handed_over(&self) -> Result<Vec<(u64, u64)>, StoreError> {
        let text = self.setting(HANDED)?;
        Ok(text
            .and_then(|text| serde_json::from_str(&text).ok())
            .unwrap_or_default())
    }
}
