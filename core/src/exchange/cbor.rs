//! The part of CBOR (RFC 8949) that messages are made of, in its one deterministic spelling.
//!
//! Whole numbers, byte and text strings, arrays, true, false and null; heads as short as they go, nothing of indefinite length, no maps, tags or floats.
//! [`decode`] writes what it has read once more and compares, so a second spelling of a message is refused.

use minicbor::data::Type;
use minicbor::{Decoder, Encoder};

/// One item.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Value {
    /// 0 and above.
    Whole(u64),
    /// −1 − n.
    Minus(u64),
    Bytes(Vec<u8>),
    Text(String),
    List(Vec<Value>),
    Bool(bool),
    Null,
}

/// Lists within lists; no message needs more.
const DEEPEST: usize = 8;

impl Value {
    pub fn text(text: &str) -> Value {
        Value::Text(text.to_owned())
    }

    pub fn bytes(bytes: &[u8]) -> Value {
        Value::Bytes(bytes.to_vec())
    }

    pub fn signed(number: i64) -> Value {
        u64::try_from(number).map_or_else(|_| Value::Minus((!number).unsigned_abs()), Value::Whole)
    }

    /// Null stands for what is absent.
    pub fn or_null<T>(item: Option<T>, make: impl FnOnce(T) -> Value) -> Value {
        item.map_or(Value::Null, make)
    }
}

/// The bytes of an item.
pub fn encode(value: &Value) -> Vec<u8> {
    let mut encoder = Encoder::new(Vec::new());
    // Writing into memory cannot fail, and every shape of a value has its bytes.
    let _ = write(value, &mut encoder);
    encoder.into_writer()
}

/// The item in these bytes; none when they are anything but its one spelling.
pub fn decode(bytes: &[u8]) -> Option<Value> {
    let mut decoder = Decoder::new(bytes);
    let value = read(&mut decoder, DEEPEST)?;
    (encode(&value) == bytes).then_some(value)
}

type Written = Result<(), minicbor::encode::Error<core::convert::Infallible>>;

fn write(value: &Value, to: &mut Encoder<Vec<u8>>) -> Written {
    match value {
        Value::Whole(number) => to.u64(*number)?.ok(),
        Value::Minus(number) => {
            let number = -1 - i128::from(*number);
            match minicbor::data::Int::try_from(number) {
                Ok(int) => to.int(int)?.ok(),
                Err(_) => to.null()?.ok(),
            }
        }
        Value::Bytes(bytes) => to.bytes(bytes)?.ok(),
        Value::Text(text) => to.str(text)?.ok(),
        Value::List(items) => {
            to.array(u64::try_from(items.len()).unwrap_or(u64::MAX))?;
            items.iter().try_for_each(|item| write(item, to))
        }
        Value::Bool(truth) => to.bool(*truth)?.ok(),
        Value::Null => to.null()?.ok(),
    }
}

fn read(from: &mut Decoder<'_>, deeper: usize) -> Option<Value> {
    Some(match from.datatype().ok()? {
        Type::U8 | Type::U16 | Type::U32 | Type::U64 => Value::Whole(from.u64().ok()?),
        Type::I8 | Type::I16 | Type::I32 | Type::I64 | Type::Int => {
            let number = i128::from(from.int().ok()?);
            Value::Minus(u64::try_from(-1 - number).ok()?)
        }
        Type::Bytes => Value::Bytes(from.bytes().ok()?.to_vec()),
        Type::String => Value::Text(from.str().ok()?.to_owned()),
        Type::Array => {
            let count = from.array().ok()??;
            let deeper = deeper.checked_sub(1)?;
            let mut items = Vec::new();
            for _ in 0..count {
                items.push(read(from, deeper)?);
            }
            Value::List(items)
        }
        Type::Bool => Value::Bool(from.bool().ok()?),
        Type::Null => {
            from.null().ok()?;
            Value::Null
        }
        _ => return None,
    })
}

/// The items of a list, taken one by one in their documented order.
pub(super) struct Fields<'a>(std::slice::Iter<'a, Value>);

impl<'a> Fields<'a> {
    pub(super) fn of(value: &'a Value) -> Option<Fields<'a>> {
        match value {
            Value::List(items) => Some(Fields(items.iter())),
            _ => None,
        }
    }

    pub(super) fn next(&mut self) -> Option<&'a Value> {
        self.0.next()
    }

    /// Nothing may stand behind the last known item.
    pub(super) fn end(mut self) -> Option<()> {
        self.0.next().is_none().then_some(())
    }

    pub(super) fn whole<T: TryFrom<u64>>(&mut self) -> Option<T> {
        whole(self.next()?)
    }

    pub(super) fn signed(&mut self) -> Option<i64> {
        match self.next()? {
            Value::Whole(number) => i64::try_from(*number).ok(),
            Value::Minus(number) => i64::try_from(*number).ok().map(|number| !number),
            _ => None,
        }
    }

    pub(super) fn text(&mut self) -> Option<&'a str> {
        text(self.next()?)
    }

    pub(super) fn bytes<const N: usize>(&mut self) -> Option<[u8; N]> {
        match self.next()? {
            Value::Bytes(bytes) => bytes.as_slice().try_into().ok(),
            _ => None,
        }
    }

    pub(super) fn some_bytes(&mut self) -> Option<&'a [u8]> {
        match self.next()? {
            Value::Bytes(bytes) => Some(bytes),
            _ => None,
        }
    }

    pub(super) fn list(&mut self) -> Option<&'a [Value]> {
        match self.next()? {
            Value::List(items) => Some(items),
            _ => None,
        }
    }

    /// The outer option: whether the item was right; the inner: whether it was there.
    pub(super) fn or_null<T>(
        &mut self,
        read: impl FnOnce(&'a Value) -> Option<T>,
    ) -> Option<Option<T>> {
        match self.next()? {
            Value::Null => Some(None),
            value => read(value).map(Some),
        }
    }
}

pub(super) fn whole<T: TryFrom<u64>>(value: &Value) -> Option<T> {
    match value {
        Value::Whole(number) => T::try_from(*number).ok(),
        _ => None,
    }
}

pub(super) fn text(value: &Value) -> Option<&str> {
    match value {
        Value::Text(text) => Some(text),
        _ => None,
    }
}
