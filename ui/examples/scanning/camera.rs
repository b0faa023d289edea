//! A camera that never was: it holds a code at a slant, in bad light, out of focus.

use std::f64::consts::PI;

use hearthdose_ui::scan::{Frame, drawn};

const WIDTH: usize = 1280;
const HEIGHT: usize = 720;

/// What is wrong with a picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shot {
    Clean,
    Slant,
    /// One side twice to three times as far as the other.
    Steep,
    Blur,
    /// The hand moved while it was taken.
    Motion,
    Noise,
    Weak,
    Inverted,
    Shadow,
    Small,
    /// Around a can.
    Curved,
    /// From a screen, whose own dots are seen.
    Screen,
    /// Held by its edge.
    Finger,
    Mixed,
    Empty,
}

impl Shot {
    pub const ALL: [Shot; 15] = [
        Shot::Clean,
        Shot::Slant,
        Shot::Steep,
        Shot::Blur,
        Shot::Motion,
        Shot::Noise,
        Shot::Weak,
        Shot::Inverted,
        Shot::Shadow,
        Shot::Small,
        Shot::Curved,
        Shot::Screen,
        Shot::Finger,
        Shot::Mixed,
        Shot::Empty,
    ];

    pub fn name(self) -> String {
        format!("{self:?}").to_lowercase()
    }
}

/// Numbers that look random and are the same in every run (xorshift64*).
pub struct Dice(u64);

impl Dice {
    pub fn new(seed: u64) -> Dice {
        Dice(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) | 1)
    }

    fn next(&mut self) -> u64 {
        self.0 ^= self.0 >> 12;
        self.0 ^= self.0 << 25;
        self.0 ^= self.0 >> 27;
        self.0.wrapping_mul(0x2545_f491_4f6c_dd1d) >> 16
    }

    pub fn below(&mut self, end: usize) -> usize {
        usize::try_from(self.next()).unwrap_or(0) % end
    }

    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * (self.next() % 1_000_000) as f64 / 1_000_000.0
    }

    /// About normal, mean 0, deviation 1.
    fn normal(&mut self) -> f64 {
        (0..6).map(|_| self.between(-1.0, 1.0)).sum::<f64>() / 2.0_f64.sqrt()
    }
}

/// How one picture is taken.
#[derive(Clone, Debug)]
pub struct Setting {
    /// Side of the code with its quiet zone, as a part of the picture's height.
    pub size: f64,
    /// Where its middle is, away from the picture's, in parts of its height.
    pub place: (f64, f64),
    pub turn: f64,
    /// How much further away one side is.
    pub slant: (f64, f64),
    pub blur: f64,
    /// How far the picture moved, in pixels, and in what direction.
    pub motion: (f64, f64),
    pub noise: f64,
    pub dark: f64,
    pub light: f64,
    pub shadow: f64,
    /// Sides of the code that would go once around a can's half; 0 is flat.
    pub bend: f64,
    /// Width of a screen's dots in pixels; 0 is paper.
    pub dots: f64,
    /// Middle and radius of a finger, in sides of the code.
    pub finger: Option<(f64, f64, f64)>,
    pub empty: bool,
}

impl Setting {
    pub fn usual(dice: &mut Dice) -> Setting {
        Setting {
            size: dice.between(0.6, 0.9),
            place: (0.0, 0.0),
            turn: dice.between(-0.1, 0.1),
            slant: (dice.between(-0.05, 0.05), dice.between(-0.05, 0.05)),
            blur: 0.6,
            motion: (0.0, 0.0),
            noise: 2.0,
            dark: 40.0,
            light: 220.0,
            shadow: 0.0,
            bend: 0.0,
            dots: 0.0,
            finger: None,
            empty: false,
        }
    }

