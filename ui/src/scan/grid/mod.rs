//! Codes on bent or blurred paper: the grid of modules is laid over the gray picture, not over a black and white one.
//!
//! The corners of the three finder patterns give a first perspective; alignment patterns are searched for one after the other, the nearest first, each bending the grid a little more.
//! Each module then is a mean of many pixels, and the modules that are the same in every code teach how to undo the blur.
//! A wrong grid does no harm: Reed and Solomon's check refuses what it gives.

mod finders;
mod known;
mod sample;
mod warp;

use rxing::common::BitMatrix;
use rxing::common::cpp_essentials::DecoderResult;
use rxing::qrcode::common::VersionRef;
use rxing::qrcode::cpp_port::decoder::Decode;
use rxing::qrcode::cpp_port::detector::FinderPatternSet;

use super::frame::Frame;
use finders::Finders;
use known::{alignment_is_dark, alignments, known};
use sample::{Grays, gray};
use warp::{Spot, Tie, Warp};

/// How like its picture an alignment pattern must be; 1 is the same.
const LEAST_LIKENESS: f64 = 0.6;

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
