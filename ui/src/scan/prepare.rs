//! Pictures made easier to read. Each takes a frame and gives another of the same size.

use rxing::common::{BIT_FIELD_BASE_BITS as WORD, BitArray, BitMatrix};

use super::frame::Frame;

/// Stretches the grays so that the darkest and lightest 2 % become black and white: for fog and weak light.
pub(super) fn stretched(frame: &Frame) -> Frame {
    let mut counts = [0usize; 256];
    for pixel in frame.pixels() {
        counts[usize::from(*pixel)] += 1;
    }
    let out = frame.pixels().len() / 50;
    let dark = level(counts.iter().enumerate(), out);
    let light = level(counts.iter().enumerate().rev(), out);
    let range = light.saturating_sub(dark).max(1);
    let stretch = |pixel: u8| {
        let above = usize::from(pixel).saturating_sub(dark);
        u8::try_from(above * 255 / range).unwrap_or(u8::MAX)
    };
    frame.like(frame.pixels().iter().map(|pixel| stretch(*pixel)).collect())
}

/// The first gray at which more than `out` pixels have been passed.
fn level<'a>(counts: impl Iterator<Item = (usize, &'a usize)>, out: usize) -> usize {
    let mut passed = 0;
    for (gray, count) in counts {
        passed += count;
        if passed > out {
            return gray;
        }
    }
    0
}

/// The mean of each pixel and its eight neighbours, fewer at the edges: for noise.
pub(super) fn smoothed(frame: &Frame) -> Frame {
    let width = frame.width();
    let rows: Vec<&[u8]> = frame.pixels().chunks(width).collect();
    let mut pixels = Vec::with_capacity(frame.pixels().len());
    // Three rows added up, or two at an edge, with a zero to each side. Nine pixels never reach the end of 16 bits.
    let mut sums = vec![0u16; width + 2];
    for y in 0..rows.len() {
        let near = &rows[y.saturating_sub(1)..(y + 2).min(rows.len())];
        sums.fill(0);
        for row in near {
            add(&mut sums[1..=width], row);
        }
        let threes = sums.iter().zip(&sums[1..]).zip(&sums[2..]);
        let threes =
            threes.map(|((left, middle), right)| left.wrapping_add(*middle).wrapping_add(*right));
        let high = u16::try_from(near.len()).unwrap_or(u16::MAX);
        let start = pixels.len();
        if high == 3 {
            pixels.extend(threes.map(|sum| (sum / 9).to_be_bytes()[1]));
        } else {
            pixels.extend(threes.map(|sum| (sum / (3 * high)).to_be_bytes()[1]));
        }
        let across = if width > 1 { 2 } else { 1 };
        for x in [0, width - 1] {
            let sum = sums[x] + sums[x + 1] + sums[x + 2];
            pixels[start + x] = (sum / (high * across)).to_be_bytes()[1];
        }
    }
    frame.like(pixels)
}

/// Adds a row to sums that are too small to overflow.
fn add(sums: &mut [u16], row: &[u8]) {
    for (sum, pixel) in sums.iter_mut().zip(row) {
        *sum = sum.wrapping_add(u16::from(*pixel));
    }
}

/// Four times the distance from the mean of 49 × 49 pixels around: for shadows and weak print.
pub(super) fn local(frame: &Frame) -> Frame {
    let means = means(frame, 24);
    let pixels = frame.pixels().iter().zip(means);
    frame.like(
        pixels
            .map(|(pixel, mean)| {
                let away = (i64::from(*pixel) - i64::from(mean)) * 4 + 128;
                u8::try_from(away.clamp(0, 255)).unwrap_or(u8::MAX)
            })
            .collect(),
    )
}

/// Which pixels are darker than the mean of 41 × 41 around: black and white in any light and at any contrast.
///
/// It runs over every frame twice, so it is written for the compiler to take many pixels at once: no sum can overflow, 41 × 41 × 255 being far from the end of 32 bits.
pub(super) fn darker(frame: &Frame) -> Option<BitMatrix> {
    const REACH: usize = 20;
    let (width, height) = (frame.width(), frame.height());
    let number = |side: usize| u32::try_from(side).ok();
    let mut dark = BitMatrix::new(number(width)?, number(height)?).ok()?;
    let span = |at: usize, end: usize| (at + REACH + 1).min(end) - at.saturating_sub(REACH);
    let across: Vec<u32> = (0..width).filter_map(|x| number(span(x, width))).collect();
    let rows: Vec<&[u8]> = frame.pixels().chunks(width).collect();
    // Down the columns, kept up from row to row: at most 41 pixels.
    let mut columns = vec![0u16; width];
    rows.iter()
        .take(REACH)
        .for_each(|row| add(&mut columns, row));
    // From the left: what a window ends with less what it begins behind is its sum.
    let mut sums = vec![0u32; width + 2 * REACH + 1];
    let mut flags = vec![false; width];
    for (y, row) in (0u32..).zip(0..height) {
        if let Some(entering) = rows.get(row + REACH) {
            add(&mut columns, entering);
        }
        if let Some(leaving) = row.checked_sub(REACH + 1) {
            for (sum, pixel) in columns.iter_mut().zip(rows[leaving]) {
                *sum = sum.wrapping_sub(u16::from(*pixel));
            }
        }
        let mut sum = 0u32;
        for (after, column) in sums[REACH + 1..].iter_mut().zip(&columns) {
            sum = sum.wrapping_add(u32::from(*column));
            *after = sum;
        }
        sums[REACH + 1 + width..].fill(sum);
        let high = number(span(row, height))?;
        let windows = sums.iter().zip(&sums[2 * REACH + 1..]);
        let pixels = rows[row].iter().zip(&across);
        for (flag, ((pixel, across), (left, right))) in flags.iter_mut().zip(pixels.zip(windows)) {
            let mean = u32::from(*pixel).wrapping_mul(*across).wrapping_mul(high);
            *flag = mean < right.wrapping_sub(*left);
        }
        let mut bits = BitArray::with_size(width);
        for (start, flags) in (0..).step_by(WORD).zip(flags.chunks(WORD)) {
            let word = flags
                .iter()
                .rev()
                .fold(0, |word, flag| word << 1 | usize::from(*flag));
            bits.setBulk(start, word);
        }
        dark.setRow(y, &bits);
    }
    Some(dark)
}

