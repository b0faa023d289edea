//! Appends one fact after another to a record, to be killed in the middle by a test.
//!
//! Says the number of each fact once it is acknowledged, or the code of the refusal that ended it.
//! Arguments: the record, the number of the device, the first number, and how many (else without end).

use std::io::Write;
use std::path::PathBuf;
use std::process::ExitCode;

use hearthdose_core::record::{DeviceId, Event, Fact, FactId, Hlc, Stamp};
use hearthdose_core::store::{Store, StoreError};
use jiff::Timestamp;

fn main() -> ExitCode {
    let mut arguments = std::env::args_os().skip(1);
    let path = PathBuf::from(arguments.next().unwrap_or_default());
    let mut number = || {
        arguments
            .next()
            .and_then(|text| text.to_str()?.parse::<u64>().ok())
    };
    let (Some(device), Some(first)) = (number(), number()) else {
        eprintln!("appender RECORD DEVICE FIRST [COUNT]");
        return ExitCode::from(2);
    };
    let last = number().map_or(u64::MAX, |count| first + count - 1);
    match append(&path, device, first, last) {
        Ok(()) => ExitCode::SUCCESS,
        Err(refusal) => {
            println!("{}", refusal.code());
            ExitCode::FAILURE
        }
    }
}

fn append(path: &std::path::Path, device: u64, first: u64, last: u64) -> Result<(), StoreError> {
    let (mut store, _) = Store::open(path)?;
    let mut out = std::io::stdout().lock();
    for sequence in first..=last {
        store.append(&[fact(device, sequence)])?;
        // Whoever listens may be gone; the facts go on.
        let _ = writeln!(out, "{sequence}").and_then(|()| out.flush());
    }
    Ok(())
}

fn fact(device: u64, sequence: u64) -> Fact {
    let id = |kind: u64| format!("01960000-{kind:04x}-7000-8000-{sequence:012x}");
    let millis = 1_932_987_600_000 + i64::try_from(sequence).unwrap_or(0);
    Fact {
        id: FactId(id(0x100 + device).parse().unwrap_or_default()),
        stamp: Stamp {
            hlc: Hlc { millis, counter: 0 },
            device: DeviceId(
                format!("01960000-0001-7000-8000-{device:012x}")
                    .parse()
                    .unwrap_or_default(),
            ),
            sequence,
        },
        at: Timestamp::from_millisecond(millis).unwrap_or_default(),
        steady: None,
        zone: "America/Chicago".to_owned(),
        order: None,
        event: Event::NoticeTaken {
            text: format!("notice {sequence} ").repeat(10),
        },
    }
}
