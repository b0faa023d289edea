//! An exact non-negative number as people write it: `31`, `7.5`, `1/2`, `1 1/2`, `½`, `1½`.

use super::quantity::{QuantityError, QuantityProblem};

/// A fraction in the form it was written; the denominator is never zero.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Number {
    numerator: u64,
    denominator: u64,
}

/// Digits after the decimal point beyond which a measure is noise, not precision.
const MOST_DECIMALS: usize = 6;

impl Number {
    pub const fn whole(value: u64) -> Number {
        Number {
            numerator: value,
            denominator: 1,
        }
    }

    /// Reads one number without unit.
    ///
    /// # Errors
    /// Anything but digits, one decimal point, a fraction or a fraction sign; more than six decimals; a zero denominator.
    pub fn parse(text: &str) -> Result<Number, QuantityError> {
        let problem = |kind| QuantityError::new(kind, text);
        let words: Vec<&str> = text.split_whitespace().collect();
        match words.as_slice() {
            [] => Err(problem(QuantityProblem::Empty)),
            [one] => Number::parse_word(one).ok_or_else(|| problem(Number::why_not(one))),
            [whole, part] if part.contains('/') || part.chars().all(|c| glyph(c).is_some()) => {
                let whole = Number::parse_word(whole).filter(|n| n.denominator == 1);
                let part = Number::parse_word(part).filter(|n| n.numerator < n.denominator);
                match (whole, part) {
                    (Some(whole), Some(part)) => whole
                        .plus(part)
                        .ok_or_else(|| problem(QuantityProblem::TooLarge)),
                    _ => Err(problem(QuantityProblem::NotANumber)),
                }
            }
            _ => Err(problem(QuantityProblem::NotANumber)),
        }
    }

    fn why_not(word: &str) -> QuantityProblem {
        if word.starts_with('-') || word.starts_with('−') {
            QuantityProblem::Negative
        } else if word.contains(',') {
            QuantityProblem::Comma
        } else if word
            .split_once('.')
            .is_some_and(|(_, d)| d.len() > MOST_DECIMALS && d.bytes().all(|b| b.is_ascii_digit()))
        {
            QuantityProblem::TooFine
        } else if !word.is_empty() && word.bytes().all(|b| b.is_ascii_digit()) {
            QuantityProblem::TooLarge
        } else {
            QuantityProblem::NotANumber
        }
    }

    fn parse_word(word: &str) -> Option<Number> {
        if let Some((over, under)) = word.split_once('/') {
            let (numerator, denominator) = (digits(over)?, digits(under)?);
            return (denominator > 0).then_some(Number {
                numerator,
                denominator,
            });
        }
        let last = word.chars().next_back()?;
        if let Some(part) = glyph(last) {
            let before = word.strip_suffix(last)?;
            let whole = if before.is_empty() {
                0
            } else {
                digits(before)?
            };
            return Number::whole(whole).plus(part);
        }
        match word.split_once('.') {
            None => digits(word).map(Number::whole),
            Some((whole, decimals)) => {
                if decimals.is_empty() || decimals.len() > MOST_DECIMALS {
                    return None;
                }
                let denominator = 10u64.checked_pow(u32::try_from(decimals.len()).ok()?)?;
                let whole = if whole.is_empty() { 0 } else { digits(whole)? };
                let numerator = whole
                    .checked_mul(denominator)?
                    .checked_add(digits(decimals)?)?;
                Some(Number {
                    numerator,
                    denominator,
                })
            }
        }
    }

    fn plus(self, other: Number) -> Option<Number> {
        let numerator = self
            .numerator
            .checked_mul(other.denominator)?
            .checked_add(other.numerator.checked_mul(self.denominator)?)?;
        Some(Number {
            numerator,
            denominator: self.denominator.checked_mul(other.denominator)?,
        })
    }

    /// The number times `factor` as a whole number, or nothing when it would not be whole or not fit.
    pub fn times(self, factor: u64) -> Option<u64> {
        let product = u128::from(self.numerator) * u128::from(factor);
        let denominator = u128::from(self.denominator);
        (product % denominator == 0)
            .then(|| u64::try_from(product / denominator).ok())
            .flatten()
    }

    /// Whether the number times `factor` is more than can be held, rather than too fine for it.
    pub fn exceeds(self, factor: u64) -> bool {
        u128::from(self.numerator) * u128::from(factor)
            > u128::from(u64::MAX) * u128::from(self.denominator)
    }

    pub fn as_whole(self) -> Option<u64> {
        self.times(1)
    }

    pub fn is_zero(self) -> bool {
        self.numerator == 0
    }
}

fn digits(text: &str) -> Option<u64> {
    let plain = !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
    plain.then(|| text.parse().ok()).flatten()
}

fn glyph(c: char) -> Option<Number> {
    let (numerator, denominator) = match c {
        '½' => (1, 2),
        '¼' => (1, 4),
        '¾' => (3, 4),
        '⅓' => (1, 3),
        '⅔' => (2, 3),
        '⅛' => (1, 8),
        _ => return None,
    };
    Some(Number {
        numerator,
        denominator,
    })
}
