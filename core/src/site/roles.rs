//! Who may do what at a site.
//!
//! A role is a switch on a shared device, kept by a short number; it is no key and protects no secret.

/// A helper, or the one who answers for the site.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Role {
    Volunteer,
    /// Lifts holds, corrects counts, hands out a second time; always with a reason.
    Lead,
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
