//! Looking for rows in every place of every page.

use std::collections::BTreeMap;

use super::super::opening::PAGE;
use super::super::rows::{FactRow, OrderRow, SettingRow};
use super::log::Frame;
use super::record::{Pages, record_at};

/// Rows that match their digest.
#[derive(Debug, Default)]
pub(super) struct Found {
    /// By id.
    pub(super) facts: BTreeMap<String, FactRow>,
    /// By fingerprint.
    pub(super) orders: BTreeMap<Vec<u8>, OrderRow>,
    /// By key, the value with the highest number.
    pub(super) settings: BTreeMap<String, (i64, SettingRow)>,
}

impl Found {
    /// Searches the main file and frames of the log.
    pub(super) fn search(main: &[u8], log: &[Frame<'_>]) -> Found {
        let in_main = |number: u32| -> Option<&[u8]> {
            let index = usize::try_from(number).ok()?.checked_sub(1)?;
            main.chunks(PAGE).nth(index)
        };
        let newest: BTreeMap<u32, &[u8]> =
            log.iter().map(|frame| (frame.number, frame.page)).collect();
        let in_log = |number: u32| newest.get(&number).copied().or_else(|| in_main(number));
        let mut found = Found::default();
        for page in main.chunks(PAGE).chain(log.iter().map(|frame| frame.page)) {
            found.search_page(page, &[&in_log, &in_main]);
        }
        found
    }

    fn search_page(&mut self, page: &[u8], readings: &[&Pages<'_>]) {
        for at in 0..page.len() {
            for pages in readings {
                if record_at(page, at, *pages)
                    .is_some_and(|(number, values)| self.take(number, &values))
                {
                    break;
                }
            }
        }
    }

    fn take(&mut self, number: i64, values: &[rusqlite::types::Value]) -> bool {
        if let Some(row) = FactRow::from_values(values) {
            self.facts.insert(row.id.clone(), row);
        } else if let Some(row) = OrderRow::from_values(values) {
            self.orders.insert(row.fingerprint.clone(), row);
        } else if let Some(row) = SettingRow::from_values(values) {
            let newer = self
                .settings
                .get(&row.key)
                .is_none_or(|(before, _)| *before <= number);
            if newer {
                self.settings.insert(row.key.clone(), (number, row));
            }
        } else {
            return false;
        }
        true
    }

    pub(super) fn is_empty(&self) -> bool {
        self.facts.is_empty() && self.orders.is_empty() && self.settings.is_empty()
    }

    /// Facts in the one order of all facts.
    pub(super) fn in_order(&self) -> Vec<&FactRow> {
        let mut rows: Vec<&FactRow> = self.facts.values().collect();
        rows.sort_by_key(|row| (row.millis, row.counter, &row.device, row.sequence));
        rows
    }

    /// Each device numbers its facts from 1 without gaps; these numbers are not there.
    pub(super) fn missing_numbers(&self) -> u64 {
        let mut devices: BTreeMap<&str, (u64, u64)> = BTreeMap::new();
        for row in self.facts.values() {
            let (last, count) = devices.entry(&row.device).or_default();
            *last = (*last).max(u64::try_from(row.sequence).unwrap_or(0));
            *count = count.saturating_add(1);
        }
        devices
            .values()
            .map(|(last, count)| last.saturating_sub(*count))
            .fold(0, u64::saturating_add)
    }
}
