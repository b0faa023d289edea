//! A gray picture.

/// Rows of gray pixels, 0 black to 255 white; never empty.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Frame {
    width: usize,
    height: usize,
    pixels: Vec<u8>,
}

impl Frame {
    /// A frame of these pixels, row by row; none when their number does not fit or there are none.
    pub fn new(width: usize, height: usize, pixels: Vec<u8>) -> Option<Frame> {
        let fits = width.checked_mul(height) == Some(pixels.len()) && !pixels.is_empty();
        fits.then_some(Frame {
            width,
            height,
            pixels,
        })
    }

    pub fn width(&self) -> usize {
        self.width
    }

    pub fn height(&self) -> usize {
        self.height
    }

    pub fn pixels(&self) -> &[u8] {
        &self.pixels
    }

    /// The same frame with other pixels.
    pub(super) fn like(&self, pixels: Vec<u8>) -> Frame {
        debug_assert_eq!(pixels.len(), self.pixels.len());
        Frame { pixels, ..*self }
    }

    /// Every `factor` × `factor` pixels become one, their mean; what is left over at the edges is dropped.
    pub fn smaller(&self, factor: usize) -> Option<Frame> {
        let (width, height) = (self.width / factor, self.height / factor);
        let mut pixels = Vec::with_capacity(width * height);
        let area = u32::try_from(factor * factor).ok()?;
        let mut sums = vec![0u32; width];
        for rows in self.pixels.chunks(self.width * factor).take(height) {
            sums.fill(area / 2);
            for row in rows.chunks(self.width) {
                for (sum, part) in sums.iter_mut().zip(row.chunks_exact(factor)) {
                    *sum += part.iter().map(|pixel| u32::from(*pixel)).sum::<u32>();
                }
            }
            pixels.extend(
                sums.iter()
                    .map(|sum| u8::try_from(sum / area).unwrap_or(u8::MAX)),
            );
        }
        Frame::new(width, height, pixels)
    }

    /// Twice as wide and high, with the grays between the pixels drawn in; none where that is more than `most` pixels.
    pub(super) fn doubled(&self, most: usize) -> Option<Frame> {
        let (width, height) = (self.width.checked_mul(2)?, self.height.checked_mul(2)?);
        let size = width.checked_mul(height).filter(|size| *size <= most)?;
        let rows: Vec<Vec<u16>> = self.pixels.chunks(self.width).map(wide).collect();
        let mut pixels = Vec::with_capacity(size);
        for (y, row) in rows.iter().enumerate() {
            let above = &rows[y.saturating_sub(1)];
            let below = &rows[(y + 1).min(rows.len() - 1)];
            for other in [above, below] {
                let mixed = row.iter().zip(other);
                pixels
                    .extend(mixed.map(|(near, far)| ((3 * near + far + 8) / 16).to_be_bytes()[1]));
            }
        }
        Frame::new(width, height, pixels)
    }
}

/// A row twice as wide, in quarters of a gray: three parts of the near pixel and one of the far one.
fn wide(row: &[u8]) -> Vec<u16> {
    let at = |x: usize| u16::from(row[x.min(row.len() - 1)]);
    let pairs = (0..row.len()).map(|x| {
        let near = 3 * at(x);
        [near + at(x.saturating_sub(1)), near + at(x + 1)]
    });
    pairs.flatten().collect()
}
