//! What travels between devices, as text in codes or bytes in files.
//!
//! ```text
//! HD1 <base45> Z                                    text of a QR code, alphanumeric, level M
//!       └ d2…  COSE_Sign1 of [kind, public key, body]   household 1, slip 2, site key 3, shift 4, erasure 5
//!       └ 83…  HPKE-sealed COSE_Sign1                   for the holder of one key
//!       └ 46…  RaptorQ frame                            of a file too long for one code
//! ```
//!
//! One spelling per message: base45, COSE and CBOR are written again after reading and must be byte for byte the same; only CR, LF and Tab around the text are trimmed.
//! A signature proves that a message is unchanged and which device it came from, never that it is true: whatever is scanned is worked out anew ([`PersonCode::dose`]).
//! Nothing here reads a clock, draws random bytes or keeps anything: instants, keys and random bytes come in, and [`Met`] is a value.
//!
//! The shortest household code there is, one person of whom nothing is known, signed with the key of RFC 8032's test 1:
//!
//! ```text
//! d2 84 49 a20127 0444 21fe31df a0 58 4b              tag, four parts, protected {1: -8, 4: key id}, payload of 75 bytes
//!    83 01 5820 d75a9801…07511a                       kind 1, public key, body
//!    8a 48 0102030405060708 01 1a 01eb95a0 f6 00 40   ten items: id, issue 1, made at 2031-04-03T13:20Z, no order
//!       62 656e 00 80                                 "en", no flags, no lots
//!       81 8d 01 f6 f6 f6 00 40 f6 04 80 f6 f6 f6 f6  one person of thirteen items: id 1, not screened
//!    5840 c07fbdf6…26ae30d                            signature
//! ```
//!
//! The whole of it and of every other kind stands in `tests/tests/exchange/golden`, written by a second implementation and compared byte for byte.

pub mod base45;
pub mod cbor;
mod compose;
mod desk;
mod device;
mod erasure;
mod frames;
mod household;
mod message;
mod moment;
mod person;
mod scan;
pub mod seal;
mod shift;
pub mod sign;
mod site_key;
mod slip;
mod text;
mod weight;
mod words;

pub use crate::household::HouseholdId;
pub use compose::{Making, Member, household_code, is_private};
pub use desk::{Acquaintance, acquaintance, comparison};
pub use device::DeviceRandom;
pub use erasure::Erasure;
pub use frames::{
    Collector, FRAME_VERSION, FileMark, Frame, LONGEST_FILE, Progress, SYMBOL, UnfitFile, frames,
};
pub use household::{HouseholdCode, OrderMark};
pub use message::{CannotWrite, Message};
pub use moment::minute;
pub use person::{CodedAge, CodedAnswer, CodedWeighing, PersonCode, ScreeningOutcome, Supply};
pub use scan::{
    Met, Scan, Scanned, Standing, opened_text, sealed_bytes, write, write_frame, write_sealed,
};
pub use seal::{OpeningKey, Sealed, SealingKey};
pub use shift::Shift;
pub use sign::{DeviceKey, DeviceSecret};
pub use site_key::SiteKey;
pub use slip::{Slip, SlipLine, SlipUnit};
pub use text::MARK;
