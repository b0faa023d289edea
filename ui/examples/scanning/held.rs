//! The first second of a code that a hand holds before a camera.

use std::f64::consts::PI;

use hearthdose_ui::scan::{Frame, Scanner, Symbol};

use super::camera::{Camera, Setting};

/// Frames in a second.
pub const FRAMES: u32 = 30;

/// The frames of one second: the code comes nearer, the lens searches for its focus, the hand trembles.
pub fn second(text: &str, seed: u64) -> impl Iterator<Item = Frame> {
    let mut camera = Camera::new(seed);
    let dice = &mut camera.dice;
    let mut setting = Setting::usual(dice);
    setting.turn = dice.between(-0.5, 0.5);
    setting.slant = (dice.between(-0.3, 0.3), dice.between(-0.3, 0.3));
    setting.noise = dice.between(3.0, 12.0);
    setting.light = dice.between(110.0, 210.0);
    setting.shadow = dice.between(0.0, 0.6);
    let (from, to) = (dice.between(0.25, 0.5), dice.between(0.55, 0.85));
    let start = (dice.between(-0.5, 0.5), dice.between(-0.2, 0.2));
    let (spin, wave) = (dice.between(-0.3, 0.3), dice.between(0.0, 2.0 * PI));
    let (unsharp, settles) = (dice.between(2.0, 5.0), dice.between(0.3, 1.2));
    let turn = setting.turn;
    (0..FRAMES).map(move |frame| {
        let part = f64::from(frame) / f64::from(FRAMES);
        setting.size = from + (to - from) * part;
        setting.place = (start.0 * (1.0 - part), start.1 * (1.0 - part));
        setting.turn = turn + spin * part;
        // The lens swings about its focus, less and less.
        let swing = (-3.0 * part / settles).exp() * (4.0 * PI * part / settles + wave).cos().abs();
        setting.blur = 0.7 + unsharp * swing;
        let way = camera.dice.between(-PI, PI);
        setting.motion = (camera.dice.between(0.0, 9.0) * (1.2 - part), way);
        camera.shoot(text, &setting)
    })
}

/// When the code of this second is read, in seconds from its start; a frame that comes while another is being read is lost.
pub fn read(text: &str, seed: u64, scanner: &mut impl Scanner) -> Option<f64> {
    let mut free = 0.0;
    for (frame, number) in second(text, seed).zip(0u32..) {
        let came = f64::from(number) / f64::from(FRAMES);
        if came < free {
            continue;
        }
        let begun = std::time::Instant::now();
        let found = scanner.scan_all(&frame, Symbol::Qr);
        free = came + begun.elapsed().as_secs_f64();
        if found.iter().any(|found| found.text == text) {
            return Some(free);
        }
    }
    None
}
