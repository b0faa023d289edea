//! The household code: what a dispensing site needs to know of a household, and no more.
//!
//! Body of the message, an array of ten in this order:
//!
//! | # | item | CBOR |
//! |---|---|---|
//! | 0 | random household id | bytes, 8 |
//! | 1 | issue number; a higher one retires the lower | whole |
//! | 2 | made at, minutes since 1970 | whole |
//! | 3 | order id, or null without an order | text |
//! | 4 | order revision; 0 without an order | whole |
//! | 5 | first bytes of the order's fingerprint; empty without an order | bytes, 6 or 0 |
//! | 6 | language | text |
//! | 7 | 1 interpreter wanted + 2 an adult collects + 4 no adult collects | whole |
//! | 8 | lots in the house, each named below by its place here | array of text |
//! | 9 | people, see [`super::PersonCode`] | array |
//!
//! Never in it: names (a nickname only when asked for), birth dates, addresses, telephone numbers, diagnoses, single doses, places, a key that another order's code also carries.

use jiff::Timestamp;

use super::cbor::{self, Fields, Value};
use super::moment;
use super::person::PersonCode;
use super::words;
use crate::household::HouseholdId;
use crate::order::Order;

/// Which order, which revision, and the beginning of its fingerprint.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OrderMark {
    pub id: String,
    pub revision: u32,
    pub fingerprint: [u8; 6],
}

impl OrderMark {
    pub fn of(order: &Order) -> OrderMark {
        let [a, b, c, d, e, f, ..] = *order.fingerprint.as_bytes();
        OrderMark {
            id: order.id.clone(),
            revision: order.revision,
            fingerprint: [a, b, c, d, e, f],
        }
    }

    /// Whether this is the very order that is meant.
    pub fn is(&self, order: &Order) -> bool {
        *self == OrderMark::of(order)
    }

    pub(super) fn values(mark: Option<&OrderMark>) -> [Value; 3] {
        match mark {
            None => [Value::Null, Value::Whole(0), Value::bytes(&[])],
            Some(mark) => [
                Value::text(&mark.id),
                Value::Whole(u64::from(mark.revision)),
                Value::bytes(&mark.fingerprint),
            ],
        }
    }

    pub(super) fn read(fields: &mut Fields<'_>) -> Option<Option<OrderMark>> {
        let id = fields.or_null(cbor::text)?;
        let revision = fields.whole()?;
        let fingerprint = fields.some_bytes()?;
        match id {
            None => (revision == 0 && fingerprint.is_empty()).then_some(None),
            Some(id) => Some(Some(OrderMark {
                id: words::are_a_key(id, 64).then(|| id.to_owned())?,
                revision,
                fingerprint: fingerprint.try_into().ok()?,
            })),
        }
    }
}

/// What a household shows at a site.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HouseholdCode {
    pub household: HouseholdId,
    pub issue: u32,
    /// To the minute.
    pub made: Timestamp,
    pub order: Option<OrderMark>,
    pub language: String,
    pub interpreter: bool,
    /// Whether somebody grown up comes to collect, where that is known.
    pub adult_collects: Option<bool>,
    pub people: Vec<PersonCode>,
}

/// More people than this live in no household that a code is made for.
const MOST_PEOPLE: usize = 60;

impl HouseholdCode {
    pub(super) fn body(&self) -> Option<Value> {
        let mut lots: Vec<&str> = Vec::new();
        for lot in self.people.iter().filter_map(PersonCode::lot) {
            if !lots.contains(&lot) {
                lots.push(lot);
            }
        }
        let people: Option<Vec<Value>> = self
            .people
            .iter()
            .map(|person| person.value(self.made, &lots))
            .collect();
        let collects = match self.adult_collects {
            None => 0,
            Some(true) => 2,
            Some(false) => 4,
        };
        let [id, revision, fingerprint] = OrderMark::values(self.order.as_ref());
        Some(Value::List(vec![
            Value::bytes(&self.household.0),
            Value::Whole(u64::from(self.issue)),
            Value::Whole(moment::minutes(self.made)?),
            id,
            revision,
            fingerprint,
            Value::text(&self.language),
            Value::Whole(u64::from(self.interpreter) + collects),
            Value::List(lots.into_iter().map(Value::text).collect()),
            Value::List(people?),
        ]))
    }

    pub(super) fn read(body: &Value) -> Option<HouseholdCode> {
        let mut fields = Fields::of(body)?;
        let household = HouseholdId(fields.bytes()?);
        let issue = fields.whole()?;
        let made = moment::from_minutes(fields.whole()?)?;
        let order = OrderMark::read(&mut fields)?;
        let language = fields.text()?;
        let flags: u8 = fields.whole()?;
        let lots: Option<Vec<&str>> = fields.list()?.iter().map(cbor::text).collect();
        let lots = lots?;
        let people = fields.list()?;
        fields.end()?;
        if !words::are_a_key(language, 8) || people.is_empty() || people.len() > MOST_PEOPLE {
            return None;
        }
        let people: Option<Vec<PersonCode>> = people
            .iter()
            .map(|value| PersonCode::read(value, made, &lots))
            .collect();
        let code = HouseholdCode {
            household,
            issue,
            made,
            order,
            language: language.to_owned(),
            interpreter: flags & 1 == 1,
            adult_collects: match flags >> 1 {
                0 => None,
                1 => Some(true),
                2 => Some(false),
                _ => return None,
            },
            people: people?,
        };
        code.is_sound().then_some(code)
    }

    /// What a reader would refuse is not written either.
    pub(super) fn is_sound(&self) -> bool {
        let ids = || self.people.iter().map(|person| person.id);
        let unique = ids()
            .enumerate()
            .all(|(at, id)| !ids().take(at).any(|other| other == id));
        unique && !self.people.is_empty() && self.people.len() <= MOST_PEOPLE
    }
}
