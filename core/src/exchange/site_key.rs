//! The key to which households seal what only a site or district may read. The key that signs a site's receipts is another one ([`super::DeviceKey`]); how a home knows it is in [`super::acquaintance`].
//!
//! Body of the message, an array of five in this order: site code (text), words for people (text), X25519 public key (32 bytes), made at and good until, both minutes since 1970 (whole).

use jiff::Timestamp;

use super::cbor::{Fields, Value};
use super::seal::SealingKey;
use super::{moment, words};

/// A sealing key as a site hands it on, signed by the site's lead.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SiteKey {
    pub site: String,
    /// For a person to compare: `Quillmere school hall`.
    pub words: String,
    pub key: SealingKey,
    /// To the minute.
    pub made: Timestamp,
    /// To the minute.
    pub until: Timestamp,
}

impl SiteKey {
    pub(super) fn body(&self) -> Option<Value> {
        Some(Value::List(vec![
            Value::text(&self.site),
            Value::text(&self.words),
            Value::bytes(&self.key.0),
            Value::Whole(moment::minutes(self.made)?),
            Value::Whole(moment::minutes(self.until)?),
        ]))
    }

    pub(super) fn read(body: &Value) -> Option<SiteKey> {
        let mut fields = Fields::of(body)?;
        let site = fields.text()?;
        let label = fields.text()?;
        let key = SealingKey(fields.bytes()?);
        let made = moment::from_minutes(fields.whole()?)?;
        let until = moment::from_minutes(fields.whole()?)?;
        fields.end()?;
        let sound = words::are_plain(site, 24) && words::are_plain(label, 80) && made < until;
        sound.then(|| SiteKey {
            site: site.to_owned(),
            words: label.to_owned(),
            key,
            made,
            until,
        })
    }
}
