//! The phone entry of Hearthdose.
//!
//! It shares every screen and view model with the desktop window.
//! Nothing in it is compiled on other systems, so that the workspace builds without phone tools.
#![cfg(target_os = "android")]
