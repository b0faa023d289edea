//! Pictures made easier to read. Each takes a frame and gives another of the same size.

use rxing::common::BitMatrix;

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

/// The mean of each pixel and its eight neighbours: for noise.
pub(super) fn smoothed(frame: &Frame) -> Frame {
    let means = means(frame, 1);
    frame.like(
        means
            .into_iter()
            .map(|mean| u8::try_from(mean).unwrap_or(u8::MAX))
            .collect(),
    )
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
pub(super) fn darker(frame: &Frame) -> Option<BitMatrix> {
    let (width, height) = (
        u32::try_from(frame.width()).ok()?,
        u32::try_from(frame.height()).ok()?,
    );
    let mut dark = BitMatrix::new(width, height).ok()?;
    let means = means(frame, 20);
    let rows = frame
        .pixels()
        .chunks(frame.width())
        .zip(means.chunks(frame.width()));
    for (y, (pixels, means)) in (0..).zip(rows) {
        for (x, (pixel, mean)) in (0..).zip(pixels.iter().zip(means)) {
            if u32::from(*pixel) < *mean {
                dark.set(x, y);
            }
        }
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
