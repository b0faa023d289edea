//! Codes on bent or blurred paper: the grid of modules is laid over the gray picture, not over a black and white one.
//!
//! The corners of the three finder patterns give a first perspective; alignment patterns are searched for one after the other, the nearest first, each bending the grid a little more.
//! Each module then is a mean of many pixels, and the modules that are the same in every code teach how to undo the blur.
//! A wrong grid does no harm: Reed and Solomon's check refuses what it gives.

mod known;
mod sample;
mod warp;

use rxing::common::BitMatrix;
use rxing::common::cpp_essentials::{
    ConcentricPattern, DecoderResult, FindConcentricPatternCorners,
};
use rxing::qrcode::common::{Version, VersionRef};
use rxing::qrcode::cpp_port::decoder::Decode;
use rxing::qrcode::cpp_port::detector::FinderPatternSet;

use super::frame::Frame;
use known::{alignment_is_dark, alignments, known};
use sample::{Grays, gray};
use warp::{Spot, Tie, Warp};

/// How like its picture an alignment pattern must be; 1 is the same.
const LEAST_LIKENESS: f64 = 0.6;
/// Largest number of modules that any code has to a side.
const MOST_MODULES: f64 = 177.0;

/// Three finder patterns and the picture they were found in.
pub(super) struct Place<'a> {
    pub frame: &'a Frame,
    pub dark: &'a BitMatrix,
    pub inverted: bool,
}

impl Place<'_> {
    /// What the code with these finder patterns says.
    pub fn read(&self, set: &FinderPatternSet) -> Option<DecoderResult<bool>> {
        let finders = Finders::of(self.dark, set)?;
        finders
            .versions(self.dark)
            .into_iter()
            .find_map(|version| self.read_as(&finders, version))
    }

    fn read_as(&self, finders: &Finders, version: VersionRef) -> Option<DecoderResult<bool>> {
        let modules = usize::try_from(version.getDimensionForVersion()).ok()?;
        let centres = version.getAlignmentPatternCenters();
        let warp = self.bent(finders.ties(modules), centres, modules)?;
        let grays = Grays::of(self.frame, &warp, modules, self.inverted);
        let known = known(centres, modules);
        let looks: [&dyn Fn() -> Option<BitMatrix>; 3] =
            [&|| grays.plain(), &|| grays.learned::<10>(&known), &|| {
                grays.learned::<26>(&known)
            }];
        looks
            .into_iter()
            .filter_map(|look| Decode(&look()?).ok())
            .find(|found| found.isValid())
    }

    /// The grid through all alignment patterns that are found.
    fn bent(&self, mut ties: Vec<Tie>, centres: &[u32], modules: usize) -> Option<Warp> {
        let mut warp = Warp::fit(&ties, modules)?;
        let mut open = alignments(centres, modules);
        while !open.is_empty() {
            let distance = |(u, v): &(usize, usize)| {
                let (u, v) = (*u as f64 + 0.5, *v as f64 + 0.5);
                let away = ties.iter().map(|tie| (tie.u - u).hypot(tie.v - v));
                away.fold(f64::MAX, f64::min)
            };
            let nearest = (0..open.len())
                .min_by(|a, b| distance(&open[*a]).total_cmp(&distance(&open[*b])))?;
            let reach = (1.0 + distance(&open[nearest]) / 10.0).min(4.0);
            let (u, v) = open.swap_remove(nearest);
            let (u, v) = (u as f64 + 0.5, v as f64 + 0.5);
            if let Some(spot) = self.alignment(&warp, u, v, reach) {
                ties.push(Tie {
                    u,
                    v,
                    spot,
                    weight: 1.0,
                });
                warp = Warp::fit(&ties, modules)?;
            }
        }
        Some(warp)
    }

    /// The middle of the alignment pattern that should be at this module, looked for so many modules around.
    fn alignment(&self, warp: &Warp, u: f64, v: f64, reach: f64) -> Option<Spot> {
        let (middle, right, below) = warp.frame_at(u, v);
        let spot = |a: f64, b: f64| Spot {
            x: middle.x + a * right.x + b * below.x,
            y: middle.y + a * right.y + b * below.y,
        };
        let mut best = (f64::MIN, 0.0, 0.0);
        for (step, count) in [(0.4, (reach / 0.4).ceil() as i32), (0.1, 3)] {
            let (_, a, b) = best;
            for down in -count..=count {
                for across in -count..=count {
                    let (a, b) = (a + step * f64::from(across), b + step * f64::from(down));
                    let likeness = self.likeness(&spot, a, b);
                    if likeness > best.0 {
                        best = (likeness, a, b);
                    }
                }
            }
        }
        let found = (best.0 >= LEAST_LIKENESS).then(|| spot(best.1, best.2))?;
        let inside = found.x >= 0.0
            && found.y >= 0.0
            && found.x < self.frame.width() as f64
            && found.y < self.frame.height() as f64;
        inside.then_some(found)
    }

    /// How like an alignment pattern it is around here: the correlation of 25 modules.
    fn likeness(&self, spot: &impl Fn(f64, f64) -> Spot, a: f64, b: f64) -> f64 {
        let (mut sum, mut squares, mut light) = (0.0, 0.0, 0.0);
        for down in -2i32..=2 {
            for across in -2i32..=2 {
                let at = spot(a + f64::from(across), b + f64::from(down));
                let mut found = gray(self.frame, at.x, at.y);
                if self.inverted {
                    found = 255.0 - found;
                }
                sum += found;
                squares += found * found;
                if !alignment_is_dark(across, down) {
                    light += found;
                }
            }
        }
        // Eight of the 25 are light; so many times the deviation of the pattern itself.
        let (n, lights) = (25.0, 8.0);
        let spread = (squares - sum * sum / n).max(1.0) * (lights - lights * lights / n);
        (light - sum * lights / n) / spread.sqrt()
    }
}

/// Each finder pattern's corners, as the code has them: upper left, upper right, lower right, lower left.
struct Finders {
    corners: [[Spot; 4]; 3],
    /// Modules to a side, by distances and sizes.
    modules: f64,
}

impl Finders {
    fn of(dark: &BitMatrix, set: &FinderPatternSet) -> Option<Finders> {
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
        let fits =
            (14.0..MOST_MODULES * 1.3).contains(&modules) && (0.5..2.0).contains(&(across / along));
        fits.then_some(Finders { corners, modules })
    }

    /// The versions it may be, the likeliest first.
    fn versions(&self, dark: &BitMatrix) -> Vec<VersionRef> {
        let by_size = |version: i32| {
            u32::try_from(version)
                .ok()
                .and_then(|number| Version::getVersionForNumber(number).ok())
        };
        if self.modules > 38.0
            && let Some(version) = self.written_version(dark)
        {
            let ratio = f64::from(version.getDimensionForVersion()) / self.modules;
            if (0.6..1.7).contains(&ratio) {
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
            let places = [(0.5, 0.5), (6.5, 0.5), (6.5, 6.5), (0.5, 6.5)];
            let ties: Vec<Tie> = places
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

    fn ties(&self, modules: usize) -> Vec<Tie> {
        let far = modules as f64 - 7.0;
        let starts = [(0.0, 0.0), (far, 0.0), (0.0, far)];
        let places = [(0.5, 0.5), (6.5, 0.5), (6.5, 6.5), (0.5, 6.5)];
        let finders = self.corners.iter().zip(starts);
        finders
            .flat_map(|(corners, (left, top))| {
                corners.iter().zip(places).map(move |(spot, (u, v))| Tie {
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
