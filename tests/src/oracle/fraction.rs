//! Fractions of whole numbers, as on paper.

use std::cmp::Ordering;
use std::ops::{Add, Div, Mul, Sub};

/// In lowest terms, with a positive denominator. Every step is checked: too large a number stops the test.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Fraction {
    over: i128,
    under: i128,
}

impl Fraction {
    pub fn new(over: i128, under: i128) -> Fraction {
        assert!(under != 0, "a fraction of nothing");
        let shared = divisor(over.abs(), under.abs()).max(1);
        let sign = under.signum();
        Fraction {
            over: sign * over / shared,
            under: sign * under / shared,
        }
    }

    pub fn whole(value: i128) -> Fraction {
        Fraction {
            over: value,
            under: 1,
        }
    }

    /// Reads `31`, `7.5`, `1/2`, `1 1/2`, `½` and `1½`.
    pub fn read(text: &str) -> Option<Fraction> {
        let mut sum: Option<Fraction> = None;
        for word in text.split_whitespace() {
            let value = Fraction::read_word(word)?;
            sum = Some(sum.map_or(value, |sum| sum + value));
        }
        sum
    }

    fn read_word(word: &str) -> Option<Fraction> {
        for (sign, over, under) in [('½', 1, 2), ('¼', 1, 4), ('¾', 3, 4)] {
            if let Some(before) = word.strip_suffix(sign) {
                let whole: i128 = if before.is_empty() {
                    0
                } else {
                    before.parse().ok()?
                };
                return Some(Fraction::whole(whole) + Fraction::new(over, under));
            }
        }
        if let Some((over, under)) = word.split_once('/') {
            return Some(Fraction::new(over.parse().ok()?, under.parse().ok()?));
        }
        let (whole, decimals) = word.split_once('.').unwrap_or((word, ""));
        let places = u32::try_from(decimals.len()).ok()?;
        let digits: i128 = format!("{whole}{decimals}").parse().ok()?;
        Some(Fraction::new(digits, 10i128.pow(places)))
    }

    pub fn is_whole(self) -> bool {
        self.under == 1
    }

    /// The largest whole number that is not above it.
    pub fn floor(self) -> i128 {
        self.over.div_euclid(self.under)
    }

    /// The smallest whole number that is not below it.
    pub fn ceiling(self) -> i128 {
        -(-self.over).div_euclid(self.under)
    }

    pub fn over(self) -> i128 {
        self.over
    }

    pub fn under(self) -> i128 {
        self.under
    }
}

fn divisor(a: i128, b: i128) -> i128 {
    let (mut a, mut b) = (a, b);
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a
}

fn times(a: i128, b: i128) -> i128 {
    a.checked_mul(b).expect("a number small enough to multiply")
}

impl Add for Fraction {
    type Output = Fraction;

    fn add(self, other: Fraction) -> Fraction {
        let over = times(self.over, other.under) + times(other.over, self.under);
        Fraction::new(over, times(self.under, other.under))
    }
}

impl Sub for Fraction {
    type Output = Fraction;

    fn sub(self, other: Fraction) -> Fraction {
        self + Fraction {
            over: -other.over,
            under: other.under,
        }
    }
}

impl Mul for Fraction {
    type Output = Fraction;

    fn mul(self, other: Fraction) -> Fraction {
        Fraction::new(times(self.over, other.over), times(self.under, other.under))
    }
}

impl Div for Fraction {
    type Output = Fraction;

    fn div(self, other: Fraction) -> Fraction {
        Fraction::new(times(self.over, other.under), times(self.under, other.over))
    }
}

impl Ord for Fraction {
    fn cmp(&self, other: &Fraction) -> Ordering {
        times(self.over, other.under).cmp(&times(other.over, self.under))
    }
}

impl PartialOrd for Fraction {
    fn partial_cmp(&self, other: &Fraction) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}
