//! QR codes in a frame: black and white by two rules and in three sizes, and under each the finder patterns and two ways to lay the grid.

use rxing::common::cpp_essentials::DecoderResult;
use rxing::common::{BitMatrix, DetectorRXingResult, HybridBinarizer};
use rxing::qrcode::cpp_port::decoder::Decode;
use rxing::qrcode::cpp_port::detector::{
    FindFinderPatterns, FinderPatternSet, GenerateFinderPatternSets, SampleQR,
};
use rxing::{Binarizer, Luma8LuminanceSource};

use super::cascade::Stage;
use super::frame::Frame;
use super::{Found, Symbol, grid, prepare};

/// Sets of three finder patterns that are tried in one picture; a page of print has many that are none.
const MOST_SETS: usize = 12;
/// Sets over which a bent grid is laid.
const MOST_GRIDS: usize = 4;

/// Pixels of a frame that was made twice as large; more would take too long.
const MOST_DOUBLED: usize = 1_600_000;

/// A picture in black and white, and the finder patterns in it.
struct Look {
    dark: BitMatrix,
    inverted: bool,
    sets: Vec<FinderPatternSet>,
}

/// One frame under several stages, which share what they have found out.
pub(super) struct Codes<'a> {
    frame: &'a Frame,
    plain: Option<[Look; 2]>,
}

impl<'a> Codes<'a> {
    pub fn of(frame: &'a Frame) -> Codes<'a> {
        Codes { frame, plain: None }
    }

    pub fn frame(&self) -> &'a Frame {
        self.frame
    }

    /// Every code that the plain look reads, each once.
    pub fn all(&mut self) -> Vec<Found> {
        let mut all: Vec<Found> = Vec::new();
        for found in self.looks().into_iter().flatten().flat_map(Look::all_flat) {
            if !all.contains(&found) {
                all.push(found);
            }
        }
        all
    }

    /// What this stage reads; nothing for a stage that is none of ours.
    pub fn read(&mut self, stage: Stage) -> Option<Found> {
        match stage {
            Stage::Plain => self.looks()?.iter().find_map(Look::flat),
            Stage::Grid => {
                let frame = self.frame;
                self.looks()?.iter().find_map(|look| look.bent(frame))
            }
            Stage::Third => by_mean(&self.frame.smaller(3)?),
            Stage::Half => by_mean(&self.frame.smaller(2)?),
            Stage::Local => by_mean(self.frame),
            Stage::Double => {
                let large = self.frame.doubled(MOST_DOUBLED)?;
                let looks = Look::both(hybrid(&large)?);
                let flat = looks.iter().find_map(Look::flat);
                flat.or_else(|| looks.iter().find_map(|look| look.bent(&large)))
            }
            Stage::Stretched | Stage::Smoothed | Stage::Sizes => None,
        }
    }

    fn looks(&mut self) -> Option<&[Look; 2]> {
        if self.plain.is_none() {
            self.plain = Some(Look::both(hybrid(self.frame)?));
        }
        self.plain.as_ref()
    }
}

impl Look {
    /// Dark on light, and light on dark.
    fn both(dark: BitMatrix) -> [Look; 2] {
        let mut light = dark.clone();
        light.flip_self();
        [Look::of(dark, false), Look::of(light, true)]
    }

    fn of(dark: BitMatrix, inverted: bool) -> Look {
        let mut patterns = FindFinderPatterns(&dark, true, 0);
        let mut sets = GenerateFinderPatternSets(&mut patterns);
        sets.truncate(MOST_SETS);
        Look {
            dark,
            inverted,
            sets,
        }
    }

    /// By flat pieces between the alignment patterns, from black and white.
    fn flat(&self) -> Option<Found> {
        self.all_flat().next()
    }

    fn all_flat(&self) -> impl Iterator<Item = Found> + '_ {
        let sampled = self.sets.iter().map(|set| SampleQR(&self.dark, set));
        sampled
            .filter_map(|sampled| Decode(sampled.ok()?.getBits()).ok())
            .filter(DecoderResult::isValid)
            .map(|read| found(&read))
    }

    /// By one bent grid, from the grays.
    fn bent(&self, frame: &Frame) -> Option<Found> {
        let place = grid::Place {
            frame,
            dark: &self.dark,
            inverted: self.inverted,
        };
        let mut sets = self.sets.iter().take(MOST_GRIDS);
        sets.find_map(|set| place.read(set))
            .map(|read| found(&read))
    }
}

/// Smoothed, and dark where it is darker than around.
fn by_mean(frame: &Frame) -> Option<Found> {
    let looks = Look::both(prepare::darker(&prepare::smoothed(frame))?);
    let flat = looks.iter().find_map(Look::flat);
    flat.or_else(|| looks.iter().find_map(|look| look.bent(frame)))
}

/// Dark by the rule of the decoder that we use.
fn hybrid(frame: &Frame) -> Option<BitMatrix> {
    let width = u32::try_from(frame.width()).ok()?;
    let height = u32::try_from(frame.height()).ok()?;
    let source = Luma8LuminanceSource::new(frame.pixels().to_vec(), width, height).ok()?;
    let binarizer = HybridBinarizer::new(source);
    binarizer.get_black_matrix().ok().cloned()
}

fn found(read: &DecoderResult<bool>) -> Found {
    let identifier = read.symbologyIdentifier();
    Found {
        text: read.text(),
        symbol: Symbol::Qr,
        gs1: matches!(identifier.trim_start_matches(']'), "Q3" | "Q4"),
    }
}
