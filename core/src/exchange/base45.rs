//! Base45 (RFC 9285), strict: every text that decodes is the one text its bytes encode to.
//!
//! Two bytes are three characters, a last single byte two; values above 65535 or 255 and lone characters are refused.

/// The alphabet is QR's alphanumeric set, in its order (RFC 9285, table 1).
const ALPHABET: &[u8; 45] = b"0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:";

/// The text of some bytes.
pub fn encode(bytes: &[u8]) -> String {
    let mut out = String::new();
    let mut push = |value: usize| {
        if let Some(letter) = ALPHABET.get(value) {
            out.push(char::from(*letter));
        }
    };
    for pair in bytes.chunks(2) {
        match pair {
            [high, low] => {
                let value = usize::from(*high) * 256 + usize::from(*low);
                push(value % 45);
                push(value / 45 % 45);
                push(value / (45 * 45));
            }
            [single] => {
                push(usize::from(*single) % 45);
                push(usize::from(*single) / 45);
            }
            _ => {}
        }
    }
    out
}

/// The bytes of a text; none when it is not base45.
pub fn decode(text: &str) -> Option<Vec<u8>> {
    let values: Option<Vec<u32>> = text.bytes().map(value_of).collect();
    let mut out = Vec::new();
    for group in values?.chunks(3) {
        match group {
            [a, b, c] => {
                let value = u16::try_from(a + b * 45 + c * 45 * 45).ok()?;
                out.extend(value.to_be_bytes());
            }
            [a, b] => out.push(u8::try_from(a + b * 45).ok()?),
            _ => return None,
        }
    }
    Some(out)
}

fn value_of(letter: u8) -> Option<u32> {
    let at = ALPHABET.iter().position(|known| *known == letter)?;
    u32::try_from(at).ok()
}
