//! Body weight, exact in the unit in which it was typed.

use std::cmp::Ordering;

use super::quantity::{self, Part, QuantityError, QuantityProblem};
use super::{Mass, Percent, show};

/// The unit a weight was typed in.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize, serde::Deserialize,
)]
#[serde(rename_all = "kebab-case")]
pub enum WeightUnit {
    Pounds,
    PoundsAndOunces,
    Kilograms,
}

/// Body weight in picograms, with the words as typed.
///
/// 1 lb = 0.45359237 kg exactly (international pound, 1959); 1 oz is a sixteenth of it.
#[derive(Clone, Debug)]
pub struct BodyWeight {
    picograms: u64,
    unit: WeightUnit,
    typed: String,
}

const PICOGRAMS_PER_KILOGRAM: u64 = 1_000_000_000_000_000;
const PICOGRAMS_PER_POUND: u64 = 453_592_370_000_000;
const PICOGRAMS_PER_OUNCE: u64 = 28_349_523_125_000;
/// Nobody weighs more; larger numbers are slips of the finger.
const MOST_PICOGRAMS: u64 = 1_000 * PICOGRAMS_PER_KILOGRAM;
const KNOWN: &str = "lb, lb and oz, or kg";

impl BodyWeight {
    /// Reads `31 lb 4 oz`, `31.25 lb`, `14.2 kg` or `4200 g`.
    ///
    /// # Errors
    /// No unit, an unknown unit, ounces of 16 or more beside pounds, zero, or more than 1,000 kg.
    pub fn parse(text: &str) -> Result<BodyWeight, QuantityError> {
        let problem = |kind| QuantityError::new(kind, text);
        let parts = quantity::parts(text)?;
        let (picograms, unit) = match parts.as_slice() {
            [one] => single(one, text)?,
            [pounds, ounces] if is_pound(&pounds.unit) && is_ounce(&ounces.unit) => {
                let whole = pounds.number.as_whole().is_some();
                if pounds.number.exceeds(PICOGRAMS_PER_POUND) {
                    return Err(problem(QuantityProblem::TooLarge));
                }
                let small = ounces
                    .number
                    .times(PICOGRAMS_PER_OUNCE)
                    .filter(|o| *o < PICOGRAMS_PER_POUND);
                match (pounds.number.times(PICOGRAMS_PER_POUND), small) {
                    (Some(pounds), Some(ounces)) if whole => (
                        pounds
                            .checked_add(ounces)
                            .ok_or_else(|| problem(QuantityProblem::TooLarge))?,
                        WeightUnit::PoundsAndOunces,
                    ),
                    _ => {
                        return Err(problem(QuantityProblem::OddMixture {
                            rule: "write whole pounds and less than 16 ounces",
                        }));
                    }
                }
            }
            _ => {
                return Err(problem(QuantityProblem::OddMixture {
                    rule: "write pounds and ounces, or one unit alone",
                }));
            }
        };
        if picograms == 0 {
            return Err(problem(QuantityProblem::NotPositive));
        }
        if picograms > MOST_PICOGRAMS {
            return Err(problem(QuantityProblem::TooLarge));
        }
        let typed = text.split_whitespace().collect::<Vec<_>>().join(" ");
        Ok(BodyWeight {
            picograms,
            unit,
            typed,
        })
    }

    /// A limit that no one typed, such as the plausibility bounds.
    pub fn kilograms(value: u32) -> BodyWeight {
        let picograms = u64::from(value.min(1_000)) * PICOGRAMS_PER_KILOGRAM;
        BodyWeight {
            picograms,
            unit: WeightUnit::Kilograms,
            typed: format!("{value} kg"),
        }
    }

    pub fn as_picograms(&self) -> u64 {
        self.picograms
    }

    pub fn unit(&self) -> WeightUnit {
        self.unit
    }

    /// The weight as typed.
    pub fn typed(&self) -> &str {
        &self.typed
    }

    /// Kilograms rounded to the nearest gram, half up; for reading, never for a rule.
    pub fn shown_kilograms(&self) -> String {
        show::decimal((self.picograms + 500_000_000_000) / 1_000_000_000_000, 3)
    }

    /// `dose` per kilogram of this weight, in hundredths of mg/kg, half away from zero.
    pub fn hundredths_mg_per_kg(&self, dose: Mass) -> u128 {
        let numerator = u128::from(dose.as_micrograms()) * 100_000_000_000_000;
        let denominator = u128::from(self.picograms);
        (2 * numerator + denominator) / (2 * denominator)
    }

    /// Compares `dose` with `per_kg` × this weight × `share`, exactly.
    pub fn compare_dose(&self, dose: Mass, per_kg: Mass, share: Percent) -> Ordering {
        let given = u128::from(dose.as_micrograms())
            * u128::from(PICOGRAMS_PER_KILOGRAM)
            * u128::from(Percent::WHOLE.as_thousandths());
        let wanted = u128::from(per_kg.as_micrograms())
            * u128::from(self.picograms)
            * u128::from(share.as_thousandths());
        given.cmp(&wanted)
    }

    /// The gap between two weights in picograms.
    pub fn distance(&self, other: &BodyWeight) -> u64 {
        self.picograms.abs_diff(other.picograms)
    }

    /// The weight halfway between two, exact to a picogram, written in the first one's unit system.
    pub fn mean(&self, other: &BodyWeight) -> BodyWeight {
        let picograms = self.picograms / 2
            + other.picograms / 2
            + (self.picograms % 2 + other.picograms % 2) / 2;
        BodyWeight {
            picograms,
            unit: self.unit,
            typed: format!("mean of {} and {}", self.typed, other.typed),
        }
    }
}

