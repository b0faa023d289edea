//! Household files: read whole or refused, and whoever was read gets or is refused a dose.
#![no_main]

use std::collections::BTreeSet;
use std::sync::LazyLock;

use hearthdose_core::dose;
use hearthdose_core::household::parse_file;
use hearthdose_core::order::CheckedOrder;
use hearthdose_fuzz::{demo_files, is_kebab, order, plant};
use jiff::civil::date;
use libfuzzer_sys::fuzz_target;

static ORDER: LazyLock<CheckedOrder> = LazyLock::new(order);

fuzz_target!(init: plant(demo_files(&["households"])), |data: &[u8]| {
    let Ok(text) = std::str::from_utf8(data) else {
        return;
    };
    match parse_file(text) {
        Ok(file) => {
            let names: BTreeSet<&str> = file.people.iter().map(|person| person.name.as_str()).collect();
            assert!(!names.is_empty() && names.len() == file.people.len());
            for person in &file.people {
                let _ = dose::work_out(&ORDER, person, date(2031, 4, 3));
            }
        }
        Err(problems) => {
            assert!(!problems.is_empty() && problems.iter().all(|problem| is_kebab(&problem.code)));
        }
    }
});
