//! The signed messages, and what they have in common.
//!
//! The signed payload is an array of three: kind (whole), the signer's public key (32 bytes), and the body of that kind.

use super::cbor::{self, Fields, Value};
use super::erasure::Erasure;
use super::household::HouseholdCode;
use super::shift::Shift;
use super::sign::{self, DeviceKey, DeviceSecret};
use super::site_key::SiteKey;
use super::slip::Slip;

/// What one device tells another.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Message {
    /// Kind 1.
    Household(HouseholdCode),
    /// Kind 2.
    Slip(Slip),
    /// Kind 3.
    SiteKey(SiteKey),
    /// Kind 4.
    Shift(Shift),
    /// Kind 5.
    Erasure(Erasure),
}

/// Why a message cannot be written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum CannotWrite {
    #[error(
        "something in it does not fit its place: a time before 1970, a weight finer than a millionth, a name too long"
    )]
    DoesNotFit,
    #[error("the key it should be sealed to is no key")]
    NoKey,
    #[error("it is longer than what travels in codes")]
    TooLong,
}

impl CannotWrite {
    pub fn code(self) -> &'static str {
        match self {
            CannotWrite::DoesNotFit => "message-does-not-fit",
            CannotWrite::NoKey => "sealing-key-unusable",
            CannotWrite::TooLong => "message-too-long",
        }
    }
}

/// What came of bytes that claim to be a signed message.
pub(super) enum Read {
    Right(Message, DeviceKey),
    /// Of the profile, but the signature is not the named key's.
    WrongSignature,
    /// A kind that this version does not know, rightly signed.
    NewerKind,
    Damaged,
}

impl Message {
    /// What kind of message it is, in one word.
    pub fn name(&self) -> &'static str {
        match self {
            Message::Household(_) => "household",
            Message::Slip(_) => "slip",
            Message::SiteKey(_) => "site-key",
            Message::Shift(_) => "shift",
            Message::Erasure(_) => "erasure",
        }
    }

    fn kind(&self) -> u64 {
        match self {
            Message::Household(_) => 1,
            Message::Slip(_) => 2,
            Message::SiteKey(_) => 3,
            Message::Shift(_) => 4,
            Message::Erasure(_) => 5,
        }
    }

    fn body(&self) -> Option<Value> {
        match self {
            Message::Household(code) => code.body(),
            Message::Slip(slip) => slip.body(),
            Message::SiteKey(key) => key.body(),
            Message::Shift(shift) => shift.body(),
            Message::Erasure(erasure) => erasure.body(),
        }
    }

    fn payload(&self, signer: &DeviceKey) -> Option<Vec<u8>> {
        Some(cbor::encode(&Value::List(vec![
            Value::Whole(self.kind()),
            Value::bytes(&signer.0),
            self.body()?,
        ])))
    }

    /// The bytes of the signed message.
    ///
    /// # Errors
    /// [`CannotWrite::DoesNotFit`]: what is written here, is read back and must be the same.
    pub fn sign(&self, secret: &DeviceSecret) -> Result<Vec<u8>, CannotWrite> {
        let payload = self
            .payload(&secret.public())
            .ok_or(CannotWrite::DoesNotFit)?;
        let bytes = sign::seal(secret, &payload);
        match read(&bytes) {
            Read::Right(message, _) if message == *self => Ok(bytes),
            _ => Err(CannotWrite::DoesNotFit),
        }
    }
}

pub(super) fn read(bytes: &[u8]) -> Read {
    let Some(opened) = sign::open(bytes) else {
        return Read::Damaged;
    };
    let Some(value) = cbor::decode(opened.payload) else {
        return Read::Damaged;
    };
    let Some((kind, key, body)) = parts(&value) else {
        return Read::Damaged;
    };
    if !opened.names(&key) {
        return Read::Damaged;
    }
    if !opened.is_signed_by(&key) {
        return Read::WrongSignature;
    }
    let message = match kind {
        1 => HouseholdCode::read(body).map(Message::Household),
        2 => Slip::read(body).map(Message::Slip),
        3 => SiteKey::read(body).map(Message::SiteKey),
        4 => Shift::read(body).map(Message::Shift),
        5 => Erasure::read(body).map(Message::Erasure),
        _ => return Read::NewerKind,
    };
    // Whatever was read must be spelled as this program would spell it.
    match message {
        Some(message) if message.payload(&key).as_deref() == Some(opened.payload) => {
            Read::Right(message, key)
        }
        _ => Read::Damaged,
    }
}

fn parts(payload: &Value) -> Option<(u64, DeviceKey, &Value)> {
    let mut fields = Fields::of(payload)?;
    let kind = fields.whole()?;
    let key = DeviceKey(fields.bytes()?);
    let body = fields.next()?;
    fields.end()?;
    Some((kind, key, body))
}
