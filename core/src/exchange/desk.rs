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

#[cfg(test)]
mod tests {
    use super::*;

    const MILL: DeviceKey = DeviceKey([7; 32]);
    const OTHER: DeviceKey = DeviceKey([9; 32]);

    /// What a home holds after it compared marks, as its record keeps it.
    fn desks(compared: &[(DeviceKey, &str, bool)]) -> BTreeMap<String, DeskRecord> {
        let events = compared
            .iter()
            .map(|(key, site, same)| comparison(key, site, *same));
        let kept = events.map(|event| match event {
            Event::DeskCompared { site, key, same } => (key, DeskRecord { site, same }),
            other => panic!("another event: {other:?}"),
        });
        kept.collect()
    }

    fn stands(signer: DeviceKey, site: &str, compared: &[(DeviceKey, &str, bool)]) -> Acquaintance {
        acquaintance(&signer, site, &desks(compared))
    }

    #[test]
    fn a_desk_is_known_by_its_key_and_its_name_together() {
        let compared = [(MILL, "Old mill", true)];
        assert_eq!(stands(MILL, "Old mill", &compared), Acquaintance::Compared);
        let before = Acquaintance::OtherName("Old mill".to_owned());
        assert_eq!(stands(MILL, "Ford hall", &compared), before);
        // A name is compared letter by letter.
        assert_ne!(stands(MILL, "old mill", &compared), Acquaintance::Compared);
        assert_eq!(stands(OTHER, "Old mill", &compared), Acquaintance::OtherKey);
        assert_eq!(stands(OTHER, "Ford hall", &compared), Acquaintance::NotMet);
        assert_eq!(stands(MILL, "Old mill", &[]), Acquaintance::NotMet);
    }

    #[test]
    fn a_mark_that_was_another_one_is_doubted_under_any_name() {
        let compared = [(MILL, "Old mill", false)];
        for name in ["Old mill", "Ford hall"] {
            assert_eq!(stands(MILL, name, &compared), Acquaintance::Doubted);
        }
        // Whose mark was wrong vouches for no other key of that name.
        assert_eq!(stands(OTHER, "Old mill", &compared), Acquaintance::NotMet);
    }

    #[test]
    fn a_site_may_have_several_desks_and_one_of_them_be_wrong() {
        let compared = [(MILL, "Old mill", true), (OTHER, "Old mill", false)];
        assert_eq!(stands(MILL, "Old mill", &compared), Acquaintance::Compared);
        assert_eq!(stands(OTHER, "Old mill", &compared), Acquaintance::Doubted);
        let third = DeviceKey([11; 32]);
        assert_eq!(stands(third, "Old mill", &compared), Acquaintance::OtherKey);
    }

    #[test]
    fn a_comparison_is_kept_under_the_whole_key() {
        let mut close = [7; 32];
        close[31] = 8;
        let compared = [(MILL, "Old mill", true)];
        let close = DeviceKey(close);
        assert_eq!(stands(close, "Ford hall", &compared), Acquaintance::NotMet);
        let digits = "07".repeat(32);
        assert!(desks(&compared).contains_key(&digits));
    }
}
