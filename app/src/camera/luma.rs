//! The grays of a camera's bytes.

use hearthdose_ui::scan::Frame;

/// Out of YUYV, in which every second byte is a gray; lines may end in bytes that say nothing.
///
/// None where the bytes are fewer than the lines need, as in a frame that was cut short.
pub fn of_yuyv(bytes: &[u8], width: usize, height: usize, line: usize) -> Option<Frame> {
    let used = width.checked_mul(2)?;
    let line = line.max(used);
    let mut pixels = Vec::with_capacity(width.checked_mul(height)?);
    for row in bytes.chunks(line.max(1)).take(height) {
        pixels.extend(row.get(..used)?.iter().step_by(2));
    }
    Frame::new(width, height, pixels)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_second_byte_is_a_gray() {
        let bytes = [10, 1, 20, 2, 0, 0, 30, 3, 40, 4, 0, 0];
        let frame = of_yuyv(&bytes, 2, 2, 6).unwrap();
        assert_eq!(frame.pixels(), [10, 20, 30, 40]);
        // The last line may lack its padding, and a driver may not say how long lines are.
        assert_eq!(of_yuyv(&bytes[..10], 2, 2, 6), Some(frame));
        assert_eq!(of_yuyv(&[5, 0, 6, 0], 2, 1, 0).unwrap().pixels(), [5, 6]);
    }

    #[test]
    fn a_frame_cut_short_is_none() {
        let bytes = [9; 16];
        assert!(of_yuyv(&bytes, 4, 2, 8).is_some());
        for short in 0..16 {
            assert_eq!(of_yuyv(&bytes[..short], 4, 2, 8), None, "{short}");
        }
        assert_eq!(of_yuyv(&bytes, usize::MAX, 2, 8), None);
        assert_eq!(of_yuyv(&bytes, 0, 2, 8), None);
    }
}
