//! The slip: what a dispensing site handed out, signed by the site's device.
//!
//! Body of the message, an array of eight in this order:
//!
//! | # | item | CBOR |
//! |---|---|---|
//! | 0 | household id of the code that was shown | bytes, 8 |
//! | 1 | its issue number | whole |
//! | 2 | name of the site, at most 24 letters; never the name of a volunteer | text |
//! | 3 | handed out at, minutes since 1970 | whole |
//! | 4–6 | order id, revision, fingerprint, as in a household code | |
//! | 7 | one array of eight for each person and product: person id or null for the household together, words of the label, lot or null, expiry YYYYMMDD or null, count, 0 tablets or 1 bottles, enough until YYYYMMDD or null, words of an extended expiry or null | array |

use jiff::Timestamp;
use jiff::civil::Date;

use super::cbor::{self, Fields, Value};
use super::household::OrderMark;
use super::{moment, words};
use crate::household::HouseholdId;

/// One hand-out to one household.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Slip {
    pub household: HouseholdId,
    pub issue: u32,
    pub site: String,
    /// To the minute.
    pub at: Timestamp,
    pub order: Option<OrderMark>,
    pub lines: Vec<SlipLine>,
}

/// One product for one person.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SlipLine {
    /// The person's id in the household code; none for packs of the household together.
    pub person: Option<u16>,
    /// What stands on the label: `doxycycline 100 mg tablets`.
    pub product: String,
    pub lot: Option<String>,
    /// As printed.
    pub expiry: Option<Date>,
    pub count: u32,
    pub unit: SlipUnit,
    /// The last day for which this is enough.
    pub enough_until: Option<Date>,
    /// Why a printed expiry no longer counts: the notice's words.
    pub extension: Option<String>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SlipUnit {
    Tablets,
    Bottles,
}

const MOST_LINES: usize = 240;

impl Slip {
    /// Letters in the name of a site.
    pub const LONGEST_SITE: usize = 24;

    /// Whether a slip can carry this name of a site: visible letters, no space at either end, at most [`Slip::LONGEST_SITE`].
    pub fn is_site_name(name: &str) -> bool {
        words::are_plain(name, Slip::LONGEST_SITE) && words::are_seen(name)
    }

    pub(super) fn body(&self) -> Option<Value> {
        let [id, revision, fingerprint] = OrderMark::values(self.order.as_ref());
        Some(Value::List(vec![
            Value::bytes(&self.household.0),
            Value::Whole(u64::from(self.issue)),
            Value::text(&self.site),
            Value::Whole(moment::minutes(self.at)?),
            id,
            revision,
            fingerprint,
            Value::List(self.lines.iter().map(SlipLine::value).collect()),
        ]))
    }

    pub(super) fn read(body: &Value) -> Option<Slip> {
        let mut fields = Fields::of(body)?;
        let household = HouseholdId(fields.bytes()?);
        let issue = fields.whole()?;
        let site = fields.text()?;
        let at = moment::from_minutes(fields.whole()?)?;
        let order = OrderMark::read(&mut fields)?;
        let lines = fields.list()?;
        fields.end()?;
        if !Slip::is_site_name(site) || lines.is_empty() || lines.len() > MOST_LINES {
            return None;
        }
        let lines: Option<Vec<SlipLine>> = lines.iter().map(SlipLine::read).collect();
        Some(Slip {
            household,
            issue,
            site: site.to_owned(),
            at,
            order,
            lines: lines?,
        })
    }
}

impl SlipLine {
    fn value(&self) -> Value {
        let unit = match self.unit {
            SlipUnit::Tablets => 0,
            SlipUnit::Bottles => 1,
        };
        Value::List(vec![
            Value::or_null(self.person, |person| Value::Whole(u64::from(person))),
            Value::text(&self.product),
            Value::or_null(self.lot.as_deref(), Value::text),
            Value::or_null(self.expiry, moment::date_value),
            Value::Whole(u64::from(self.count)),
            Value::Whole(unit),
            Value::or_null(self.enough_until, moment::date_value),
            Value::or_null(self.extension.as_deref(), Value::text),
        ])
    }

    fn read(value: &Value) -> Option<SlipLine> {
        let mut fields = Fields::of(value)?;
        let person = fields.or_null(cbor::whole)?;
        let product = fields.text()?;
        let lot = fields.or_null(cbor::text)?;
        let expiry = fields.or_null(moment::date)?;
        let count = fields.whole()?;
        let unit = match fields.whole::<u64>()? {
            0 => SlipUnit::Tablets,
            1 => SlipUnit::Bottles,
            _ => return None,
        };
        let enough_until = fields.or_null(moment::date)?;
        let extension = fields.or_null(cbor::text)?;
        fields.end()?;
        let sound = words::are_plain(product, 80)
            && lot.is_none_or(words::are_a_lot)
            && extension.is_none_or(|text| words::are_plain(text, 160));
        sound.then(|| SlipLine {
            person,
            product: product.to_owned(),
            lot: lot.map(str::to_owned),
            expiry,
            count,
            unit,
            enough_until,
            extension: extension.map(str::to_owned),
        })
    }
}
