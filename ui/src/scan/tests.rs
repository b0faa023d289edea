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

/// A code as a camera with this lens sees it: each pixel is what `paper` says of its place in modules.
fn seen(modules_at: impl Fn(f64, f64) -> (f64, f64)) -> Frame {
    let code = drawn(&TEXT.repeat(4), 1, 1).unwrap();
    let side = code.width() as f64;
    let (width, height) = (640, 480);
    let pixels = (0..width * height).map(|at| {
        let mut sum = 0;
        for part in 0..9 {
            let x = (at % width) as f64 + f64::from(part % 3) / 3.0;
            let y = (at / width) as f64 + f64::from(part / 3) / 3.0;
            let (u, v) = modules_at(x, y);
            let inside = (0.0..side).contains(&u) && (0.0..side).contains(&v);
            let pixel =
                |u: f64, v: f64| u32::from(code.pixels()[v as usize * code.width() + u as usize]);
            sum += if inside { pixel(u, v) } else { 160 };
        }
        u8::try_from(sum / 9).unwrap()
    });
    Frame::new(width, height, pixels.collect()).unwrap()
}

#[test]
fn a_code_around_a_can_needs_the_grid_that_bends() {
    // 65 modules with their margin around a can of 33 modules' radius, seen a little from above.
    let can = seen(|x, y| {
        let away = (x - 320.0) / 6.5 / 33.0;
        if away.abs() >= 1.0 {
            return (-1.0, -1.0);
        }
        let turn = away.asin();
        (32.5 + 33.0 * turn, (y - 40.0) / 6.0 - 6.0 * turn.cos())
    });
    assert_eq!(read(&can), Some((TEXT.repeat(4), Stage::Grid)));
    let flat = Cascade::of(&[Stage::Plain]).scan_by_stage(&can, Symbol::Qr);
    assert_eq!(flat, None);
}

#[test]
fn blur_is_learned_from_known_modules() {
    let sharp = seen(|x, y| ((x - 110.0) / 6.0, (y - 40.0) / 6.0));
    // Each pixel becomes the mean of 9 × 9, one and a half modules.
    let blurred = with(&sharp, |(at, _)| {
        let (x, y) = (at % 640, at / 640);
        let (columns, rows) = (
            x.saturating_sub(4)..(x + 5).min(640),
            y.saturating_sub(4)..(y + 5).min(480),
        );
        let mut sum = 0;
        let mut count = 0;
        for row in rows {
            for column in columns.clone() {
                sum += u32::from(sharp.pixels()[row * 640 + column]);
                count += 1;
            }
        }
        u8::try_from(sum / count).unwrap()
    });
    let (text, stage) = read(&blurred).unwrap();
    assert_eq!(text, TEXT.repeat(4));
    assert!(stage > Stage::Plain, "{stage:?}");
}

#[test]
fn modules_of_one_and_a_half_pixels_at_a_slant_need_a_larger_picture() {
    let without: Vec<Stage> = Stage::ALL
        .into_iter()
        .filter(|stage| *stage < Stage::Double)
        .collect();
    let (mut read_before, mut read_now) = (0, 0);
    for degrees in (5..45).step_by(5) {
        let (sin, cos) = f64::from(degrees).to_radians().sin_cos();
        let slanted = seen(|x, y| {
            let (x, y) = ((x - 320.0) / 1.5, (y - 240.0) / 1.5);
            (36.5 + x * cos - y * sin, 36.5 + x * sin + y * cos)
        });
        let expected = Some(TEXT.repeat(4));
        let text = |cascade: Cascade| {
            cascade
                .scan_by_stage(&slanted, Symbol::Qr)
                .map(|found| found.0.text)
        };
        read_before += usize::from(text(Cascade::of(&without)) == expected);
        read_now += usize::from(text(Cascade::quick()) == expected);
    }
    assert!(
        read_before + 2 <= read_now,
        "{read_before} of 8, then {read_now}"
    );
}

#[test]
fn a_doubled_picture_has_the_grays_between() {
    let frame = Frame::new(2, 1, vec![0, 255]).unwrap();
    let doubled = frame.doubled(8).unwrap();
    assert_eq!((doubled.width(), doubled.height()), (4, 2));
    // A quarter of the way from one pixel to the next, rounded: 255 / 4 and 3 * 255 / 4.
    assert_eq!(doubled.pixels(), [0, 64, 191, 255, 0, 64, 191, 255]);
    assert_eq!(frame.doubled(7), None);
}
