//! Words, view models and screens.

pub mod drawing;
pub mod vm {
    //! View models, without a widget in them.
    pub mod view;
}

#[cfg(feature = "slint")]
pub mod bind;
#[cfg(feature = "slint")]
pub mod headless;

/// What is made from the `.slint` files.
#[cfg(feature = "slint")]
#[allow(warnings, clippy::all, clippy::pedantic, unsafe_code)]
pub mod screens {
    slint::include_modules!();
}
