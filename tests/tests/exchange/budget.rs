//! Room in the codes: signed, names off, at level M.

use hearthdose_core::exchange::{Message, frames, write, write_frame};
use hearthdose_ui::scan::drawn_version;

use crate::samples::{household, secret};

/// Alphanumeric characters at level M (ISO/IEC 18004).
const ROOM: [(u16, i16, usize); 4] = [(1, 10, 311), (4, 13, 483), (8, 17, 734), (12, 20, 970)];

// promise: P23
#[test]
fn households_fit_their_versions() {
    for (people, version, room) in ROOM {
        let text = write(&Message::Household(household(people)), &secret()).unwrap();
        assert!(text.len() <= room, "{people}: {} of {room}", text.len());
        let found = drawn_version(&text).unwrap();
        assert!(found <= version, "{people}: version {found}");
        assert!(text.ends_with('Z'));
        let alphabet = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:";
        assert!(text.chars().all(|letter| alphabet.contains(letter)));
    }
}

#[test]
fn frames_fit_version_20() {
    let file = vec![7; 9_000];
    for frame in frames(&file, 4).unwrap() {
        let text = write_frame(&frame).unwrap();
        assert!(text.len() <= 970);
        assert!(drawn_version(&text).unwrap() <= 20);
    }
}
