//! Sealing a signed message for one reader: HPKE base mode (RFC 9180), DHKEM(X25519, HKDF-SHA256), HKDF-SHA256, ChaCha20-Poly1305.
//!
//! ```text
//! 83                   array of three
//!    44 ........       first four bytes of SHA-256 of the reader's public key
//!    58 20 ........    encapsulated key
//!    58 .. ........    ciphertext of the signed message; its external data is the mark and the key id
//! ```

use core::convert::Infallible;

use hpke::aead::ChaCha20Poly1305;
use hpke::kdf::HkdfSha256;
use hpke::kem::X25519HkdfSha256;
use hpke::rand_core::{TryCryptoRng, TryRng};
use hpke::{Deserializable, Kem, OpModeR, OpModeS, Serializable};
use sha2::{Digest, Sha256};

use super::cbor::{self, Fields, Value};

/// What comes before every sealed message.
pub(super) const SEALED: u8 = 0x83;
const INFO: &[u8] = b"hearthdose sealed message";

/// Where sealed messages go: the X25519 public key of a site or district.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct SealingKey(pub [u8; 32]);

impl SealingKey {
    /// First four bytes of SHA-256 of the key.
    pub fn id(&self) -> [u8; 4] {
        let digest: [u8; 32] = Sha256::digest(self.0).into();
        let [a, b, c, d, ..] = digest;
        [a, b, c, d]
    }
}

/// The secret half of a sealing key, on the reader's device.
pub struct OpeningKey(<X25519HkdfSha256 as Kem>::PrivateKey);

impl OpeningKey {
    /// The pair that 32 random bytes make (DeriveKeyPair, RFC 9180 section 7.1.3).
    pub fn derive(random: &[u8; 32]) -> (OpeningKey, SealingKey) {
        let (secret, public) = X25519HkdfSha256::derive_keypair(random);
        let public = public.to_bytes().as_slice().try_into();
        (OpeningKey(secret), SealingKey(public.unwrap_or_default()))
    }

    /// A secret key as its 32 bytes.
    pub fn from_bytes(bytes: &[u8; 32]) -> Option<OpeningKey> {
        Deserializable::from_bytes(bytes).ok().map(OpeningKey)
    }

    pub fn public(&self) -> SealingKey {
        let public = X25519HkdfSha256::sk_to_pk(&self.0);
        let bytes = public.to_bytes().as_slice().try_into();
        SealingKey(bytes.unwrap_or_default())
    }
}

/// A message that only one reader can open.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sealed {
    /// Which key opens it.
    pub key_id: [u8; 4],
    encapsulated: [u8; 32],
    ciphertext: Vec<u8>,
}

impl Sealed {
    /// Seals the bytes of a signed message; `random` must be fresh for each message.
    ///
    /// None when the key is no point anybody could have a secret for.
    pub(super) fn seal(to: &SealingKey, message: &[u8], random: [u8; 32]) -> Option<Sealed> {
        let key_id = to.id();
        let (encapsulated, ciphertext) = seal(to, INFO, &aad(&key_id), message, random)?;
        Some(Sealed {
            key_id,
            encapsulated,
            ciphertext,
        })
    }

    /// The signed message inside; none for another key, or when a bit was changed.
    pub(super) fn open(&self, with: &OpeningKey) -> Option<Vec<u8>> {
        if with.public().id() != self.key_id {
            return None;
        }
        open(
            with,
            INFO,
            &aad(&self.key_id),
            &self.encapsulated,
            &self.ciphertext,
        )
    }

    pub(super) fn to_bytes(&self) -> Vec<u8> {
        cbor::encode(&Value::List(vec![
            Value::bytes(&self.key_id),
            Value::bytes(&self.encapsulated),
            Value::bytes(&self.ciphertext),
        ]))
    }

    pub(super) fn from_bytes(bytes: &[u8]) -> Option<Sealed> {
        let value = cbor::decode(bytes)?;
        let mut fields = Fields::of(&value)?;
        let sealed = Sealed {
            key_id: fields.bytes()?,
            encapsulated: fields.bytes()?,
            ciphertext: fields.some_bytes()?.to_vec(),
        };
        fields.end()?;
        Some(sealed)
    }
}

/// Base-mode sealing in this suite: the encapsulated key and the ciphertext.
pub fn seal(
    to: &SealingKey,
    info: &[u8],
    aad: &[u8],
    plain: &[u8],
    random: [u8; 32],
) -> Option<([u8; 32], Vec<u8>)> {
    let key = Deserializable::from_bytes(&to.0).ok()?;
    let (encapsulated, ciphertext) = hpke::single_shot_seal_with_rng::<
        ChaCha20Poly1305,
        HkdfSha256,
        X25519HkdfSha256,
    >(
        &OpModeS::Base, &key, info, plain, aad, &mut Given(random)
    )
    .ok()?;
    let encapsulated = encapsulated.to_bytes().as_slice().try_into().ok()?;
    Some((encapsulated, ciphertext))
}

/// Base-mode opening in this suite.
pub fn open(
    with: &OpeningKey,
    info: &[u8],
    aad: &[u8],
    encapsulated: &[u8; 32],
    ciphertext: &[u8],
) -> Option<Vec<u8>> {
    let encapsulated = Deserializable::from_bytes(encapsulated).ok()?;
    hpke::single_shot_open::<ChaCha20Poly1305, HkdfSha256, X25519HkdfSha256>(
        &OpModeR::Base,
        &with.0,
        &encapsulated,
        info,
        ciphertext,
        aad,
    )
    .ok()
}

fn aad(key_id: &[u8; 4]) -> Vec<u8> {
    [super::MARK.as_bytes(), key_id].concat()
}

/// The caller's random bytes, as the crate wants to be given them; it asks for 32, once.
struct Given([u8; 32]);

impl TryRng for Given {
    type Error = Infallible;

    fn try_next_u32(&mut self) -> Result<u32, Infallible> {
        let mut bytes = [0; 4];
        self.try_fill_bytes(&mut bytes)?;
        Ok(u32::from_le_bytes(bytes))
    }

    fn try_next_u64(&mut self) -> Result<u64, Infallible> {
        let mut bytes = [0; 8];
        self.try_fill_bytes(&mut bytes)?;
        Ok(u64::from_le_bytes(bytes))
    }

    fn try_fill_bytes(&mut self, target: &mut [u8]) -> Result<(), Infallible> {
        for (at, byte) in target.iter_mut().enumerate() {
            *byte = self.0.get(at).copied().unwrap_or_default();
        }
        // Asked once more, it must not give the same bytes again.
        self.0 = Sha256::digest(self.0).into();
        Ok(())
    }
}

impl TryCryptoRng for Given {}
