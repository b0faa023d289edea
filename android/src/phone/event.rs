//! What a phone tells a program, without a type of the phone's own.

use slint::SharedString;

/// One thing that happened.
#[derive(Clone, Debug, PartialEq)]
pub enum Event {
    /// The surface is there, has another size, or is gone: the glass knows.
    Surface,
    /// Scale, edges or wishes for the look are these now.
    Look(Look),
    /// The program is seen again.
    Shown,
    /// The program is out of sight; it may be killed without another word.
    Hidden,
    /// Something else is in front.
    Paused,
    /// The keyboard goes here, or no longer.
    Focus(bool),
    /// The system lost the picture.
    Redraw,
    LowMemory,
    /// The end is asked for.
    Over,
    Touch(Touch),
    /// A key goes down or comes up; the text is what it writes, or one of Slint's keys.
    Key {
        text: SharedString,
        down: bool,
    },
    /// The phone's own way back.
    Back,
}

/// How things should look, as the system says.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Look {
    /// Pixels of the surface for one pixel of the layout.
    pub scale: f32,
    pub insets: Insets,
    pub dark: bool,
    /// Size of text in percent.
    pub text: u16,
}

/// Edges of the surface that lie under bars, cutouts or the soft keyboard, in its pixels.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Insets {
    pub top: u32,
    pub bottom: u32,
    pub left: u32,
    pub right: u32,
}

impl Insets {
    /// The larger of both at each edge.
    #[must_use]
    pub fn or(self, other: Insets) -> Insets {
        Insets {
            top: self.top.max(other.top),
            bottom: self.bottom.max(other.bottom),
            left: self.left.max(other.left),
            right: self.right.max(other.right),
        }
    }
}

/// A finger, in pixels of the surface.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Touch {
    Down {
        finger: i32,
        x: f32,
        y: f32,
    },
    Move {
        finger: i32,
        x: f32,
        y: f32,
    },
    Up {
        finger: i32,
        x: f32,
        y: f32,
    },
    /// The system took the gesture away.
    Cancel,
}