    fn of(shot: Shot, dice: &mut Dice) -> Setting {
        let mut setting = Setting::usual(dice);
        let slant = |setting: &mut Setting, dice: &mut Dice, most: f64| {
            setting.slant = (dice.between(-most, most), dice.between(-most, most));
            setting.turn = dice.between(-PI, PI);
        };
        match shot {
            Shot::Clean => {}
            Shot::Empty => setting.empty = true,
            Shot::Slant => slant(&mut setting, dice, 0.35),
            Shot::Steep => {
                let (much, way) = (dice.between(0.67, 1.0), dice.between(-PI, PI));
                setting.slant = (much * way.cos(), much * way.sin());
                setting.turn = dice.between(-PI, PI);
            }
            Shot::Blur => setting.blur = dice.between(1.6, 3.2),
            Shot::Motion => setting.motion = (dice.between(4.0, 11.0), dice.between(-PI, PI)),
            Shot::Noise => setting.noise = dice.between(30.0, 60.0),
            Shot::Weak => {
                setting.dark = dice.between(90.0, 140.0);
                setting.light = setting.dark + dice.between(8.0, 22.0);
            }
            Shot::Inverted => (setting.dark, setting.light) = (220.0, 40.0),
            Shot::Shadow => setting.shadow = dice.between(0.7, 0.93),
            Shot::Small => setting.size = dice.between(0.2, 0.3),
            Shot::Curved => setting.bend = dice.between(0.3, 0.75),
            Shot::Screen => {
                setting.dots = dice.between(1.6, 4.0);
                setting.turn = dice.between(-0.4, 0.4);
            }
            Shot::Finger => {
                // Never over a finder pattern: nobody reads that.
                let along = dice.between(0.4, 0.95);
                let radius = dice.between(0.06, 0.16);
                let right = dice.below(2) == 0;
                let (x, y) = if right { (0.95, along) } else { (along, 0.95) };
                setting.finger = Some((x, y, radius));
            }
            Shot::Mixed => {
                slant(&mut setting, dice, 0.2);
                setting.size *= 0.8;
                setting.blur = dice.between(0.8, 1.6);
                setting.noise = dice.between(5.0, 20.0);
                setting.light = dice.between(110.0, 180.0);
                setting.shadow = dice.between(0.2, 0.6);
            }
        }
        setting
    }
}

pub struct Camera {
    pub dice: Dice,
}

impl Camera {
    pub fn new(seed: u64) -> Camera {
        Camera {
            dice: Dice::new(seed + 20_261_125),
        }
    }

    /// A picture of the code of `text` with this fault.
    pub fn take(&mut self, text: &str, shot: Shot) -> Frame {
        let setting = Setting::of(shot, &mut self.dice);
        self.shoot(text, &setting)
    }

    /// A picture of the code of `text`, taken so.
    pub fn shoot(&mut self, text: &str, setting: &Setting) -> Frame {
        let code = drawn(text, 1, 1).expect("a text that fits one code");
        let mut picture = seen(&code, setting);
        moved(&mut picture, setting.motion);
        blur(&mut picture, setting.blur);
        let pixels = picture.iter().enumerate().map(|(at, brightness)| {
            let across = (at % WIDTH) as f64 / WIDTH as f64;
            let lit = 1.0 - setting.shadow * across;
            let gray = (setting.dark + (setting.light - setting.dark) * brightness) * lit;
            (gray + setting.noise * self.dice.normal()).clamp(0.0, 255.0) as u8
        });
        Frame::new(WIDTH, HEIGHT, pixels.collect()).expect("a frame of this size")
    }
}

