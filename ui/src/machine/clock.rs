//! What time it is: the one place that asks the machine.
//!
//! The steady clock is the kernel's boot time, which counts sleep, named by the kernel's boot id.
//! Where either is missing a clock of this process stands in, under a name of its own, so that no wait of another run is mistaken for one of this.

use std::fs;
use std::sync::OnceLock;
use std::time::Instant;

use hearthdose_core::time::{Now, Steady};
use jiff::Timestamp;
use jiff::tz::TimeZone;
use rustix::time::{ClockId, clock_gettime};

use crate::vm::ports::Clock;

const BOOT_ID: &str = "/proc/sys/kernel/random/boot_id";

/// The clocks of this machine.
#[derive(Debug, Default)]
pub struct SystemClock;

impl SystemClock {
    pub fn new() -> SystemClock {
        SystemClock
    }

    /// This moment by the wall clock and by the steady clock.
    pub fn read(&self) -> Now {
        Now {
            wall: Timestamp::now(),
            steady: Some(since_boot().unwrap_or_else(since_process)),
        }
    }
}

impl Clock for SystemClock {
    fn now(&self) -> Now {
        self.read()
    }

    fn zone(&self) -> String {
        TimeZone::system().iana_name().unwrap_or("UTC").to_owned()
    }
}

fn since_boot() -> Option<Steady> {
    static BOOT: OnceLock<Option<String>> = OnceLock::new();
    let boot = BOOT.get_or_init(|| {
        let id = fs::read_to_string(BOOT_ID).ok()?.trim().to_owned();
        (!id.is_empty()).then_some(id)
    });
    let time = clock_gettime(ClockId::Boottime);
    let seconds = u64::try_from(time.tv_sec).ok()?;
    let millis = u64::try_from(time.tv_nsec).ok()? / 1_000_000;
    Some(Steady {
        boot: boot.clone()?,
        millis: seconds.checked_mul(1_000)?.checked_add(millis)?,
    })
}

fn since_process() -> Steady {
    static START: OnceLock<(String, Instant)> = OnceLock::new();
    let (name, start) =
        START.get_or_init(|| (format!("process-{}", uuid::Uuid::now_v7()), Instant::now()));
    Steady {
        boot: name.clone(),
        millis: u64::try_from(start.elapsed().as_millis()).unwrap_or(u64::MAX),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_steady_clocks_run_forward_under_one_name() {
        for clock in [since_process, || since_boot().unwrap_or_else(since_process)] {
            let (first, second) = (clock(), clock());
            assert_eq!(first.boot, second.boot);
            assert!(first.millis <= second.millis);
        }
    }

    #[test]
    fn the_wall_clock_is_not_before_this_was_written() {
        assert!(
            SystemClock::new().read().wall > "2025-01-01T00:00:00Z".parse::<Timestamp>().unwrap()
        );
    }
}
