//! Files in several codes: any sufficient set completes, and nothing a stranger sends breaks anything.

use hearthdose_core::exchange::{
    Collector, Frame, LONGEST_FILE, Progress, Scan, frames, write_frame,
};
use hearthdose_core::exchange::{MARK, base45};
use proptest::prelude::*;

const HEADER: usize = 17;

/// A file whose bytes do not repeat.
fn file(length: usize) -> Vec<u8> {
    let mut state: u32 = 0x2545_f491;
    (0..length)
        .map(|_| {
            state ^= state << 13;
            state ^= state >> 17;
            state ^= state << 5;
            state.to_le_bytes()[1]
        })
        .collect()
}

fn collected(frames: &[Frame]) -> Progress {
    let mut collector = Collector::new();
    let mut last = Progress::OtherFile;
    for frame in frames {
        last = collector.take(frame.clone());
    }
    last
}

fn bytes_of(frame: &Frame) -> Vec<u8> {
    let text = write_frame(frame).unwrap();
    base45::decode(&text[MARK.len()..text.len() - 1]).unwrap()
}

fn read(bytes: &[u8]) -> Option<Frame> {
    match Scan::read_bytes(bytes) {
        Scan::Part(frame) => Some(frame),
        Scan::Damaged => None,
        other => panic!("{other:?}"),
    }
}

#[test]
fn the_order_itself_travels() {
    let path = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../demo-data/orders/quillmere-doxy-1.toml"
    );
    let order = std::fs::read(path).unwrap();
    let all = frames(&order, 6).unwrap();
    let needed = order.len().div_ceil(512);
    assert_eq!(all.len(), needed + 6);
    let Progress::Whole(whole) = collected(&all[..needed]) else {
        panic!("every source symbol is there");
    };
    assert_eq!(whole, order);
    let Progress::More {
        have,
        needed: least,
    } = collected(&all[..needed - 1])
    else {
        panic!("one is missing");
    };
    assert_eq!(
        (have, least),
        (
            u32::try_from(needed - 1).unwrap(),
            u32::try_from(needed).unwrap()
        )
    );
    // Backwards, without the first six, each twice.
    let mut others: Vec<Frame> = all[6..].iter().rev().cloned().collect();
    others.extend(others.clone());
    assert_eq!(collected(&others), Progress::Whole(order));
}

#[test]
fn every_length_comes_back() {
    for length in [1, 2, 511, 512, 513, 1024, 5_000, 20_479, LONGEST_FILE] {
        let file = file(length);
        let all = frames(&file, 3).unwrap();
        assert_eq!(
            collected(&all[3..]),
            Progress::Whole(file.clone()),
            "{length}"
        );
        assert_eq!(collected(&all), Progress::Whole(file), "{length}");
    }
    assert!(frames(&[], 0).is_err());
    assert!(frames(&file(LONGEST_FILE + 1), 0).is_err());
}

#[test]
fn frames_of_two_files_do_not_mix() {
    let (one, other) = (
        frames(&file(2_000), 0).unwrap(),
        frames(&[3; 2_000], 0).unwrap(),
    );
    let mut collector = Collector::new();
    collector.take(one[0].clone());
    assert_eq!(collector.take(other[1].clone()), Progress::OtherFile);
    for frame in &one[1..3] {
        assert!(matches!(
            collector.take(frame.clone()),
            Progress::More { .. }
        ));
    }
    assert!(matches!(collector.take(one[3].clone()), Progress::Whole(_)));
}

#[test]
fn a_forged_frame_never_makes_another_file() {
    let file = file(4_000);
    let all = frames(&file, 4).unwrap();
    for forged in 0..all.len() {
        let mut bytes = bytes_of(&all[forged]);
        bytes[HEADER + 100] ^= 0x10;
        let mut mixed = all.clone();
        mixed[forged] = read(&bytes).unwrap();
        // Only ever the right file: with frames to spare the forged one is found and left out.
        assert_eq!(collected(&mixed), Progress::Whole(file.clone()), "{forged}");
        if forged < 8 {
            assert!(matches!(collected(&mixed[..8]), Progress::More { .. }));
        }
    }
}

#[test]
fn fields_outside_the_profile_are_refused() {
    let whole = bytes_of(&frames(&file(3_000), 0).unwrap()[2]);
    assert!(read(&whole).is_some());
    let with = |at: usize, field: &[u8]| {
        let mut bytes = whole.clone();
        bytes[at..at + field.len()].copy_from_slice(field);
        read(&bytes)
    };
    for length in [0u32, 32_769, 65_536, u32::MAX] {
        assert!(with(9, &length.to_be_bytes()).is_none(), "{length}");
    }
    for block in 1..=255 {
        assert!(with(13, &[block]).is_none());
    }
    for id in [4_096u32, 65_535, 16_777_215] {
        assert!(with(13, &id.to_be_bytes()).is_none(), "{id}");
    }
    for length in [0, 1, 3, 4, 16, 17, 20, HEADER + 511] {
        assert!(read(&whole[..length.max(1)]).is_none(), "{length}");
    }
    assert!(read(&[&whole[..], &[0]].concat()).is_none());
}

/// A last symbol whose padding is not empty would be a second spelling of the same file.
#[test]
fn padding_must_be_empty() {
    let all = frames(&file(700), 0).unwrap();
    let mut bytes = bytes_of(&all[1]);
    *bytes.last_mut().unwrap() = 1;
    let odd = [all[0].clone(), read(&bytes).unwrap()];
    assert!(matches!(collected(&odd), Progress::More { .. }));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn hostile_frames_never_panic(
        length in prop::collection::vec(any::<u8>(), 4),
        sent in prop::collection::vec((0u32..5_000, any::<u8>(), 0usize..520), 1..90),
        small in any::<bool>(),
    ) {
        let mut collector = Collector::new();
        for (id, fill, size) in sent {
            let id = if small { id % 70 } else { id };
            let length = if small { [0, 0, length[2] % 128, length[3]] } else { [length[0], length[1], length[2], length[3]] };
            let mut bytes = vec![0x46, 1, 2, 3, 4, 5, 6, 7, 8];
            bytes.extend(length);
            bytes.extend(id.to_be_bytes());
            bytes.extend(vec![fill; if size > 400 { 512 } else { size }]);
            if let Scan::Part(frame) = Scan::read_bytes(&bytes) {
                let progress = collector.take(frame);
                prop_assert!(!matches!(progress, Progress::Whole(_)));
            }
        }
    }

    #[test]
    fn any_sufficient_set_completes(
        length in 1usize..12_000,
        order in any::<u64>(),
    ) {
        let file = file(length);
        let mut all = frames(&file, 12).unwrap();
        let mut state = order | 1;
        for at in (1..all.len()).rev() {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            let other = usize::try_from(state >> 33).unwrap() % (at + 1);
            all.swap(at, other);
        }
        // RaptorQ needs the source's number of symbols and now and then one or two more (RFC 6330, section 1).
        let needed = length.div_ceil(512) + 4;
        prop_assert_eq!(collected(&all[..needed.min(all.len())]), Progress::Whole(file));
    }
}