/// Weights that nobody typed, written so that [`BodyWeight::parse`] reads the same weight back.
impl BodyWeight {
    /// Half a pound: what a bathroom scale may be wrong by.
    pub fn scale_error() -> BodyWeight {
        BodyWeight::written(PICOGRAMS_PER_POUND / 2, WeightUnit::Pounds)
    }

    /// What is left without `other`, in kilograms if either was; nothing when nothing is left.
    pub fn minus(&self, other: &BodyWeight) -> Option<BodyWeight> {
        let left = self.picograms.checked_sub(other.picograms)?;
        (left > 0).then(|| BodyWeight::written(left, self.unit.with(other.unit)))
    }

    /// The weight with so many picograms more, or nothing beyond what anybody weighs.
    pub fn plus(&self, picograms: u64) -> Option<BodyWeight> {
        let sum = self.picograms.checked_add(picograms)?;
        (sum <= MOST_PICOGRAMS).then(|| BodyWeight::written(sum, self.unit))
    }

    /// The weight halfway to another; half a picogram is dropped.
    pub fn halfway(&self, other: &BodyWeight) -> BodyWeight {
        let mean = self.mean(other).picograms;
        BodyWeight::written(mean, self.unit.with(other.unit))
    }

    /// Written in `unit`: whole ounces beside pounds, else decimals, else a fraction.
    fn written(picograms: u64, unit: WeightUnit) -> BodyWeight {
        let typed = match unit {
            WeightUnit::PoundsAndOunces
                if picograms >= PICOGRAMS_PER_POUND
                    && picograms.is_multiple_of(PICOGRAMS_PER_OUNCE) =>
            {
                let pounds = picograms / PICOGRAMS_PER_POUND;
                let ounces = picograms % PICOGRAMS_PER_POUND / PICOGRAMS_PER_OUNCE;
                format!("{pounds} lb {ounces} oz")
            }
            WeightUnit::Pounds | WeightUnit::PoundsAndOunces => {
                let number = number_of(picograms, PICOGRAMS_PER_POUND);
                format!("{number} lb")
            }
            WeightUnit::Kilograms => {
                let number = number_of(picograms, PICOGRAMS_PER_KILOGRAM);
                format!("{number} kg")
            }
        };
        BodyWeight {
            picograms,
            unit,
            typed,
        }
    }
}

impl WeightUnit {
    /// The unit two weights have in common: pounds stay pounds, all else is kilograms.
    fn with(self, other: WeightUnit) -> WeightUnit {
        match (self, other) {
            (WeightUnit::Kilograms, _) | (_, WeightUnit::Kilograms) => WeightUnit::Kilograms,
            (WeightUnit::Pounds, WeightUnit::Pounds) => WeightUnit::Pounds,
            _ => WeightUnit::PoundsAndOunces,
        }
    }
}

/// `amount` / `unit` with up to six decimals, or as a fraction where these do not end.
fn number_of(amount: u64, unit: u64) -> String {
    let millionths = u128::from(amount) * 1_000_000;
    if !millionths.is_multiple_of(u128::from(unit)) {
        return format!("{amount}/{unit}");
    }
    // No mark for thousands: it could not be read back.
    let millionths = millionths / u128::from(unit);
    let (whole, rest) = (millionths / 1_000_000, millionths % 1_000_000);
    let decimals = format!("{rest:06}");
    match decimals.trim_end_matches('0') {
        "" => whole.to_string(),
        decimals => format!("{whole}.{decimals}"),
    }
}

impl PartialEq for BodyWeight {
    fn eq(&self, other: &BodyWeight) -> bool {
        self.picograms == other.picograms
    }
}

impl Eq for BodyWeight {}

impl PartialOrd for BodyWeight {
    fn partial_cmp(&self, other: &BodyWeight) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for BodyWeight {
    fn cmp(&self, other: &BodyWeight) -> Ordering {
        self.picograms.cmp(&other.picograms)
    }
}

impl std::fmt::Display for BodyWeight {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.typed)
    }
}

fn is_pound(unit: &str) -> bool {
    matches!(
        unit.to_lowercase().as_str(),
        "lb" | "lbs" | "pound" | "pounds"
    )
}

fn is_ounce(unit: &str) -> bool {
    matches!(unit.to_lowercase().as_str(), "oz" | "ounce" | "ounces")
}

fn single(part: &Part, text: &str) -> Result<(u64, WeightUnit), QuantityError> {
    let problem = |kind| QuantityError::new(kind, text);
    let (factor, unit) = match part.unit.to_lowercase().as_str() {
        "" => return Err(problem(QuantityProblem::MissingUnit { known: KNOWN })),
        unit if is_pound(unit) => (PICOGRAMS_PER_POUND, WeightUnit::Pounds),
        "kg" | "kilogram" | "kilograms" => (PICOGRAMS_PER_KILOGRAM, WeightUnit::Kilograms),
        "g" | "gram" | "grams" => (PICOGRAMS_PER_KILOGRAM / 1_000, WeightUnit::Kilograms),
        _ => {
            return Err(problem(QuantityProblem::UnknownUnit {
                unit: part.unit.clone(),
                known: KNOWN,
            }));
        }
    };
    Ok((quantity::in_smallest(part.number, factor, text)?, unit))
}
