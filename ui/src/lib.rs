//! Words, view models and screens of Hearthdose.
//!
//! `vm` decides which screen comes and asks the rules; `text` has the words; `bind` and the `.slint` files show them.
//! Without the `slint` feature there is no Slint type in here, which is how the seam is kept.

pub mod demo;
pub mod drawing;
#[cfg(feature = "machine")]
pub mod machine;
pub mod paper;
#[cfg(feature = "scan")]
pub mod scan;
pub mod text;
pub mod vm;

#[cfg(feature = "slint")]
pub mod bind;
#[cfg(feature = "slint")]
pub mod headless;
#[cfg(feature = "slint")]
pub mod walk;

/// What is made from the `.slint` files.
#[cfg(feature = "slint")]
#[allow(
    warnings,
    clippy::all,
    clippy::pedantic,
    clippy::restriction,
    unsafe_code
)]
pub mod screens {
    slint::include_modules!();
}
