//! A body weight as two whole numbers, exact in the unit it was typed in.
//!
//! The first number is unit + 3 × decimals (0 pounds, 1 pounds and ounces, 2 kilograms; at most six decimals), the second counts that unit's decimals, ounces for pounds and ounces.
//! `31 lb 4 oz` is 1, 500; `14.2 kg` is 5, 142. Of the spellings of one weight only the one with the fewest decimals is right.

use crate::units::{BodyWeight, WeightUnit};

const PICOGRAMS_PER_POUND: u128 = 453_592_370_000_000;
const PICOGRAMS_PER_OUNCE: u128 = 28_349_523_125_000;
const PICOGRAMS_PER_KILOGRAM: u128 = 1_000_000_000_000_000;
const MOST_DECIMALS: u32 = 6;

/// The two numbers; none for a weight that six decimals of its unit cannot hold.
pub(super) fn numbers(weight: &BodyWeight) -> Option<(u64, u64)> {
    let (unit, each) = match weight.unit() {
        WeightUnit::Pounds => (0, PICOGRAMS_PER_POUND),
        WeightUnit::PoundsAndOunces => (1, PICOGRAMS_PER_OUNCE),
        WeightUnit::Kilograms => (2, PICOGRAMS_PER_KILOGRAM),
    };
    (0..=MOST_DECIMALS).find_map(|decimals| {
        let scaled =
            u128::from(weight.as_picograms()).checked_mul(10u128.checked_pow(decimals)?)?;
        let count = u64::try_from(scaled / each).ok()?;
        let form = u64::from(decimals).checked_mul(3)?.checked_add(unit)?;
        (scaled % each == 0).then_some((form, count))
    })
}

/// The weight of two numbers, with the words somebody would have typed.
pub(super) fn weight(form: u64, count: u64) -> Option<BodyWeight> {
    let decimals = u32::try_from(form / 3).ok()?;
    if decimals > MOST_DECIMALS {
        return None;
    }
    let typed = match form % 3 {
        0 => format!("{} lb", decimal(count, decimals)?),
        1 => {
            let pound = 16u64.checked_mul(10u64.checked_pow(decimals)?)?;
            format!(
                "{} lb {} oz",
                count / pound,
                decimal(count % pound, decimals)?
            )
        }
        _ => format!("{} kg", decimal(count, decimals)?),
    };
    let weight = BodyWeight::parse(&typed).ok()?;
    (numbers(&weight) == Some((form, count))).then_some(weight)
}

fn decimal(count: u64, decimals: u32) -> Option<String> {
    let one = 10u64.checked_pow(decimals)?;
    let width = usize::try_from(decimals).ok()?;
    let behind = count % one;
    Some(if decimals == 0 {
        count.to_string()
    } else {
        format!("{}.{behind:0width$}", count / one)
    })
}
