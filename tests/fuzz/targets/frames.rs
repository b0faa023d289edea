//! Frames, forged and real, in any order: a file comes out whole or not at all, and all its own frames complete it.
#![no_main]

use std::collections::BTreeSet;

use hearthdose_core::exchange::{Collector, Progress, SYMBOL, Scan, base45, frames, write_frame};
use hearthdose_fuzz::{GOLDEN, bytes_of, plant};
use libfuzzer_sys::fuzz_target;

/// Longer files are only slower; a steady few are tried in full length by the tests.
const LONGEST: usize = 6 * SYMBOL;
const REPAIR: u32 = 5;

fuzz_target!(init: plant(seeds()), |data: &[u8]| {
    if let Scan::Part(frame) = Scan::read_bytes(data) {
        let written = write_frame(&frame).expect("a frame fits one code");
        assert_eq!(base45::decode(&written[3..written.len() - 1]).as_deref(), Some(data));
        Collector::new().take(frame);
    }
    let [low, high, salt, steps @ ..] = data else {
        return;
    };
    let length = (usize::from(*low) + 256 * usize::from(*high)) % LONGEST + 1;
    let file: Vec<u8> = (0..length).map(|at| (at * 7 + at / 251) as u8 ^ salt).collect();
    let real: Vec<Vec<u8>> = frames(&file, REPAIR)
        .expect("a fit file")
        .iter()
        .map(|frame| bytes_of(&write_frame(frame).expect("a frame fits one code")))
        .collect();
    let needed = length.div_ceil(SYMBOL);
    let mut collector = Collector::new();
    let (mut taken, mut forged) = (BTreeSet::new(), false);
    // Which frame; which byte of it is changed to what, or none.
    for step in steps.chunks_exact(4).take(24) {
        let which = usize::from(step[0]) % real.len();
        let mut bytes = real[which].clone();
        let place = usize::from(step[1]) + 256 * usize::from(step[2]);
        if let Some(byte) = bytes.get_mut(place) {
            *byte = step[3];
        }
        let Scan::Part(frame) = Scan::read_bytes(&bytes) else {
            continue;
        };
        forged |= bytes != real[which];
        taken.insert(which);
        let progress = collector.take(frame);
        if let Progress::Whole(found) = &progress {
            assert!(*found == file, "another file than the one in frames");
        }
        if !forged && (0..needed).all(|source| taken.contains(&source)) {
            assert!(matches!(progress, Progress::Whole(_)), "every source frame is there");
        }
    }
});

fn seeds() -> Vec<(&'static str, Vec<u8>)> {
    let order = |places: &[u8]| -> Vec<u8> {
        let steps = places.iter().flat_map(|which| [*which, 255, 255, 0]);
        [0, 8, 1].into_iter().chain(steps).collect()
    };
    vec![
        ("frame", bytes_of(GOLDEN[7])),
        ("frame", bytes_of(GOLDEN[8])),
        ("sources", order(&[0, 1, 2, 3, 4])),
        ("repairs", order(&[9, 8, 7, 6, 5, 4])),
        (
            "forged",
            [order(&[0, 1, 2, 3]), vec![4, 40, 0, 9], order(&[5, 6])].concat(),
        ),
    ]
}
