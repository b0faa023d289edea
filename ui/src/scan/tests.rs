use super::*;

const TEXT: &str =
    "HD1RRQ+D9P60CO02K76C38CK8/CT70T448ALM+Q7$T*/09ZFV8MM.184RE2Q7G64RFZ7FLDI:33*%1FQZ";

fn code() -> Frame {
    drawn(TEXT, 5, 1).unwrap()
}

fn with(frame: &Frame, change: impl FnMut((usize, &u8)) -> u8) -> Frame {
    frame.like(frame.pixels().iter().enumerate().map(change).collect())
}

/// Numbers that look random: 0 to 255.
fn grain(at: usize) -> i32 {
    let mut mixed = (at as u32).wrapping_mul(0x9e37_79b9) ^ 0x5bd1_e995;
    mixed ^= mixed >> 15;
    mixed = mixed.wrapping_mul(0x2545_f491);
    i32::from(mixed.to_be_bytes()[1])
}

fn read(frame: &Frame) -> Option<(String, Stage)> {
    let found = Cascade::thorough().scan_by_stage(frame, Symbol::Qr)?;
    assert_eq!((found.0.symbol, found.0.gs1), (Symbol::Qr, false));
    Some((found.0.text, found.1))
}

#[test]
fn the_first_stage_reads_what_is_plain_or_inverted() {
    assert_eq!(read(&code()), Some((TEXT.to_owned(), Stage::Plain)));
    let inverted = with(&code(), |(_, pixel)| 255 - pixel);
    assert_eq!(read(&inverted), Some((TEXT.to_owned(), Stage::Plain)));
    let mut quick = Cascade::quick();
    assert_eq!(
        quick.scan(&code(), Symbol::Qr).map(|found| found.text),
        Some(TEXT.to_owned())
    );
    assert_eq!(quick.scan(&code(), Symbol::DataMatrix), None);
}

#[test]
fn later_stages_read_what_is_weak_or_grainy() {
    let weak = with(&code(), |(_, pixel)| 120 + pixel / 25);
    let (text, stage) = read(&weak).unwrap();
    assert_eq!(text, TEXT);
    assert!(stage > Stage::Plain, "{stage:?}");
    let grainy = with(&code(), |(at, pixel)| {
        let gray = 70 + i32::from(*pixel) / 3 + (grain(at) - 128) * 3 / 4;
        u8::try_from(gray.clamp(0, 255)).unwrap()
    });
    let (text, stage) = read(&grainy).unwrap();
    assert_eq!(text, TEXT);
    assert!(stage > Stage::Plain, "{stage:?}");
}

#[test]
fn a_small_code_in_a_large_picture_is_found() {
    let small = drawn(TEXT, 3, 1).unwrap();
    let (width, height) = (4000, 3000);
    let mut pixels = vec![200; width * height];
    for (y, row) in small.pixels().chunks(small.width()).enumerate() {
        let start = (1700 + y) * width + 2900;
        pixels[start..start + row.len()].copy_from_slice(row);
    }
    let large = Frame::new(width, height, pixels).unwrap();
    assert_eq!(read(&large).map(|found| found.0), Some(TEXT.to_owned()));
}

#[test]
fn nothing_is_read_where_nothing_is() {
    for (width, height) in [
        (1, 1),
        (1, 2),
        (2, 2),
        (1, 300),
        (300, 1),
        (3, 50),
        (12, 4000),
        (24, 24),
        (160, 120),
    ] {
        let grainy = (0..width * height).map(|at| u8::try_from(grain(at)).unwrap());
        for frame in [
            Frame::new(width, height, grainy.collect()).unwrap(),
            Frame::new(width, height, vec![0; width * height]).unwrap(),
            Frame::new(width, height, vec![255; width * height]).unwrap(),
        ] {
            for symbol in [Symbol::Qr, Symbol::DataMatrix] {
                assert_eq!(Cascade::thorough().scan(&frame, symbol), None);
            }
        }
    }
    assert_eq!(Frame::new(0, 0, Vec::new()), None);
    assert_eq!(Frame::new(2, 2, vec![0; 3]), None);
    assert_eq!(Frame::new(usize::MAX, 2, vec![0; 2]), None);
}
