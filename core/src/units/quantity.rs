//! Reading a quantity with its unit, and what can be wrong with it.

use super::Number;

/// Why a quantity could not be read. `given` is the text as typed.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{}", self.sentence())]
pub struct QuantityError {
    pub problem: QuantityProblem,
    pub given: String,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub enum QuantityProblem {
    Empty,
    NotANumber,
    Negative,
    /// A decimal comma: half the world reads it as a thousands mark.
    Comma,
    TooFine,
    TooLarge,
    MissingUnit {
        known: &'static str,
    },
    UnknownUnit {
        unit: String,
        known: &'static str,
    },
    /// Such as 20 oz beside pounds, or kilograms and pounds together.
    OddMixture {
        rule: &'static str,
    },
    NotPositive,
    /// The value exists but cannot be held exactly in the smallest unit.
    NotExact,
}

impl QuantityError {
    pub fn new(problem: QuantityProblem, given: &str) -> QuantityError {
        QuantityError {
            problem,
            given: given.trim().to_owned(),
        }
    }

    /// Short stable name of the problem.
    pub fn code(&self) -> &'static str {
        match self.problem {
            QuantityProblem::Empty => "quantity-empty",
            QuantityProblem::NotANumber => "quantity-not-a-number",
            QuantityProblem::Negative => "quantity-negative",
            QuantityProblem::Comma => "quantity-comma",
            QuantityProblem::TooFine => "quantity-too-fine",
            QuantityProblem::TooLarge => "quantity-too-large",
            QuantityProblem::MissingUnit { .. } => "quantity-without-unit",
            QuantityProblem::UnknownUnit { .. } => "quantity-unknown-unit",
            QuantityProblem::OddMixture { .. } => "quantity-odd-mixture",
            QuantityProblem::NotPositive => "quantity-not-positive",
            QuantityProblem::NotExact => "quantity-not-exact",
        }
    }

    fn sentence(&self) -> String {
        let given = &self.given;
        match &self.problem {
            QuantityProblem::Empty => "nothing was typed".to_owned(),
            QuantityProblem::NotANumber => {
                format!("“{given}” is not a number with a unit; type digits, such as 31 or 7.5")
            }
            QuantityProblem::Negative => format!("“{given}” is below zero"),
            QuantityProblem::Comma => format!(
                "“{given}” has a comma; write a point for decimals and no mark for thousands"
            ),
            QuantityProblem::TooFine => {
                format!("“{given}” has more than six digits after the point")
            }
            QuantityProblem::TooLarge => format!("“{given}” is too large"),
            QuantityProblem::MissingUnit { known } => format!("“{given}” has no unit; use {known}"),
            QuantityProblem::UnknownUnit { unit, known } => {
                format!("“{given}” has the unknown unit “{unit}”; use {known}")
            }
            QuantityProblem::OddMixture { rule } => {
                format!("“{given}” mixes units in a way that can be misread; {rule}")
            }
            QuantityProblem::NotPositive => format!("“{given}” is zero; it must be more than that"),
            QuantityProblem::NotExact => {
                format!("“{given}” cannot be held exactly; use a coarser number")
            }
        }
    }
}

/// `5 min 5 min` is a slip, not ten minutes.
pub(super) const EACH_ONCE: &str = "write each unit once, the largest first";

/// One number with the unit behind it, in the order typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Part {
    pub number: Number,
    pub unit: String,
}

/// Splits `31 lb 4 oz` into its parts. Units are letters or `%`; a missing unit is an empty string.
///
/// # Errors
/// What [`Number::parse`] gives, and an empty text.
pub fn parts(text: &str) -> Result<Vec<Part>, QuantityError> {
    let mut found = Vec::new();
    let (mut number, mut unit) = (String::new(), String::new());
    let mut close = |number: &mut String, unit: &mut String| -> Result<(), QuantityError> {
        let value = Number::parse(number).map_err(|e| {
            // Something was typed, only no number: `lb`.
            let problem = if e.problem == QuantityProblem::Empty {
                QuantityProblem::NotANumber
            } else {
                e.problem
            };
            QuantityError::new(problem, text)
        })?;
        found.push(Part {
            number: value,
            unit: std::mem::take(unit),
        });
        number.clear();
        Ok(())
    };
    for c in text.trim().chars() {
        let letter = c.is_alphabetic() || c == '%' || c == 'µ';
        if letter {
            unit.push(c);
        } else {
            if !unit.is_empty() && !c.is_whitespace() {
                close(&mut number, &mut unit)?;
            }
            if unit.is_empty() {
                number.push(c);
            }
        }
    }
    if number.trim().is_empty() && unit.is_empty() {
        return Err(QuantityError::new(QuantityProblem::Empty, text));
    }
    close(&mut number, &mut unit)?;
    Ok(found)
}

/// Reads a quantity of exactly one part, in the smallest unit of `units` (name, factor to the smallest unit).
///
/// # Errors
/// Unknown or missing unit, more than one part, a value that is not whole in the smallest unit.
pub fn single(
    text: &str,
    units: &[(&str, u64)],
    known: &'static str,
) -> Result<u64, QuantityError> {
    let problem = |kind| QuantityError::new(kind, text);
    let parts = parts(text)?;
    let [part] = parts.as_slice() else {
        return Err(problem(QuantityProblem::NotANumber));
    };
    if part.unit.is_empty() {
        return Err(problem(QuantityProblem::MissingUnit { known }));
    }
    let factor = units
        .iter()
        .find_map(|(name, factor)| (*name == part.unit).then_some(*factor))
        .ok_or_else(|| {
            problem(QuantityProblem::UnknownUnit {
                unit: part.unit.clone(),
                known,
            })
        })?;
    in_smallest(part.number, factor, text)
}

/// `number` times `factor` as a whole number.
///
/// # Errors
/// More than can be held, or too fine.
pub(super) fn in_smallest(number: Number, factor: u64, text: &str) -> Result<u64, QuantityError> {
    let why = if number.exceeds(factor) {
        QuantityProblem::TooLarge
    } else {
        QuantityProblem::NotExact
    };
    number
        .times(factor)
        .ok_or_else(|| QuantityError::new(why, text))
}
