//! Lengths of time as orders write them: `5 min`, `12 h`, `7 d`.

use jiff::SignedDuration;

use super::quantity::{self, QuantityError, QuantityProblem};

/// An elapsed length of time. A day is 24 hours here; days by the calendar are dates.
pub type Lapse = SignedDuration;

/// Reads `5 min`, `12 h`, `1 h 30 min`, `7 d`, `45 s`.
///
/// # Errors
/// See [`QuantityError`]; more than ten years.
pub fn parse_lapse(text: &str) -> Result<Lapse, QuantityError> {
    let problem = |kind| QuantityError::new(kind, text);
    let mut seconds = 0u64;
    let mut last = u64::MAX;
    for part in quantity::parts(text)? {
        let factor = match part.unit.as_str() {
            "s" => 1,
            "min" => 60,
            "h" => 3_600,
            "d" => 86_400,
            "" => {
                return Err(problem(QuantityProblem::MissingUnit {
                    known: "min, h or d",
                }));
            }
            _ => {
                return Err(problem(QuantityProblem::UnknownUnit {
                    unit: part.unit,
                    known: "min, h or d",
                }));
            }
        };
        if factor >= last {
            return Err(problem(QuantityProblem::OddMixture {
                rule: quantity::EACH_ONCE,
            }));
        }
        last = factor;
        let more = quantity::in_smallest(part.number, factor, text)?;
        seconds = seconds
            .checked_add(more)
            .filter(|s| *s < 316_000_000)
            .ok_or_else(|| problem(QuantityProblem::TooLarge))?;
    }
    i64::try_from(seconds)
        .map(SignedDuration::from_secs)
        .map_err(|_| problem(QuantityProblem::TooLarge))
}
