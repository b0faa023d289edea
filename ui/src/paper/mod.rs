//! Papers: what a home needs when no device is at hand, and what a site hands out with the bottles.
//!
//! Values in, the bytes of a PDF out; nothing is read and no clock is asked.
//! [`household`] makes the sheet, the chart to tick and the labels of kept bowls in one document; [`slip`], [`bottle_labels`] and [`desk_sign`] are the site's.
//!
//! Whatever a sheet says is in the words of the screens, from the same messages, so that paper and device never differ.
//! Invariants: nothing is smaller than 12 points; a paper of an order that is invented or not signed says so on every page;
//! who has no dose stands there with the number to call, never with an empty place.

mod chart;
mod desk;
mod document;
mod erasure;
mod flow;
mod font;
mod foods;
mod home;
mod labels;
mod list;
mod people;
mod picture;
mod rules;
mod site;
mod steps;
mod tags;

use thiserror::Error;

pub use desk::{DeskSign, desk_sign};
pub use erasure::{ErasureSheet, erasure};
pub use home::{Absent, Home, household};
pub use list::list;
pub use site::{BottleLabel, SlipSheet, bottle_labels, slip};

/// Sizes of paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Paper {
    /// 8.5 × 11 inches.
    Letter,
    /// 210 × 297 mm (ISO 216).
    A4,
}

impl Paper {
    /// Width and height in points of 1/72 inch.
    pub fn points(self) -> (f32, f32) {
        match self {
            Paper::Letter => (612.0, 792.0),
            Paper::A4 => (595.28, 841.89),
        }
    }

    pub fn of_name(name: &str) -> Option<Paper> {
        match name {
            "letter" => Some(Paper::Letter),
            "a4" => Some(Paper::A4),
            _ => None,
        }
    }
}

/// Why nothing is printed.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum CannotPrint {
    #[error("the typeface has no “{0}”; write the name with other letters")]
    NoSuchLetter(char),
    #[error("the code is too long for one picture")]
    CodeTooLong,
    #[error("the typeface of the program cannot be read")]
    Typeface,
}

impl CannotPrint {
    /// Stable code of the refusal.
    pub fn code(&self) -> &'static str {
        match self {
            CannotPrint::NoSuchLetter(_) => "letter-not-in-typeface",
            CannotPrint::CodeTooLong => "code-too-long",
            CannotPrint::Typeface => "typeface-damaged",
        }
    }
}
