//! Three soft notes, made here: each swells at once and dies away, as on a small bell.

/// Samples in a second.
const RATE: u32 = 22_050;
/// C, E and G above the middle of a piano, in hertz.
const PITCHES: [f32; 3] = [523.25, 659.25, 783.99];
/// Seconds from one note to the next.
const STEP: f32 = 0.45;
/// Seconds in all.
const LENGTH: f32 = 2.0;

/// The notes as a WAV file: one channel, 16 bits.
pub fn wav() -> Vec<u8> {
    let count = (LENGTH * RATE as f32) as u32;
    let data = count * 2;
    let mut file = Vec::new();
    file.extend(b"RIFF");
    file.extend((36 + data).to_le_bytes());
    file.extend(b"WAVEfmt ");
    file.extend(16_u32.to_le_bytes());
    // Plain samples, one channel.
    file.extend([1, 0, 1, 0]);
    file.extend(RATE.to_le_bytes());
    file.extend((RATE * 2).to_le_bytes());
    file.extend([2, 0, 16, 0]);
    file.extend(b"data");
    file.extend(data.to_le_bytes());
    for at in 0..count {
        let sample = loudness(at as f32 / RATE as f32) * f32::from(i16::MAX);
        file.extend((sample as i16).to_le_bytes());
    }
    file
}

/// All notes at this second, between -1 and 1.
fn loudness(second: f32) -> f32 {
    let notes = PITCHES.iter().enumerate().map(|(place, pitch)| {
        let since = second - place as f32 * STEP;
        if since < 0.0 {
            return 0.0;
        }
        // A hundredth of a second to swell keeps it from clicking.
        let swell = (since / 0.01).min(1.0);
        let fade = (-3.0 * since).exp();
        0.25 * swell * fade * (std::f32::consts::TAU * pitch * since).sin()
    });
    notes.sum()
}

#[cfg(test)]
mod tests {
    use super::{loudness, wav};

    #[test]
    fn the_file_says_how_long_it_is_and_is_never_too_loud() {
        let file = wav();
        // Two seconds of 22,050 samples of two bytes, after a head of 44.
        assert_eq!(file.len(), 44 + 88_200);
        assert_eq!(file[40..44], 88_200_u32.to_le_bytes());
        assert_eq!(file[4..8], 88_236_u32.to_le_bytes());
        let loudest = (0..44_100).map(|at| loudness(at as f32 / 22_050.0).abs());
        let loudest = loudest.fold(0.0, f32::max);
        assert!(loudest > 0.1 && loudest < 0.8, "{loudest}");
    }
}
