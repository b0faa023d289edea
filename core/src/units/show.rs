//! Writing quantities, by the rules of medicine labels: no trailing zero, always a leading zero, a comma from 1,000 on, a space before the unit.
//!
//! Source of the rules: ISMP list of error-prone abbreviations and dose designations (secondary copies).

use super::{Lapse, Volume};

/// Digits of `value` / 10^`places`.
pub fn decimal(value: u64, places: u32) -> String {
    let unit = 10u64.checked_pow(places).unwrap_or(1).max(1);
    let whole = thousands(value / unit);
    let rest = value % unit;
    if rest == 0 {
        return whole;
    }
    let digits = format!(
        "{rest:0width$}",
        width = usize::try_from(places).unwrap_or(0)
    );
    format!("{whole}.{}", digits.trim_end_matches('0'))
}

/// Two decimals always, for columns that are compared: `2.65`, `2.20`.
pub fn hundredths(value: u128) -> String {
    format!("{}.{:02}", value / 100, value % 100)
}

fn thousands(value: u64) -> String {
    let digits = value.to_string();
    let mut out = String::with_capacity(digits.len() + digits.len() / 3);
    for (index, digit) in digits.chars().enumerate() {
        if index > 0 && (digits.len() - index).is_multiple_of(3) {
            out.push(',');
        }
        out.push(digit);
    }
    out
}

/// Teaspoons as a number with fraction sign: `1½`, or nothing when the volume is between quarters.
pub fn teaspoon_number(volume: Volume) -> Option<String> {
    let quarters = volume.quarter_teaspoons()?;
    let part = match quarters % 4 {
        0 => "",
        1 => "¼",
        2 => "½",
        _ => "¾",
    };
    let whole = quarters / 4;
    Some(if whole == 0 && !part.is_empty() {
        part.to_owned()
    } else {
        format!("{}{part}", thousands(whole))
    })
}

/// `1½ teaspoons (7.5 mL)`, or `4.4 mL` when it is no kitchen measure. English; screens use their own words.
pub fn spoon_text(volume: Volume) -> String {
    match teaspoon_number(volume) {
        Some(number) => {
            let word = if volume > Volume::ZERO && volume <= Volume::TEASPOON {
                "teaspoon"
            } else {
                "teaspoons"
            };
            format!("{number} {word} ({volume})")
        }
        None => volume.to_string(),
    }
}

/// A length of time in English: `5 minutes`, `24 hours`, `1 hour 30 minutes`, `7 days`.
pub fn lapse_text(lapse: Lapse) -> String {
    let seconds = lapse.as_secs().unsigned_abs();
    let days = if seconds >= 2 * 86_400 {
        seconds / 86_400
    } else {
        0
    };
    let rest = seconds - days * 86_400;
    let words: Vec<String> = [
        (days, "day"),
        (rest / 3_600, "hour"),
        (rest % 3_600 / 60, "minute"),
        (rest % 60, "second"),
    ]
    .iter()
    .filter(|(value, _)| *value > 0)
    .map(|(value, word)| format!("{value} {word}{}", if *value == 1 { "" } else { "s" }))
    .collect();
    if words.is_empty() {
        "no time".to_owned()
    } else {
        words.join(" ")
    }
}
