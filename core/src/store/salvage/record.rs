//! Reading one record of a table from raw pages, without trusting anything around it.
//!
//! Format: <https://www.sqlite.org/fileformat2.html#b_tree_pages> and the sections on cell payload and record format below it.

use rusqlite::types::Value;

use super::super::opening::PAGE;

/// Longer records are not ours.
const MOST_BYTES: usize = 64 << 20;
/// Payload that stays in its page, and the least that does when the rest does not.
const MOST_LOCAL: usize = PAGE - 35;
const LEAST_LOCAL: usize = (PAGE - 12) * 32 / 255 - 23;
/// What a page of overflow holds behind the number of the next.
const OVERFLOW: usize = PAGE - 4;

/// A page by its number.
pub(super) type Pages<'p> = dyn Fn(u32) -> Option<&'p [u8]> + 'p;

/// The row number and the values of the record that begins at `at`, if one does.
pub(super) fn record_at(page: &[u8], at: usize, pages: &Pages<'_>) -> Option<(i64, Vec<Value>)> {
    let rest = page.get(at..)?;
    let (size, rest) = varint(rest)?;
    let size = usize::try_from(size)
        .ok()
        .filter(|size| (3..=MOST_BYTES).contains(size))?;
    let (number, rest) = varint(rest)?;
    // Every table of ours has few columns, and the number, kept outside, is the first of them.
    if !matches!(rest, [2..=40, 0, ..]) {
        return None;
    }
    if size <= MOST_LOCAL {
        return Some((number, values(rest.get(..size)?)?));
    }
    let surplus = LEAST_LOCAL + (size - LEAST_LOCAL) % OVERFLOW;
    let local = if surplus <= MOST_LOCAL {
        surplus
    } else {
        LEAST_LOCAL
    };
    let mut payload = rest.get(..local)?.to_vec();
    let mut next = page_number(rest.get(local..)?)?;
    while payload.len() < size {
        let overflow = pages(next)?;
        let here = (size - payload.len()).min(OVERFLOW);
        next = page_number(overflow)?;
        payload.extend_from_slice(overflow.get(4..4 + here)?);
    }
    Some((number, values(&payload)?))
}

fn page_number(bytes: &[u8]) -> Option<u32> {
    Some(u32::from_be_bytes(bytes.get(..4)?.try_into().ok()?))
}

fn values(payload: &[u8]) -> Option<Vec<Value>> {
    let (header, _) = varint(payload)?;
    let (mut types, mut data) = payload.split_at_checked(usize::try_from(header).ok()?)?;
    types = varint(types)?.1;
    let mut values = Vec::new();
    while !types.is_empty() {
        let (kind, rest) = varint(types)?;
        types = rest;
        let (value, rest) = value(kind, data)?;
        data = rest;
        values.push(value);
    }
    data.is_empty().then_some(values)
}

fn value(kind: i64, data: &[u8]) -> Option<(Value, &[u8])> {
    let size = match kind {
        0 | 8 | 9 => 0,
        1..=4 => usize::try_from(kind).ok()?,
        5 => 6,
        6 => 8,
        12.. => usize::try_from((kind - 12) / 2).ok()?,
        _ => return None,
    };
    let (bytes, rest) = data.split_at_checked(size)?;
    let value = match kind {
        0 => Value::Null,
        8 => Value::Integer(0),
        9 => Value::Integer(1),
        1..=6 => {
            let negative = bytes.first().is_some_and(|first| first & 0x80 != 0);
            let start: i64 = if negative { -1 } else { 0 };
            Value::Integer(
                bytes
                    .iter()
                    .fold(start, |number, byte| (number << 8) | i64::from(*byte)),
            )
        }
        _ if kind % 2 == 0 => Value::Blob(bytes.to_vec()),
        _ => Value::Text(String::from_utf8(bytes.to_vec()).ok()?),
    };
    Some((value, rest))
}

/// SQLite's number of one to nine bytes, and what is behind it.
fn varint(bytes: &[u8]) -> Option<(i64, &[u8])> {
    let mut number: i64 = 0;
    for (index, byte) in bytes.iter().take(9).enumerate() {
        let rest = bytes.get(index + 1..)?;
        if index == 8 {
            return Some(((number << 8) | i64::from(*byte), rest));
        }
        number = (number << 7) | i64::from(byte & 0x7f);
        if byte & 0x80 == 0 {
            return Some((number, rest));
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_of_every_length() {
        // From the description of the format: seven bits a byte, high bit set on all but the last; the ninth byte counts whole.
        assert_eq!(varint(&[0x00]), Some((0, &[][..])));
        assert_eq!(varint(&[0x7f, 9]), Some((127, &[9][..])));
        assert_eq!(varint(&[0x81, 0x00]), Some((128, &[][..])));
        assert_eq!(varint(&[0xff; 9]), Some((-1, &[][..])));
        assert_eq!(varint(&[0x81]), None);
        assert_eq!(varint(&[]), None);
    }

    #[test]
    fn values_of_every_kind() {
        let payload = [
            8, 0, 8, 9, 1, 2, 17, 18, 0xff, 0x01, 0x00, b'h', b'i', 1, 2, 3,
        ];
        assert_eq!(
            values(&payload),
            Some(vec![
                Value::Null,
                Value::Integer(0),
                Value::Integer(1),
                Value::Integer(-1),
                Value::Integer(256),
                Value::Text("hi".to_owned()),
                Value::Blob(vec![1, 2, 3]),
            ])
        );
        assert_eq!(values(&payload[..15]), None);
        assert_eq!(values(&[2, 10]), None);
        assert_eq!(values(&[200, 1]), None);
    }

    #[test]
    fn a_loop_of_overflow_pages_ends() {
        let mut page = vec![0; PAGE];
        // 3,000,000 bytes, number 1, and a header of ours; the overflow page names itself.
        page[..6].copy_from_slice(&[0x81, 0xb7, 0x8d, 0x40, 1, 2]);
        let own: Vec<u8> = 1_u32
            .to_be_bytes()
            .into_iter()
            .chain([0; OVERFLOW])
            .collect();
        let pages = |_: u32| Some(own.as_slice());
        assert_eq!(record_at(&page, 0, &pages), None);
    }
}
