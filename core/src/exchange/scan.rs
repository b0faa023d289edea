//! What a scan can turn out to be. Nothing that is scanned is an error: every outcome is a value.

use std::collections::{BTreeMap, BTreeSet};

use sha2::{Digest, Sha256};

use super::frames::{FRAME, Frame};
use super::message::{self, CannotWrite, Message};
use super::seal::{OpeningKey, SEALED, Sealed, SealingKey};
use super::sign::{DeviceKey, DeviceSecret, SIGNED};
use super::text::{self, Unwrapped};
use crate::household::HouseholdId;

/// What a text is by itself, whoever reads it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Scan {
    /// Whole, and signed by the key that is in it.
    Message(Box<Scanned>),
    /// For the holder of another key; see [`Scan::open`].
    Sealed(Sealed),
    /// One frame of a longer file; see [`super::Collector`].
    Part(Frame),
    /// Made by a newer version: please update.
    Newer,
    /// One of ours, but not as it was made.
    Damaged,
    /// Of the right shape, and the signature is not that of the key it names.
    SignatureWrong,
    /// Not one of ours.
    Foreign,
}

/// A message, who signed it, and a name for its exact bytes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Scanned {
    pub message: Message,
    pub signer: DeviceKey,
    /// SHA-256 of the signed bytes.
    pub digest: [u8; 32],
}

impl Scan {
    /// Reads the text of a code.
    pub fn read(text: &str) -> Scan {
        match text::unwrap(text) {
            Unwrapped::Foreign => Scan::Foreign,
            Unwrapped::Newer => Scan::Newer,
            Unwrapped::Damaged => Scan::Damaged,
            Unwrapped::Bytes(bytes) => Scan::read_bytes(&bytes),
        }
    }

    /// Reads the bytes of a message, as they stand in a file.
    pub fn read_bytes(bytes: &[u8]) -> Scan {
        match bytes.first() {
            Some(&SIGNED) => Scan::signed(bytes),
            Some(&SEALED) => Sealed::from_bytes(bytes).map_or(Scan::Damaged, Scan::Sealed),
            Some(&FRAME) => Frame::from_bytes(bytes).map_or(Scan::Damaged, Scan::Part),
            _ => Scan::Damaged,
        }
    }

    fn signed(bytes: &[u8]) -> Scan {
        match message::read(bytes) {
            message::Read::Right(message, signer) => Scan::Message(Box::new(Scanned {
                message,
                signer,
                digest: Sha256::digest(bytes).into(),
            })),
            message::Read::WrongSignature => Scan::SignatureWrong,
            message::Read::NewerKind => Scan::Newer,
            message::Read::Damaged => Scan::Damaged,
        }
    }

    /// What is inside a sealed message; anything else stays as it is.
    pub fn open(self, with: &OpeningKey) -> Scan {
        match self {
            Scan::Sealed(sealed) if sealed.key_id == with.public().id() => {
                match sealed.open(with) {
                    Some(bytes) if bytes.first() == Some(&SIGNED) => Scan::signed(&bytes),
                    _ => Scan::Damaged,
                }
            }
            other => other,
        }
    }

    /// The outcome in one word, for somebody who has met the devices in `met`.
    pub fn outcome(&self, met: &Met) -> &'static str {
        match self {
            Scan::Message(scanned) => met.judge(scanned).code(),
            Scan::Sealed(_) => "sealed",
            Scan::Part(_) => "part",
            Scan::Newer => "newer-version",
            Scan::Damaged => "damaged",
            Scan::SignatureWrong => "signature-wrong",
            Scan::Foreign => "foreign",
        }
    }
}

/// The text of a signed message, for a code.
///
/// # Errors
/// See [`CannotWrite`].
pub fn write(message: &Message, secret: &DeviceSecret) -> Result<String, CannotWrite> {
    text::wrap(&message.sign(secret)?).ok_or(CannotWrite::TooLong)
}

/// The text of a signed message that only `to` can open; `random` must be fresh for each message.
///
/// # Errors
/// See [`CannotWrite`].
pub fn write_sealed(
    message: &Message,
    secret: &DeviceSecret,
    to: &SealingKey,
    random: [u8; 32],
) -> Result<String, CannotWrite> {
    text::wrap(&sealed_bytes(message, secret, to, random)?).ok_or(CannotWrite::TooLong)
}

/// The bytes of a signed message that only `to` can open, for a file; `random` must be fresh for each message.
///
/// # Errors
/// See [`CannotWrite`].
pub fn sealed_bytes(
    message: &Message,
    secret: &DeviceSecret,
    to: &SealingKey,
    random: [u8; 32],
) -> Result<Vec<u8>, CannotWrite> {
    let sealed = Sealed::seal(to, &message.sign(secret)?, random).ok_or(CannotWrite::NoKey)?;
    Ok(sealed.to_bytes())
}

