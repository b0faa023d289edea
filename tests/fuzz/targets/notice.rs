//! Notice files: read or refused, with known codes.
#![no_main]

use std::sync::LazyLock;

use hearthdose_core::order::{CODES, CheckedOrder, check_notice, check_notice_with, parse_notice};
use hearthdose_fuzz::{demo_files, order, plant};
use libfuzzer_sys::fuzz_target;

static ORDER: LazyLock<CheckedOrder> = LazyLock::new(order);

fuzz_target!(init: plant(demo_files(&["notices"])), |data: &[u8]| {
    let problems = match parse_notice(data) {
        Ok(notice) => {
            assert!(!notice.orders.is_empty() && !notice.kind().is_empty());
            let mut problems = check_notice(&notice);
            problems.extend(check_notice_with(&notice, &ORDER));
            problems
        }
        Err(problems) => {
            assert!(!problems.is_empty());
            problems
        }
    };
    for problem in problems {
        assert!(CODES.iter().any(|(code, _)| *code == problem.code), "{}", problem.code);
    }
});
