//! The phone entry of Hearthdose.
//!
//! It shares every screen and view model with the desktop window.
//! `phone` is the platform under the window: fingers and keys in, pixels out, life cycle; it knows two ports and no Android, so that it is tested anywhere.
//! `table` puts a kitchen behind the window, and `glue` alone talks to Android.

pub mod arrival;
pub mod leaving;
pub mod phone;
pub mod table;

#[cfg(target_os = "android")]
mod glue;
