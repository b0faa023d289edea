//! Codes in pictures: read from a gray frame, and drawn as one.
//!
//! Decoding is here and not in `core`, because it deals with pictures, and not in `app`, because a phone decodes alike.
//! [`Scanner`] is the port: whoever has a decoder of its own brings that instead of [`Cascade`].
//! No file is opened here; a frame is width, height and one byte for each pixel.

mod cascade;
mod drawn;
mod frame;
mod grid;
mod prepare;
mod qr;
#[cfg(test)]
mod tests;

pub use cascade::{Cascade, Stage};
pub use drawn::{drawn, drawn_version};
pub use frame::Frame;

/// The codes that are looked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Symbol {
    Qr,
    /// As on medicine packages.
    DataMatrix,
}

/// What was read in a frame.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Found {
    /// The text as it stands in the code; separators as ASCII 29.
    pub text: String,
    pub symbol: Symbol,
    /// The code says that it follows GS1's rules.
    pub gs1: bool,
}

/// Something that finds codes in frames.
pub trait Scanner {
    /// The first code of this kind in the frame.
    fn scan(&mut self, frame: &Frame, symbol: Symbol) -> Option<Found>;

    /// All codes of this kind in the frame that are easily read; else the first one, as by [`Scanner::scan`].
    ///
    /// For a camera before which two codes may lie: whoever must not guess has to know of both.
    fn scan_all(&mut self, frame: &Frame, symbol: Symbol) -> Vec<Found> {
        self.scan(frame, symbol).into_iter().collect()
    }
}