/// The text of what is inside a sealed message, with the signature it came with, so that it can be kept and read without the key.
///
/// Nothing for another key, or where no whole message is inside.
pub fn opened_text(sealed: &Sealed, with: &OpeningKey) -> Option<String> {
    let bytes = sealed.open(with)?;
    match Scan::read_bytes(&bytes) {
        Scan::Message(_) => text::wrap(&bytes),
        _ => None,
    }
}

/// The text of a frame.
pub fn write_frame(frame: &Frame) -> Option<String> {
    text::wrap(&frame.to_bytes())
}

/// How a whole message stands to what is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// From a device met before, and not seen yet.
    New,
    /// Seen before, byte for byte.
    Known,
    /// From a device not met before. Nothing is wrong: the code is whole, and who made it is not known yet.
    SignatureUnknown,
    /// Its content is in the record already.
    AlreadyMerged,
    /// A later one of the same name was seen, which retired this.
    Retired,
    /// Says something else than another one of the same name and edition, or comes from another device than that did.
    Conflicting,
}

impl Standing {
    pub fn code(self) -> &'static str {
        match self {
            Standing::New => "new",
            Standing::Known => "known",
            Standing::SignatureUnknown => "signature-unknown",
            Standing::AlreadyMerged => "already-merged",
            Standing::Retired => "retired",
            Standing::Conflicting => "conflicting",
        }
    }
}

/// What messages are of one thing, of which only the latest counts.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Name {
    Household(HouseholdId),
    Slip(DeviceKey, HouseholdId, i64),
    SiteKey(String),
    Shift(DeviceKey, [u8; 16], u64),
    Erasure(DeviceKey, HouseholdId, i64),
}

impl Name {
    fn of(scanned: &Scanned) -> (Name, u64) {
        let signer = scanned.signer;
        match &scanned.message {
            Message::Household(code) => (Name::Household(code.household), u64::from(code.issue)),
            Message::Slip(slip) => {
                let name = Name::Slip(signer, slip.household, slip.at.as_second());
                (name, 0)
            }
            Message::SiteKey(key) => {
                let edition = u64::try_from(key.made.as_second()).unwrap_or_default();
                (Name::SiteKey(key.site.clone()), edition)
            }
            Message::Shift(shift) => {
                let name = Name::Shift(signer, *shift.device.0.as_bytes(), shift.first);
                let edition = u64::try_from(shift.facts.len()).unwrap_or(u64::MAX);
                (name, edition)
            }
            Message::Erasure(erasure) => {
                let name = Name::Erasure(signer, erasure.household, erasure.at.as_second());
                (name, 0)
            }
        }
    }
}

/// What a device remembers of others and their messages.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Met {
    keys: BTreeSet<DeviceKey>,
    seen: BTreeMap<Name, (u64, DeviceKey, [u8; 32])>,
    merged: BTreeSet<[u8; 32]>,
}

impl Met {
    /// Somebody compared this key, or it was met before.
    pub fn meet(&mut self, key: DeviceKey) {
        self.keys.insert(key);
    }

    /// Remembers a message and its signer, unless it was retired or is in conflict.
    pub fn remember(&mut self, scanned: &Scanned) -> Standing {
        let standing = self.judge(scanned);
        if matches!(standing, Standing::New | Standing::SignatureUnknown) {
            let (name, edition) = Name::of(scanned);
            self.seen
                .insert(name, (edition, scanned.signer, scanned.digest));
            self.keys.insert(scanned.signer);
        }
        standing
    }

    /// Its content was taken into the record.
    pub fn merged(&mut self, scanned: &Scanned) {
        self.remember(scanned);
        self.merged.insert(scanned.digest);
    }

    /// How a message stands to all that was seen so far.
    pub fn judge(&self, scanned: &Scanned) -> Standing {
        if self.merged.contains(&scanned.digest) {
            return Standing::AlreadyMerged;
        }
        let (name, edition) = Name::of(scanned);
        match self.seen.get(&name) {
            Some((_, signer, _)) if *signer != scanned.signer => Standing::Conflicting,
            Some((before, _, _)) if *before > edition => Standing::Retired,
            Some((before, _, digest)) if *before == edition => {
                if *digest == scanned.digest {
                    Standing::Known
                } else {
                    Standing::Conflicting
                }
            }
            Some(_) => Standing::New,
            None if self.keys.contains(&scanned.signer) => Standing::New,
            None => Standing::SignatureUnknown,
        }
    }
}
