//! A camera that never was: it holds a code at a slant, in bad light, out of focus.

use hearthdose_ui::scan::{Frame, drawn};

const WIDTH: usize = 960;
const HEIGHT: usize = 720;

/// What is wrong with a picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shot {
    Clean,
    Slant,
    Blur,
    Noise,
    Weak,
    Inverted,
    Shadow,
    Small,
    Mixed,
    Empty,
}

impl Shot {
    pub const ALL: [Shot; 10] = [
        Shot::Clean,
        Shot::Slant,
        Shot::Blur,
        Shot::Noise,
        Shot::Weak,
        Shot::Inverted,
        Shot::Shadow,
        Shot::Small,
        Shot::Mixed,
        Shot::Empty,
    ];
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

    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * (self.next() % 1_000_000) as f64 / 1_000_000.0
    }

    /// About normal, mean 0, deviation 1.
    fn normal(&mut self) -> f64 {
        (0..6).map(|_| self.between(-1.0, 1.0)).sum::<f64>() / 2.0_f64.sqrt()
    }
}

/// How one picture is taken.
struct Setting {
    /// Side of the code with its quiet zone, as a part of the picture's height.
    size: f64,
    turn: f64,
    /// How much further away one side is.
    slant: (f64, f64),
    blur: f64,
    noise: f64,
    dark: f64,
    light: f64,
    shadow: f64,
}

pub struct Camera {
    dice: Dice,
}

impl Camera {
    pub fn new(seed: u64) -> Camera {
        Camera {
            dice: Dice::new(seed + 20_261_125),
        }
    }

    /// A picture of the code of `text`.
    pub fn take(&mut self, text: &str, shot: Shot) -> Frame {
        let setting = self.setting(shot);
        let code = drawn(text, 1, 1).expect("a text that fits one code");
        let mut picture = self.seen(&code, &setting, shot == Shot::Empty);
        blur(&mut picture, setting.blur);
        let pixels = picture.iter().enumerate().map(|(at, brightness)| {
            let across = (at % WIDTH) as f64 / WIDTH as f64;
            let lit = 1.0 - setting.shadow * across;
            let gray = (setting.dark + (setting.light - setting.dark) * brightness) * lit;
            (gray + setting.noise * self.dice.normal()).clamp(0.0, 255.0) as u8
        });
        Frame::new(WIDTH, HEIGHT, pixels.collect()).expect("a frame of this size")
    }

    fn setting(&mut self, shot: Shot) -> Setting {
        let dice = &mut self.dice;
        let mut setting = Setting {
            size: dice.between(0.6, 0.9),
            turn: dice.between(-0.1, 0.1),
            slant: (dice.between(-0.05, 0.05), dice.between(-0.05, 0.05)),
            blur: 0.6,
            noise: 2.0,
            dark: 40.0,
            light: 220.0,
            shadow: 0.0,
        };
        let mut slant = |setting: &mut Setting, most: f64| {
            setting.slant = (dice.between(-most, most), dice.between(-most, most));
            setting.turn = dice.between(-3.1, 3.1);
        };
        match shot {
            Shot::Clean | Shot::Empty => {}
            Shot::Slant => slant(&mut setting, 0.35),
            Shot::Blur => setting.blur = dice.between(1.6, 3.2),
            Shot::Noise => setting.noise = dice.between(30.0, 60.0),
            Shot::Weak => {
                setting.dark = dice.between(90.0, 140.0);
                setting.light = setting.dark + dice.between(8.0, 22.0);
            }
            Shot::Inverted => (setting.dark, setting.light) = (220.0, 40.0),
            Shot::Shadow => setting.shadow = dice.between(0.7, 0.93),
            Shot::Small => setting.size = dice.between(0.2, 0.3),
            Shot::Mixed => {
                slant(&mut setting, 0.2);
                setting.size *= 0.8;
                setting.blur = dice.between(0.8, 1.6);
                setting.noise = dice.between(5.0, 20.0);
                setting.light = dice.between(110.0, 180.0);
                setting.shadow = dice.between(0.2, 0.6);
            }
        }
        setting
    }

    /// Brightness 0 to 1 of each pixel: where its ray meets the paper.
    fn seen(&mut self, code: &Frame, setting: &Setting, empty: bool) -> Vec<f64> {
        let side = HEIGHT as f64 * setting.size;
        let (sin, cos) = setting.turn.sin_cos();
        let across = code.width() as f64;
        let centre = (WIDTH as f64 / 2.0, HEIGHT as f64 / 2.0);
        let paper = |x: f64, y: f64| {
            let (dx, dy) = ((x - centre.0) / side, (y - centre.1) / side);
            let further = 1.0 + setting.slant.0 * dx + setting.slant.1 * dy;
            let (dx, dy) = (dx / further, dy / further);
            let (u, v) = (cos * dx + sin * dy + 0.5, cos * dy - sin * dx + 0.5);
            if !(0.0..1.0).contains(&u) || !(0.0..1.0).contains(&v) || empty {
                // A table with a grain.
                return 0.55 + 0.1 * (x / 9.0).sin() * (y / 31.0).cos();
            }
            let at = (v * across) as usize * code.width() + (u * across) as usize;
            f64::from(code.pixels()[at]) / 255.0
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
