//! The pixels of the window as drawn last, and rectangles of them.
//!
//! Slint's drawing of pixels is compiled here and nowhere else in the package, since it depends on what a pixel is.

mod pixel;

use slint::platform::software_renderer::{PhysicalRegion, SoftwareRenderer};

pub use pixel::{Byte, Pixel};

/// A rectangle in pixels; right and bottom are outside.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Patch {
    pub left: u32,
    pub top: u32,
    pub right: u32,
    pub bottom: u32,
}

impl Patch {
    /// The smallest rectangle around what was drawn.
    pub fn around(region: &PhysicalRegion) -> Patch {
        let (origin, size) = (region.bounding_box_origin(), region.bounding_box_size());
        let left = u32::try_from(origin.x).unwrap_or_default();
        let top = u32::try_from(origin.y).unwrap_or_default();
        Patch {
            left,
            top,
            right: left + size.width,
            bottom: top + size.height,
        }
    }

    pub fn is_empty(&self) -> bool {
        self.left >= self.right || self.top >= self.bottom
    }

    /// Number of pixels in it.
    pub fn area(&self) -> u64 {
        u64::from(self.right.saturating_sub(self.left))
            * u64::from(self.bottom.saturating_sub(self.top))
    }
}

/// The pixels, row by row.
#[derive(Default)]
pub struct Canvas {
    width: u32,
    height: u32,
    pixels: Vec<Pixel>,
}

impl Canvas {
    pub fn width(&self) -> u32 {
        self.width
    }

    pub fn height(&self) -> u32 {
        self.height
    }

    /// Everything.
    pub fn whole(&self) -> Patch {
        Patch {
            left: 0,
            top: 0,
            right: self.width,
            bottom: self.height,
        }
    }

    /// Takes this size; true where that emptied it.
    pub fn fit(&mut self, width: u32, height: u32) -> bool {
        if (self.width, self.height) == (width, height) {
            return false;
        }
        self.pixels.clear();
        self.pixels
            .resize(size(width) * size(height), Pixel::default());
        (self.width, self.height) = (width, height);
        true
    }

    /// Draws what changed since the renderer drew last; it says where.
    pub fn draw(&mut self, renderer: &SoftwareRenderer) -> PhysicalRegion {
        renderer.render(&mut self.pixels, size(self.width))
    }

    /// One row from `left` to `right`; empty outside.
    pub fn row(&self, y: u32, left: u32, right: u32) -> &[Pixel] {
        let begin = size(y) * size(self.width);
        let (left, right) = (size(left.min(self.width)), size(right.min(self.width)));
        self.pixels
            .get(begin + left..begin + right)
            .unwrap_or_default()
    }

    /// Copies a patch into rows of bytes: red, green, blue, alpha. The first row and the first byte are those of the window.
    pub fn copy<'a, B: Byte + 'a>(&self, patch: Patch, rows: impl Iterator<Item = &'a mut [B]>) {
        let height = patch.bottom.saturating_sub(patch.top);
        for (y, to) in (patch.top..).zip(rows.skip(size(patch.top)).take(size(height))) {
            let to = to.get_mut(4 * size(patch.left)..).unwrap_or_default();
            B::write(to, self.row(y, patch.left, patch.right));
        }
    }
}

fn size(pixels: u32) -> usize {
    usize::try_from(pixels).unwrap_or(usize::MAX)
}
