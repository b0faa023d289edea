//! Small pictures: no panic passes the cascade, and what was read can be drawn and read once more.
#![no_main]

use std::sync::Once;

use hearthdose_fuzz::plant;
use hearthdose_ui::scan::{Cascade, Frame, Scanner, Symbol, drawn};
use libfuzzer_sys::fuzz_target;

static QUIET: Once = Once::new();
const ALPHANUMERIC: &str = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:";

fuzz_target!(init: plant(seeds()), |data: &[u8]| {
    // A panic inside the decoder is caught by the cascade; the fuzzer's hook would end the program first.
    QUIET.call_once(|| std::panic::set_hook(Box::new(|_| {})));
    let [width, scale, pixels @ ..] = data else {
        return;
    };
    let width = usize::from(*width) + 1;
    let scale = usize::from(*scale) % 3 + 1;
    let height = (pixels.len() / width).min(80);
    let mut large = Vec::new();
    for row in pixels.chunks_exact(width).take(height) {
        let row: Vec<u8> = row.iter().flat_map(|pixel| std::iter::repeat_n(*pixel, scale)).collect();
        (0..scale).for_each(|_| large.extend(&row));
    }
    let Some(frame) = Frame::new(width * scale, height * scale, large) else {
        return;
    };
    for symbol in [Symbol::Qr, Symbol::DataMatrix] {
        let Some(found) = Cascade::quick().scan(&frame, symbol) else {
            continue;
        };
        assert!(found.symbol == symbol);
        let is_plain = !found.text.is_empty() && found.text.chars().all(|letter| ALPHANUMERIC.contains(letter));
        if symbol == Symbol::Qr && is_plain {
            let again = drawn(&found.text, 4, 1).and_then(|frame| Cascade::quick().scan(&frame, symbol));
            assert_eq!(again.map(|again| again.text), Some(found.text));
        }
    }
});

fn seeds() -> Vec<(&'static str, Vec<u8>)> {
    [
        "A",
        "HD1RRQ+D9P60CO02K76Z",
        "QUILLMERE SCHOOL HALL 555-0100",
    ]
    .into_iter()
    .flat_map(|text| {
        let frame = drawn(text, 1, 1).expect("a short text");
        (0..3).map(move |scale| {
            let width = u8::try_from(frame.width() - 1).expect("a small code");
            ("code", [&[width, scale], frame.pixels()].concat())
        })
    })
    .collect()
}
