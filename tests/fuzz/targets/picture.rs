//! Small pictures under one look each: no panic passes the cascade, and what was read can be drawn and read once more.
#![no_main]

use std::sync::Once;

use hearthdose_fuzz::{GOLDEN, plant};
use hearthdose_ui::scan::{Cascade, Frame, Scanner, Stage, Symbol, drawn};
use libfuzzer_sys::fuzz_target;

static QUIET: Once = Once::new();
const ALPHANUMERIC: &str = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:";
/// Every look but the slowest, which enlarges the picture and costs as much as all others.
const STAGES: &[Stage] = Stage::ALL.split_at(7).0;

// One symbol and one look for each input: so there are many more inputs in a second than with the whole cascade.
fuzz_target!(init: plant(seeds()), |data: &[u8]| {
    // A panic inside the decoder is caught by the cascade; the fuzzer's hook would end the program first.
    QUIET.call_once(|| std::panic::set_hook(Box::new(|_| {})));
    let [width, how, pixels @ ..] = data else {
        return;
    };
    let width = usize::from(*width) + 1;
    let (stage, symbol, scale) = look(usize::from(*how));
    let height = (pixels.len() / width).min(80);
    let mut large = Vec::new();
    for row in pixels.chunks_exact(width).take(height) {
        let row: Vec<u8> = row.iter().flat_map(|pixel| std::iter::repeat_n(*pixel, scale)).collect();
        (0..scale).for_each(|_| large.extend(&row));
    }
    let Some(frame) = Frame::new(width * scale, height * scale, large) else {
        return;
    };
    let Some(found) = Cascade::of(&[stage]).scan(&frame, symbol) else {
        return;
    };
    assert!(found.symbol == symbol);
    let is_plain = !found.text.is_empty() && found.text.chars().all(|letter| ALPHANUMERIC.contains(letter));
    if symbol == Symbol::Qr && is_plain {
        let again = drawn(&found.text, 4, 1).and_then(|frame| Cascade::quick().scan(&frame, symbol));
        assert_eq!(again.map(|again| again.text), Some(found.text));
    }
});

/// What a byte stands for.
fn look(how: usize) -> (Stage, Symbol, usize) {
    let stage = STAGES[how % STAGES.len()];
    let how = how / STAGES.len();
    let symbol = if how.is_multiple_of(4) { Symbol::DataMatrix } else { Symbol::Qr };
    (stage, symbol, how % 3 + 1)
}

/// Codes as this program draws them, the shortest and one of a household, for every look.
fn seeds() -> Vec<(&'static str, Vec<u8>)> {
    let short = ["A", "HD1RRQ+D9P60CO02K76Z", "QUILLMERE SCHOOL HALL 555-0100"];
    let texts = short.into_iter().chain([GOLDEN[1]]);
    texts
        .flat_map(|text| {
            let frame = drawn(text, 1, 1).expect("a short text");
            let looks = u8::try_from(STAGES.len() * 12).expect("fewer than 256 looks");
            (0..looks).map(move |how| {
                let width = u8::try_from(frame.width() - 1).expect("a small code");
                ("code", [&[width, how], frame.pixels()].concat())
            })
        })
        .collect()
}
