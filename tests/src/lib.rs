//! What the tests of more than one crate share.

pub mod camera;
pub mod kitchen;
pub mod oracle;
pub mod people;
pub mod speech;
pub mod table;
pub mod tour;
pub mod voices;
