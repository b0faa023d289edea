//! Whether a home knows the desk that signed a receipt.
//!
//! A receipt carries the key that signed it, so its signature proves only that nothing was changed since. Whose key it is, a person says once, by comparing its mark ([`DeviceKey::mark`]) with the one the site shows.
//! A site has one signing key for each tablet and order, so a home may know several of one site. The key to which homes seal ([`super::SiteKey`]) has nothing to do with it.

use std::collections::BTreeMap;

use super::sign::DeviceKey;
use crate::record::{DeskRecord, Event};

/// How a desk stands to what was compared at home.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Acquaintance {
    /// Its mark was compared, and it still goes by that name.
    Compared,
    /// Neither the key nor the name is known.
    NotMet,
    /// The site is known by other keys only: another of its tablets, or somebody else under its name.
    OtherKey,
    /// The key was compared under this other name.
    OtherName(String),
    /// Somebody compared its mark, and it was another one.
    Doubted,
}

/// How the desk that signed with this key, under this name of a site, stands to the desks a home has compared (`State::desks`).
pub fn acquaintance(
    signer: &DeviceKey,
    site: &str,
    desks: &BTreeMap<String, DeskRecord>,
) -> Acquaintance {
    match desks.get(&digits(signer)) {
        Some(desk) if !desk.same => Acquaintance::Doubted,
        Some(desk) if desk.site == site => Acquaintance::Compared,
        Some(desk) => Acquaintance::OtherName(desk.site.clone()),
        None if desks.values().any(|desk| desk.same && desk.site == site) => Acquaintance::OtherKey,
        None => Acquaintance::NotMet,
    }
}

/// What a person found who compared the mark of this key.
pub fn comparison(signer: &DeviceKey, site: &str, same: bool) -> Event {
    Event::DeskCompared {
        site: site.to_owned(),
        key: digits(signer),
        same,
    }
}

fn digits(key: &DeviceKey) -> String {
    key.0.iter().map(|byte| format!("{byte:02x}")).collect()
}
