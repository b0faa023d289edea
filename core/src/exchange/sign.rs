//! COSE_Sign1 (RFC 9052) in one fixed profile: Ed25519, key id in the protected header, nothing unprotected.
//!
//! ```text
//! d2                               tag 18, COSE_Sign1
//! 84                               array of four
//!    49 a2 01 27 04 44 ........    protected: {1: -8 (EdDSA), 4: key id}
//!    a0                            unprotected: empty
//!    58 .. ........                payload
//!    58 40 ........                signature over ["Signature1", protected, "HD1", payload]
//! ```
//!
//! The key id is the first four bytes of SHA-256 of the public key, which itself is in the payload, so it only says which key to expect.
//! The text's mark ([`super::MARK`]) is the external data: a signature holds for this format version alone.
//! [`open`] builds the message again from its parts and compares, so nothing outside the signature can be changed or added.

use ed25519_dalek::{Signature, Signer, SigningKey, VerifyingKey};
use minicbor::{Decoder, Encoder};
use sha2::{Digest, Sha256};

use crate::order::Fingerprint;

/// What comes before every signed message.
pub(super) const SIGNED: u8 = 0xd2;

/// The public half of a device's signing key.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct DeviceKey(pub [u8; 32]);

impl DeviceKey {
    /// First four bytes of SHA-256 of the key.
    pub fn id(&self) -> [u8; 4] {
        let digest: [u8; 32] = Sha256::digest(self.0).into();
        let [a, b, c, d, ..] = digest;
        [a, b, c, d]
    }

    /// What two people compare: the first 80 bits of SHA-256 of the key, `3f2a 90c1 …`.
    pub fn mark(&self) -> String {
        Fingerprint::of(&self.0).short()
    }
}

impl std::fmt::Debug for DeviceKey {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("DeviceKey(")?;
        self.0.iter().try_for_each(|byte| write!(f, "{byte:02x}"))?;
        f.write_str(")")
    }
}

/// The secret half. It is made from 32 random bytes of the caller's, and shown nowhere.
pub struct DeviceSecret(SigningKey);

impl DeviceSecret {
    /// The key that these 32 bytes are (RFC 8032, section 5.1.5).
    pub fn from_bytes(bytes: &[u8; 32]) -> DeviceSecret {
        DeviceSecret(SigningKey::from_bytes(bytes))
    }

    pub fn public(&self) -> DeviceKey {
        DeviceKey(self.0.verifying_key().to_bytes())
    }

    /// The signature over some bytes as they stand.
    pub fn sign(&self, bytes: &[u8]) -> [u8; 64] {
        self.0.sign(bytes).to_bytes()
    }
}

/// Whether the signature is this key's over these bytes; weak keys and second spellings are refused (`verify_strict`).
pub fn verify(key: &DeviceKey, bytes: &[u8], signature: &[u8; 64]) -> bool {
    VerifyingKey::from_bytes(&key.0).is_ok_and(|key| {
        key.verify_strict(bytes, &Signature::from_bytes(signature))
            .is_ok()
    })
}

/// The bytes that are signed: Sig_structure of RFC 9052, section 4.4.
pub fn to_be_signed(protected: &[u8], external: &[u8], payload: &[u8]) -> Vec<u8> {
    let mut out = Encoder::new(Vec::new());
    let _ = out.array(4).and_then(|out| {
        out.str("Signature1")?
            .bytes(protected)?
            .bytes(external)?
            .bytes(payload)?
            .ok()
    });
    out.into_writer()
}

/// A signed message.
pub(super) fn seal(secret: &DeviceSecret, payload: &[u8]) -> Vec<u8> {
    let protected = protected(&secret.public());
    let signature = secret.sign(&to_be_signed(&protected, super::MARK.as_bytes(), payload));
    assemble(&protected, payload, &signature)
}

/// A message whose parts are where they belong, its signature not looked at yet.
pub(super) struct Opened<'a> {
    protected: &'a [u8],
    pub(super) payload: &'a [u8],
    signature: [u8; 64],
}

/// The parts of a message; none when it is not byte for byte of the profile.
pub(super) fn open(bytes: &[u8]) -> Option<Opened<'_>> {
    let mut from = Decoder::new(bytes);
    if from.tag().ok()?.as_u64() != 18 || from.array().ok()? != Some(4) {
        return None;
    }
    let protected = from.bytes().ok()?;
    if from.map().ok()? != Some(0) {
        return None;
    }
    let payload = from.bytes().ok()?;
    let signature: [u8; 64] = from.bytes().ok()?.try_into().ok()?;
    let opened = Opened {
        protected,
        payload,
        signature,
    };
    (assemble(protected, payload, &signature) == bytes).then_some(opened)
}

impl Opened<'_> {
    /// Whether the header names this key and nothing else.
    pub(super) fn names(&self, key: &DeviceKey) -> bool {
        self.protected == protected(key)
    }

    pub(super) fn is_signed_by(&self, key: &DeviceKey) -> bool {
        let bytes = to_be_signed(self.protected, super::MARK.as_bytes(), self.payload);
        verify(key, &bytes, &self.signature)
    }
}

fn protected(key: &DeviceKey) -> Vec<u8> {
    let mut out = Encoder::new(Vec::new());
    let _ = out
        .map(2)
        .and_then(|out| out.u8(1)?.i8(-8)?.u8(4)?.bytes(&key.id())?.ok());
    out.into_writer()
}

fn assemble(protected: &[u8], payload: &[u8], signature: &[u8; 64]) -> Vec<u8> {
    let mut out = Encoder::new(Vec::new());
    let _ = out.tag(minicbor::data::Tag::new(18)).and_then(|out| {
        out.array(4)?
            .bytes(protected)?
            .map(0)?
            .bytes(payload)?
            .bytes(signature)?
            .ok()
    });
    out.into_writer()
}
