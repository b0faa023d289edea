//! The three finder patterns of a code, and what their corners say of its size.

use rxing::common::BitMatrix;
use rxing::common::cpp_essentials::{ConcentricPattern, FindConcentricPatternCorners};
use rxing::qrcode::common::{Version, VersionRef};
use rxing::qrcode::cpp_port::detector::FinderPatternSet;

use super::warp::{Spot, Tie, Warp};

/// Largest number of modules that any code has to a side.
const MOST_MODULES: f64 = 177.0;
/// The middles of the corner modules of a finder pattern, counted from its own upper left.
const CORNERS: [(f64, f64); 4] = [(0.5, 0.5), (6.5, 0.5), (6.5, 6.5), (0.5, 6.5)];

/// Each finder pattern's corners, as the code has them: upper left, upper right, lower right, lower left.
pub(super) struct Finders {
    corners: [[Spot; 4]; 3],
    /// Modules to a side, by distances and sizes.
    modules: f64,
}

impl Finders {
    /// None when a corner is not to be found, or the three do not belong together.
    pub fn of(dark: &BitMatrix, set: &FinderPatternSet) -> Option<Finders> {
        let centre = |pattern: &ConcentricPattern| Spot {
            x: f64::from(pattern.p.x),
            y: f64::from(pattern.p.y),
        };
        let [tl, tr, bl] = [&set.tl, &set.tr, &set.bl].map(centre);
        let (right, down) = (step(tl, tr), step(tl, bl));
        let corners = |pattern: &ConcentricPattern| {
            let found = FindConcentricPatternCorners(dark, pattern.p, pattern.size, 2)?;
            let middle = centre(pattern);
            let mut ordered = [None; 4];
            for corner in found.0 {
                let spot = Spot {
                    x: f64::from(corner.x),
                    y: f64::from(corner.y),
                };
                let away = step(middle, spot);
                let (a, b) = (
                    cross(away, down) / cross(right, down),
                    cross(right, away) / cross(right, down),
                );
                let place = match (a > 0.0, b > 0.0) {
                    (false, false) => 0,
                    (true, false) => 1,
                    (true, true) => 2,
                    (false, true) => 3,
                };
                ordered[place] = Some(spot);
            }
            let [a, b, c, d] = ordered;
            Some([a?, b?, c?, d?])
        };
        let corners = [corners(&set.tl)?, corners(&set.tr)?, corners(&set.bl)?];
        // Six modules lie between the middles of a pattern's outermost ones.
        let wide = |at: usize| length(step(corners[at][0], corners[at][1])) / 6.0;
        let high = |at: usize| length(step(corners[at][0], corners[at][3])) / 6.0;
        let across = 2.0 * length(right) / (wide(0) + wide(1));
        let along = 2.0 * length(down) / (high(0) + high(2));
        let modules = (across + along) / 2.0 + 7.0;
        let fits = (14.0..MOST_MODULES * 1.3).contains(&modules)
            && (0.33..3.0).contains(&(across / along));
        fits.then_some(Finders { corners, modules })
    }

    /// The versions it may be, the likeliest first.
    pub fn versions(&self, dark: &BitMatrix) -> Vec<VersionRef> {
        let by_size = |version: i32| {
            u32::try_from(version)
                .ok()
                .and_then(|number| Version::getVersionForNumber(number).ok())
        };
        if self.modules > 38.0
            && let Some(version) = self.written_version(dark)
        {
            let ratio = f64::from(version.getDimensionForVersion()) / self.modules;
            if (0.5..2.0).contains(&ratio) {
                return vec![version];
            }
        }
        let estimate = (self.modules - 17.0) / 4.0;
        let nearest = estimate.round() as i32;
        let other = if estimate > f64::from(nearest) { 1 } else { -1 };
        [nearest, nearest + other, nearest - other]
            .into_iter()
            .filter(|version| (1..=40).contains(version))
            .filter_map(by_size)
            .collect()
    }

    /// The version as it is written beside the finder patterns (from version 7 on), read in the frame of each.
    fn written_version(&self, dark: &BitMatrix) -> Option<VersionRef> {
        let bits = |corners: &[Spot; 4], across: bool| {
            let ties: Vec<Tie> = CORNERS
                .iter()
                .zip(corners)
                .map(|((u, v), spot)| Tie {
                    u: *u,
                    v: *v,
                    spot: *spot,
                    weight: 1.0,
                })
                .collect();
            let warp = Warp::fit(&ties, 7)?;
            let mut bits = 0i32;
            for along in (0..6).rev() {
                for off in (-4..=-2).rev() {
                    let (off, along) = (f64::from(off) + 0.5, f64::from(along) + 0.5);
                    let spot = if across {
                        warp.at(off, along)
                    } else {
                        warp.at(along, off)
                    };
                    let point = rxing::Point {
                        x: spot.x as f32,
                        y: spot.y as f32,
                    };
                    bits = bits << 1 | i32::from(dark.is_in(point) && dark.get_point(point));
                }
            }
            Some(bits)
        };
        let (right, below) = (
            bits(&self.corners[1], true)?,
            bits(&self.corners[2], false)?,
        );
        Version::DecodeVersionInformation(right, below).ok()
    }

    /// The twelve corners, in a code of so many modules.
    pub fn ties(&self, modules: usize) -> Vec<Tie> {
        let far = modules as f64 - 7.0;
        let starts = [(0.0, 0.0), (far, 0.0), (0.0, far)];
        let finders = self.corners.iter().zip(starts);
        finders
            .flat_map(|(corners, (left, top))| {
                corners.iter().zip(CORNERS).map(move |(spot, (u, v))| Tie {
                    u: left + u,
                    v: top + v,
                    spot: *spot,
                    weight: 1.0,
                })
            })
            .collect()
    }
}

fn step(from: Spot, to: Spot) -> Spot {
    Spot {
        x: to.x - from.x,
        y: to.y - from.y,
    }
}

fn cross(a: Spot, b: Spot) -> f64 {
    a.x * b.y - a.y * b.x
}

fn length(step: Spot) -> f64 {
    step.x.hypot(step.y)
}
