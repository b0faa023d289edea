//! Compiles the screens when the `slint` feature is on.
fn main() {}