/// The mean around each pixel, `reach` pixels to each side and less at the edges, by a table of sums.
fn means(frame: &Frame, reach: usize) -> Vec<u32> {
    let (width, height) = (frame.width(), frame.height());
    // One more row and column of zeros, so that no edge needs a case of its own.
    let across = width + 1;
    let mut sums = vec![0u64; across * (height + 1)];
    for (y, row) in frame.pixels().chunks(width).enumerate() {
        let mut in_row = 0;
        for (x, pixel) in row.iter().enumerate() {
            in_row += u64::from(*pixel);
            sums[(y + 1) * across + x + 1] = sums[y * across + x + 1] + in_row;
        }
    }
    let mut means = Vec::with_capacity(width * height);
    for y in 0..height {
        let (top, bottom) = (y.saturating_sub(reach), (y + reach + 1).min(height));
        for x in 0..width {
            let (left, right) = (x.saturating_sub(reach), (x + reach + 1).min(width));
            let sum = sums[bottom * across + right] + sums[top * across + left]
                - sums[top * across + right]
                - sums[bottom * across + left];
            let area = u64::try_from((bottom - top) * (right - left)).unwrap_or(u64::MAX);
            means.push(u32::try_from(sum / area).unwrap_or(u32::MAX));
        }
    }
    means
}

#[cfg(test)]
mod tests {
    use super::*;

    fn frame(width: usize, pixels: &[u8]) -> Frame {
        Frame::new(width, pixels.len() / width, pixels.to_vec()).unwrap()
    }

    #[test]
    fn weak_grays_reach_from_black_to_white() {
        let weak: Vec<u8> = (0..100).map(|at| 100 + at % 20).collect();
        let found = stretched(&frame(10, &weak));
        assert_eq!(found.pixels().iter().min(), Some(&0));
        assert_eq!(found.pixels().iter().max(), Some(&255));
        // One gray stays one gray.
        let flat = stretched(&frame(10, &[90; 100]));
        assert!(flat.pixels().iter().all(|pixel| *pixel == flat.pixels()[0]));
    }

    #[test]
    fn means_count_what_is_there() {
        let found = smoothed(&frame(3, &[0, 0, 0, 0, 90, 0, 0, 0, 0]));
        // In the middle of nine pixels, at an edge of six, in a corner of four.
        assert_eq!(found.pixels(), [22, 15, 22, 15, 10, 15, 22, 15, 22]);
    }

    #[test]
    fn dark_is_what_is_darker_than_around() {
        // Fewer and more columns than a word has bits, and rows enough that the window moves.
        for (width, height) in [(7, 3), (150, 90)] {
            let gray = |at: usize| u8::try_from((at * at / 7 + at % width) % 251).unwrap();
            let pixels: Vec<u8> = (0..width * height).map(gray).collect();
            let dark = darker(&frame(width, &pixels)).unwrap();
            for (at, pixel) in pixels.iter().enumerate() {
                let (x, y) = (at % width, at / width);
                let (mut sum, mut count) = (0u32, 0u32);
                for row in y.saturating_sub(20)..(y + 21).min(height) {
                    for column in x.saturating_sub(20)..(x + 21).min(width) {
                        sum += u32::from(pixels[row * width + column]);
                        count += 1;
                    }
                }
                let (column, row) = (u32::try_from(x).unwrap(), u32::try_from(y).unwrap());
                assert_eq!(
                    dark.get(column, row),
                    u32::from(*pixel) * count < sum,
                    "{x}, {y}"
                );
            }
        }
    }

    #[test]
    fn a_shadow_is_taken_away() {
        let shaded: Vec<u8> = (0..200 * 60)
            .map(|at| {
                let x = at % 200;
                let light = u8::try_from(50 + x / 2).unwrap();
                if (x / 5) % 2 == 0 { light } else { light + 20 }
            })
            .collect();
        let found = local(&frame(200, &shaded));
        let middle = &found.pixels()[30 * 200 + 40..30 * 200 + 160];
        for (at, pixel) in middle.iter().enumerate() {
            assert_eq!((at + 40) / 5 % 2 == 1, *pixel > 128, "{at}: {pixel}");
        }
    }

    #[test]
    fn frames_shrink_by_their_mean() {
        let small = frame(4, &[0, 4, 8, 8, 4, 8, 8, 8, 1, 1, 1, 1])
            .smaller(2)
            .unwrap();
        assert_eq!((small.width(), small.height()), (2, 1));
        assert_eq!(small.pixels(), [4, 8]);
        assert_eq!(frame(2, &[1, 2]).smaller(2), None);
    }
}
