//! What happens at a dispensing site, and at the door of a home, as facts.
//!
//! Movements of stock name no person and no home, so that forgetting a home changes no count.

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::fact::FactId;
use crate::household::{Answer, HouseholdId, Manner};

/// One thing that happened at a site.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(tag = "at-site", rename_all = "kebab-case")]
pub enum SiteEvent {
    /// Packs came in.
    LotReceived {
        lot: LotName,
        expiry: Date,
        packs: u32,
        /// Tablets, or millilitres, in one pack.
        each: u32,
        gtin: Option<String>,
    },
    /// Packs left the stock for a hand-out.
    LotOut {
        lot: LotName,
        packs: u32,
        hand_out: FactId,
    },
    /// Packs of a hand-out that was undone came back; counts once however often it is said.
    LotBack {
        lot: LotName,
        packs: u32,
        hand_out: FactId,
    },
    /// Somebody counted: so many packs are there, whatever was noted before; what comes later is added to it.
    LotCounted {
        lot: LotName,
        counted: u32,
        /// So many more (or fewer) than the sum said to whoever counted; told, and not counted with.
        difference: i64,
        reason: String,
    },
    /// Somebody read the package once more: this is what it says, whatever was typed before it.
    LotRead {
        lot: LotName,
        expiry: Date,
        /// Tablets, or millilitres, in one pack.
        each: u32,
        reason: String,
    },
    /// The code of a home was read here, or made here from what was told.
    HomeSeen {
        home: HouseholdId,
        /// The whole text of the code, signed as it came; a sealed one as it was once opened (`exchange::opened_text`).
        code: String,
    },
    /// How helpers find the home again: a name, a door.
    HomeNamed { home: HouseholdId, words: String },
    /// An answer given at the site.
    HomeAnswered {
        home: HouseholdId,
        person: u16,
        key: String,
        answer: Answer,
    },
    /// Weighed at the site.
    HomeWeighed {
        home: HouseholdId,
        person: u16,
        weight: String,
        on: Date,
        manner: Manner,
        /// Who stood at the scale, where it was said.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        by: Option<String>,
    },
    /// A lead lifted a hold after asking a clinician.
    HomeHoldLifted {
        home: HouseholdId,
        person: u16,
        /// Key of the question, or code of the reason.
        key: String,
        reason: String,
    },
    HandedOut {
        home: HouseholdId,
        /// Issue number of the code that was shown.
        issue: u32,
        lines: Vec<HandOutLine>,
        /// Whom the packs of the home together are for; nobody knows it of older facts.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        people: Vec<u16>,
        /// The last day for which this is enough.
        enough_until: Option<Date>,
        /// Why a lead let it go out although the home was served before, or needed a lead for another reason.
        lead: Option<String>,
        /// Lots that were counted after it and before it was typed in from paper: their count lacks its packs already.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        in_count: Vec<LotName>,
    },
    /// Everything about a home was given over and is forgotten here, and after later merges.
    HomeErased {
        home: HouseholdId,
        /// SHA-256 of the signed receipt, as hexadecimal digits.
        receipt: String,
    },
}

/// A product by its key in the order, and the lot on its package.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct LotName {
    pub product: String,
    pub lot: String,
}

/// Packs for one person, or for the home together.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct HandOutLine {
    pub person: Option<u16>,
    pub lot: LotName,
    pub packs: u32,
    /// Tablets, or millilitres, in one pack.
    pub each: u32,
}

impl SiteEvent {
    /// The home a fact is about, where it is about one.
    pub fn home(&self) -> Option<HouseholdId> {
        match self {
            SiteEvent::HomeSeen { home, .. }
            | SiteEvent::HomeNamed { home, .. }
            | SiteEvent::HomeAnswered { home, .. }
            | SiteEvent::HomeWeighed { home, .. }
            | SiteEvent::HomeHoldLifted { home, .. }
            | SiteEvent::HandedOut { home, .. }
            | SiteEvent::HomeErased { home, .. } => Some(*home),
            SiteEvent::LotReceived { .. }
            | SiteEvent::LotOut { .. }
            | SiteEvent::LotBack { .. }
            | SiteEvent::LotCounted { .. }
            | SiteEvent::LotRead { .. } => None,
        }
    }

    /// The lot whose count a fact changes.
    pub fn lot(&self) -> Option<&LotName> {
        match self {
            SiteEvent::LotReceived { lot, .. }
            | SiteEvent::LotOut { lot, .. }
            | SiteEvent::LotBack { lot, .. }
            | SiteEvent::LotCounted { lot, .. }
            | SiteEvent::LotRead { lot, .. } => Some(lot),
            _ => None,
        }
    }
}
