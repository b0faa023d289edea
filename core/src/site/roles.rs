//! Who may do what at a site.
//!
//! A role is a switch on a shared device, kept by a short number; it is no key and protects no secret.
//! The numbers are kept by [`Store`](crate::store::Store), as settings of one device: no fact tells of them, and they never travel.

use crate::record::{Event, SiteEvent};

/// A helper, or the one who answers for the site.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Role {
    Volunteer,
    /// Lifts holds, corrects counts, hands out a second time; always with a reason.
    Lead,
}

impl Role {
    /// Who may bring this about: what a helper may not decide alone is the lead's.
    pub fn for_event(event: &Event) -> Role {
        let is_for_lead = match event {
            Event::Correction { .. } => true,
            Event::Site { site } => matches!(
                site,
                SiteEvent::HomeHoldLifted { .. }
                    | SiteEvent::LotCounted { .. }
                    | SiteEvent::LotRead { .. }
                    | SiteEvent::LotBack { .. }
                    | SiteEvent::HandedOut { lead: Some(_), .. }
                    | SiteEvent::HomeErased { .. }
            ),
            _ => false,
        };
        match is_for_lead {
            true => Role::Lead,
            false => Role::Volunteer,
        }
    }
}

/// Wrong numbers in a row after which a device waits.
pub const TRIES: u32 = 5;

/// How long it waits then, in seconds: doubled with every further wrong one, an hour at most.
pub fn wait_after(wrong: u32) -> u64 {
    match wrong.checked_sub(TRIES) {
        None => 0,
        Some(more) => 30_u64.checked_shl(more.min(7)).unwrap_or(3_600).min(3_600),
    }
}

/// A number that may guard a role: 4 to 12 digits that are not the first anybody tries.
#[derive(Clone, PartialEq, Eq)]
pub struct Pin(String);

/// Why a number may not guard a role.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PinUnfit {
    #[error("a PIN has digits only, 0 to 9")]
    NotDigits,
    #[error("a PIN has at least {SHORTEST} digits")]
    TooShort,
    #[error("a PIN has at most {LONGEST} digits")]
    TooLong,
    #[error("one digit again and again is the first thing that is tried")]
    Repeated,
    #[error("digits in a row, up or down, are the first thing that is tried")]
    InARow,
}

const SHORTEST: usize = 4;
const LONGEST: usize = 12;

impl PinUnfit {
    pub fn code(self) -> &'static str {
        match self {
            PinUnfit::NotDigits => "pin-not-digits",
            PinUnfit::TooShort => "pin-too-short",
            PinUnfit::TooLong => "pin-too-long",
            PinUnfit::Repeated => "pin-repeated",
            PinUnfit::InARow => "pin-in-a-row",
        }
    }
}

impl Pin {
    /// White space around it is left out.
    ///
    /// # Errors
    /// See [`PinUnfit`].
    pub fn new(typed: &str) -> Result<Pin, PinUnfit> {
        let typed = typed.trim();
        if !typed.bytes().all(|byte| byte.is_ascii_digit()) {
            return Err(PinUnfit::NotDigits);
        }
        if typed.len() < SHORTEST {
            return Err(PinUnfit::TooShort);
        }
        if typed.len() > LONGEST {
            return Err(PinUnfit::TooLong);
        }
        // From one digit to the next, nine and nought being neighbours.
        let is_step = |step: u8| {
            let mut pairs = typed.as_bytes().windows(2);
            pairs.all(|pair| matches!(pair, [a, b] if (b + 10 - a) % 10 == step))
        };
        if is_step(0) {
            return Err(PinUnfit::Repeated);
        }
        if is_step(1) || is_step(9) {
            return Err(PinUnfit::InARow);
        }
        Ok(Pin(typed.to_owned()))
    }

    /// The digits, for whoever keeps or compares them.
    pub fn digits(&self) -> &str {
        &self.0
    }
}

/// Shows nothing of it.
impl std::fmt::Debug for Pin {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Pin(…)")
    }
}

/// What came of a typed PIN.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PinCheck {
    /// It is the PIN of this role; the lead's opens what a volunteer may, too.
    Opened(Role),
    /// Nothing guards the role on this device: anybody may, and it should be said.
    NoneSet,
    /// It is another; so many more may be tried before a wait, and none before `wait` seconds have passed.
    Wrong { left: u32, wait: u64 },
    /// It was not looked at: too many were wrong, and the device waits for so many seconds more.
    Wait { seconds: u64 },
}

/// What came of setting a PIN.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PinSet {
    Set,
    /// The role has one, or the lead has: only who types the lead's PIN sets another. Says what came of it; nothing was changed.
    LeadNeeded(PinCheck),
    /// The lead's own has to be set before a volunteer's.
    LeadFirst,
    /// The other role has the same: then nobody could tell who it is.
    SameAsOther,
}