/// Brightness 0 to 1 of each pixel: where its ray meets the paper.
fn seen(code: &Frame, setting: &Setting) -> Vec<f64> {
    let side = HEIGHT as f64 * setting.size;
    let (sin, cos) = setting.turn.sin_cos();
    let across = code.width() as f64;
    let middle = |whole: usize, off: f64| whole as f64 / 2.0 + off * HEIGHT as f64;
    let centre = (
        middle(WIDTH, setting.place.0),
        middle(HEIGHT, setting.place.1),
    );
    let paper = |x: f64, y: f64| {
        // A table with a grain.
        let table = 0.55 + 0.1 * (x / 9.0).sin() * (y / 31.0).cos();
        if setting.empty {
            return table;
        }
        let (dx, dy) = ((x - centre.0) / side, (y - centre.1) / side);
        let further = 1.0 + setting.slant.0 * dx + setting.slant.1 * dy;
        let (dx, dy) = (dx / further, dy / further);
        let (mut u, mut v) = (cos * dx + sin * dy, cos * dy - sin * dx);
        if setting.bend > 0.0 {
            // The can stands upright on the code, seen a little from above.
            let radius = 1.0 / (PI * setting.bend);
            let out = u / radius;
            if out.abs() >= 1.0 {
                return table;
            }
            let turn = out.asin();
            (u, v) = (radius * turn, v - 0.25 * radius * (1.0 - turn.cos()));
        }
        let (u, v) = (u + 0.5, v + 0.5);
        if further <= 0.1 || !(0.0..1.0).contains(&u) || !(0.0..1.0).contains(&v) {
            return table;
        }
        if let Some((x, y, radius)) = setting.finger
            && (u - x).hypot(v - y) < radius
        {
            return 0.6;
        }
        let at = (v * across) as usize * code.width() + (u * across) as usize;
        let gray = f64::from(code.pixels()[at]) / 255.0;
        if setting.dots > 0.0 {
            let wave = |at: f64| (2.0 * PI * at * side / setting.dots).sin();
            return gray * (0.65 + 0.35 * wave(u) * wave(v)) + 0.1;
        }
        gray
    };
    let mut picture = Vec::with_capacity(WIDTH * HEIGHT);
    for y in 0..HEIGHT {
        for x in 0..WIDTH {
            let mut sum = 0.0;
            for part in 0..9 {
                let (right, down) = ((part % 3) as f64 / 3.0, (part / 3) as f64 / 3.0);
                sum += paper(x as f64 + right, y as f64 + down);
            }
            picture.push(sum / 9.0);
        }
    }
    picture
}

/// The mean along a line of this length in pixels and this direction.
fn moved(picture: &mut [f64], (length, way): (f64, f64)) {
    let steps = length.round() as i64;
    if steps < 2 {
        return;
    }
    let source = picture.to_vec();
    for (at, pixel) in picture.iter_mut().enumerate() {
        let (x, y) = ((at % WIDTH) as i64, (at / WIDTH) as i64);
        let mut sum = 0.0;
        for step in 0..steps {
            let far = step as f64 - length / 2.0;
            let x = (x + (far * way.cos()).round() as i64).clamp(0, WIDTH as i64 - 1);
            let y = (y + (far * way.sin()).round() as i64).clamp(0, HEIGHT as i64 - 1);
            sum += source[y as usize * WIDTH + x as usize];
        }
        *pixel = sum / steps as f64;
    }
}

/// A Gaussian of this deviation in pixels, along rows and then along columns.
fn blur(picture: &mut [f64], deviation: f64) {
    let reach = (deviation * 3.0).ceil() as i64;
    let weights: Vec<f64> = (-reach..=reach)
        .map(|at| (-(at as f64).powi(2) / (2.0 * deviation * deviation)).exp())
        .collect();
    let total: f64 = weights.iter().sum();
    for (step, end) in [(1, WIDTH), (WIDTH, HEIGHT)] {
        let source = picture.to_vec();
        for (at, pixel) in picture.iter_mut().enumerate() {
            let place = (at / step % end) as i64;
            let mut sum = 0.0;
            for (weight, off) in weights.iter().zip(-reach..) {
                let other = (place + off).clamp(0, end as i64 - 1) - place;
                sum += weight * source[(at as i64 + other * step as i64) as usize];
            }
            *pixel = sum / total;
        }
    }
}
