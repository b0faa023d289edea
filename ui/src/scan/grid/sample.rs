//! From a warp to bits: the gray of every module, and what the known modules teach about the others.
//!
//! A lens or a hand that blurs mixes each module with those around it, all over the code alike.
//! How much of each neighbour to take away again is learned from the modules whose colour is known.

use rxing::common::BitMatrix;

use super::warp::{Sums, Warp};
use crate::scan::frame::Frame;

/// Modules around the code that are looked at too; they are light.
const AROUND: usize = 2;
/// Modules to each side of one by which it is told light from dark.
const REACH: usize = 4;

/// The grays of all modules and those around, each against its surroundings: about −1 dark, about 1 light.
pub(super) struct Grays {
    modules: usize,
    side: usize,
    values: Vec<f64>,
}

impl Grays {
    pub fn of(frame: &Frame, warp: &Warp, modules: usize, inverted: bool) -> Grays {
        let side = modules + 2 * AROUND;
        let mut raw = Vec::with_capacity(side * side);
        for row in 0..side {
            for column in 0..side {
                let middle = |at: usize| at as f64 - AROUND as f64 + 0.5;
                raw.push(module(frame, warp, middle(column), middle(row)));
            }
        }
        if inverted {
            raw.iter_mut().for_each(|gray| *gray = 255.0 - *gray);
        }
        let values = against_surroundings(&raw, side);
        Grays {
            modules,
            side,
            values,
        }
    }

    fn value(&self, u: usize, v: usize, across: isize, down: isize) -> f64 {
        let place =
            |at: usize, off: isize| (at + AROUND).saturating_add_signed(off).min(self.side - 1);
        self.values[place(v, down) * self.side + place(u, across)]
    }

    /// Dark where it is darker than around.
    pub fn plain(&self) -> Option<BitMatrix> {
        self.bits(|u, v| self.value(u, v, 0, 0))
    }

    /// As the `N` nearest modules say, weighed as the known ones teach.
    pub fn learned<const N: usize>(&self, known: &[(usize, usize, bool)]) -> Option<BitMatrix> {
        let mut sums = Sums::<N>::new();
        for (u, v, dark) in known {
            let wanted = if *dark { -1.0 } else { 1.0 };
            sums.add(&self.around(*u, *v), wanted, 1.0);
        }
        for place in 0..N {
            sums.hold(place, known.len() as f64 / 100.0);
        }
        let weights = sums.solve()?;
        self.bits(|u, v| {
            let around = self.around::<N>(u, v);
            around
                .iter()
                .zip(weights)
                .map(|(gray, weight)| gray * weight)
                .sum()
        })
    }

    /// A constant, then the modules in a square around this one.
    fn around<const N: usize>(&self, u: usize, v: usize) -> [f64; N] {
        let reach: isize = if N > 10 { 2 } else { 1 };
        let mut found = [1.0; N];
        let places =
            (-reach..=reach).flat_map(|down| (-reach..=reach).map(move |across| (across, down)));
        for (gray, (across, down)) in found.iter_mut().skip(1).zip(places) {
            *gray = self.value(u, v, across, down);
        }
        found
    }

    fn bits(&self, light: impl Fn(usize, usize) -> f64) -> Option<BitMatrix> {
        let side = u32::try_from(self.modules).ok()?;
        let mut bits = BitMatrix::new(side, side).ok()?;
        for (row, v) in (0..self.modules).zip(0u32..) {
            for (column, u) in (0..self.modules).zip(0u32..) {
                if light(column, row) < 0.0 {
                    bits.set(u, v);
                }
            }
        }
        Some(bits)
    }
}

/// The mean of the inner part of a module, on as many places as it has pixels.
fn module(frame: &Frame, warp: &Warp, u: f64, v: f64) -> f64 {
    let (middle, right, below) = warp.frame_at(u, v);
    let pixels = right.x.hypot(right.y).max(below.x.hypot(below.y));
    let taps = if pixels < 2.0 {
        1
    } else {
        (pixels * 0.6).ceil().min(5.0) as i32
    };
    let mut sum = 0.0;
    for down in 0..taps {
        for across in 0..taps {
            let off = |at: i32| 0.6 * ((f64::from(at) + 0.5) / f64::from(taps) - 0.5);
            let (a, b) = (off(across), off(down));
            sum += gray(
                frame,
                middle.x + a * right.x + b * below.x,
                middle.y + a * right.y + b * below.y,
            );
        }
    }
    sum / f64::from(taps * taps)
}

/// The gray between the four nearest pixels; outside, that of the edge.
pub(super) fn gray(frame: &Frame, x: f64, y: f64) -> f64 {
    let (x, y) = (
        (x - 0.5).clamp(0.0, (frame.width() - 1) as f64),
        (y - 0.5).clamp(0.0, (frame.height() - 1) as f64),
    );
    let (left, top) = (x as usize, y as usize);
    let (right, bottom) = (
        (left + 1).min(frame.width() - 1),
        (top + 1).min(frame.height() - 1),
    );
    let pixel = |x: usize, y: usize| f64::from(frame.pixels()[y * frame.width() + x]);
    let (a, b) = (x - left as f64, y - top as f64);
    let upper = pixel(left, top) * (1.0 - a) + pixel(right, top) * a;
    let lower = pixel(left, bottom) * (1.0 - a) + pixel(right, bottom) * a;
    upper * (1.0 - b) + lower * b
}

/// Each gray less the middle of its surroundings, in units of their spread.
fn against_surroundings(raw: &[f64], side: usize) -> Vec<f64> {
    let mean = box_mean(raw, side);
    let away: Vec<f64> = raw
        .iter()
        .zip(&mean)
        .map(|(gray, mean)| (gray - mean).abs())
        .collect();
    let spread = box_mean(&away, side);
    let grays = raw.iter().zip(mean).zip(spread);
    grays
        .map(|((gray, mean), spread)| (gray - mean) / (spread + 0.5))
        .collect()
}

/// The mean of a square around each, smaller at the edges.
fn box_mean(raw: &[f64], side: usize) -> Vec<f64> {
    let across = side + 1;
    let mut sums = vec![0.0; across * across];
    for (row, line) in raw.chunks(side).enumerate() {
        let mut in_row = 0.0;
        for (column, gray) in line.iter().enumerate() {
            in_row += gray;
            sums[(row + 1) * across + column + 1] = sums[row * across + column + 1] + in_row;
        }
    }
    let span = |at: usize| (at.saturating_sub(REACH), (at + REACH + 1).min(side));
    let mut means = Vec::with_capacity(raw.len());
    for row in 0..side {
        let (top, bottom) = span(row);
        for column in 0..side {
            let (left, right) = span(column);
            let sum = sums[bottom * across + right] + sums[top * across + left]
                - sums[top * across + right]
                - sums[bottom * across + left];
            means.push(sum / ((bottom - top) * (right - left)) as f64);
        }
    }
    means
}
