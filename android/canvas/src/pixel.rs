//! One pixel as the surface wants it: its bytes are copied as they are.

use std::mem::MaybeUninit;

use slint::platform::software_renderer::{PremultipliedRgbaColor, TargetPixel};

/// Red, green, blue and alpha, the first three multiplied by the last.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[repr(transparent)]
pub struct Pixel([u8; 4]);

impl TargetPixel for Pixel {
    /// What is drawn is mostly all there or not there at all, around letters and in pictures; both take no arithmetic.
    #[inline]
    fn blend(&mut self, color: PremultipliedRgbaColor) {
        let over = [color.red, color.green, color.blue, color.alpha];
        match color.alpha {
            u8::MAX => self.0 = over,
            0 if over == [0; 4] => {}
            alpha => {
                let left = u16::from(u8::MAX - alpha);
                for (under, over) in self.0.iter_mut().zip(over) {
                    let kept = u16::from(*under) * left / 255;
                    *under = u8::try_from(kept).unwrap_or(u8::MAX).saturating_add(over);
                }
            }
        }
    }

    #[inline]
    fn from_rgb(red: u8, green: u8, blue: u8) -> Pixel {
        Pixel([red, green, blue, u8::MAX])
    }

    fn background() -> Pixel {
        Pixel::default()
    }
}

/// A byte of a buffer, which the system may not have written yet.
pub trait Byte: Sized {
    /// Writes pixels as red, green, blue, alpha.
    fn write(to: &mut [Self], from: &[Pixel]);
}

impl Byte for u8 {
    fn write(to: &mut [u8], from: &[Pixel]) {
        let (to, _) = to.as_chunks_mut::<4>();
        for (to, from) in to.iter_mut().zip(from) {
            *to = from.0;
        }
    }
}

impl Byte for MaybeUninit<u8> {
    fn write(to: &mut [MaybeUninit<u8>], from: &[Pixel]) {
        let (to, _) = to.as_chunks_mut::<4>();
        for (to, from) in to.iter_mut().zip(from) {
            *to = from.0.map(MaybeUninit::new);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Slint's own pixel, blended by Slint, for every alpha over bright, dark and mixed ones.
    #[test]
    fn it_blends_as_slint_blends_its_own() {
        for alpha in 0..=u8::MAX {
            for share in [0, 1, 100, 254, 255_u16] {
                let part = |most: u16| {
                    let value = most * u16::from(alpha) / 255;
                    u8::try_from(value).unwrap_or(u8::MAX)
                };
                let color = PremultipliedRgbaColor {
                    red: part(share),
                    green: part(255 - share),
                    blue: part(share / 2),
                    alpha,
                };
                for [red, green, blue] in [[0, 0, 0], [255, 255, 255], [251, 128, 3]] {
                    let mut theirs = PremultipliedRgbaColor::from_rgb(red, green, blue);
                    theirs.blend(color);
                    let mut ours = Pixel::from_rgb(red, green, blue);
                    ours.blend(color);
                    let theirs = [theirs.red, theirs.green, theirs.blue, theirs.alpha];
                    assert_eq!(ours.0, theirs, "{color:?} over {red} {green} {blue}");
                }
            }
        }
    }

    #[test]
    fn bytes_are_red_green_blue_and_alpha() {
        let pixels = [Pixel::from_rgb(1, 2, 3), Pixel::default()];
        let mut bytes = [9; 9];
        u8::write(&mut bytes, &pixels);
        assert_eq!(bytes, [1, 2, 3, 255, 0, 0, 0, 0, 9]);
    }
}
