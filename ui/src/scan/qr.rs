//! QR codes in a frame: black and white by several rules, and under each the finder patterns and two ways to lay the grid.

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

/// Sets of three finder patterns that are tried in one picture; pages of print have thousands that are none.
const MOST_SETS: usize = 12;
/// Sets over which a bent grid is laid.
const MOST_GRIDS: usize = 4;

/// A picture in black and white, with the gray one it was made of.
struct Look {
    dark: BitMatrix,
    inverted: bool,
    sets: Vec<FinderPatternSet>,
}

impl Look {
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

    fn plain(&self) -> Option<Found> {
        let sampled = self
            .sets
            .iter()
            .filter_map(|set| SampleQR(&self.dark, set).ok());
        sampled
            .filter_map(|sampled| Decode(sampled.getBits()).ok())
            .find(DecoderResult::isValid)
            .map(|read| found(&read))
    }

    fn grid(&self, frame: &Frame) -> Option<Found> {
        let place = grid::Place {
            frame,
            dark: &self.dark,
            inverted: self.inverted,
        };
        let read = self
            .sets
            .iter()
            .take(MOST_GRIDS)
            .find_map(|set| place.read(set))?;
        Some(found(&read))
    }
}

fn both(dark: BitMatrix) -> [Look; 2] {
    let mut light = dark.clone();
    light.flip_self();
    [Look::of(dark, false), Look::of(light, true)]
}

pub(super) fn scan(frame: &Frame, stages: &[Stage]) -> Option<(Found, Stage)> {
    let mut plain: Option<[Look; 2]> = None;
    let first = |plain: &mut Option<[Look; 2]>| {
        if plain.is_none() {
            *plain = hybrid(frame).map(both)
        }
    };
    for stage in stages {
        let found = match stage {
            Stage::Plain => {
                first(&mut plain);
                plain.iter().flatten().find_map(Look::plain)
            }
            Stage::Grid => {
                first(&mut plain);
                plain.iter().flatten().find_map(|look| look.grid(frame))
            }
            Stage::Local => by_mean(frame),
            Stage::Half => frame.smaller(2).and_then(|small| by_mean(&small)),
            _ => None,
        };
        if let Some(found) = found {
            return Some((found, *stage));
        }
    }
    None
}

fn by_mean(frame: &Frame) -> Option<Found> {
    let smooth = prepare::smoothed(frame);
    let looks = both(prepare::darker(&smooth)?);
    looks
        .iter()
        .find_map(Look::plain)
        .or_else(|| looks.iter().find_map(|look| look.grid(frame)))
}

fn hybrid(frame: &Frame) -> Option<BitMatrix> {
    let width = u32::try_from(frame.width()).ok()?;
    let height = u32::try_from(frame.height()).ok()?;
    let source = Luma8LuminanceSource::new(frame.pixels().to_vec(), width, height).ok()?;
    HybridBinarizer::new(source)
        .get_black_matrix()
        .ok()
        .cloned()
}

fn found(read: &DecoderResult<bool>) -> Found {
    let identifier = read.symbologyIdentifier();
    Found {
        text: read.text(),
        symbol: Symbol::Qr,
        gs1: matches!(identifier.trim_start_matches(']'), "Q3" | "Q4"),
    }
}
