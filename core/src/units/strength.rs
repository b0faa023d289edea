//! How strong a product or a mixture is.

use super::quantity::{QuantityError, QuantityProblem};
use super::{Mass, Volume};

/// Mass of medicine in one tablet, or in a volume of liquid; kept as printed, never divided in advance.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Strength {
    PerTablet(Mass),
    PerVolume { mass: Mass, volume: Volume },
}

impl Strength {
    /// Reads `100 mg` (a tablet) or `25 mg / 5 mL` (a liquid).
    ///
    /// # Errors
    /// See [`QuantityError`]; a strength of zero.
    pub fn parse(text: &str) -> Result<Strength, QuantityError> {
        let zero = || QuantityError::new(QuantityProblem::NotPositive, text);
        let slash = text.char_indices().find(|(at, c)| {
            *c == '/'
                && text
                    .get(..*at)
                    .is_some_and(|before| before.trim_end().ends_with(|c: char| c.is_alphabetic()))
        });
        let Some((at, _)) = slash else {
            let mass = Mass::parse(text)?;
            return if mass == Mass::ZERO {
                Err(zero())
            } else {
                Ok(Strength::PerTablet(mass))
            };
        };
        let (mass, volume) = text.split_at(at);
        let volume = volume.trim_start_matches('/').trim();
        let one = format!("1 {volume}");
        let volume = if volume.starts_with(|c: char| c.is_alphabetic()) {
            one.as_str()
        } else {
            volume
        };
        let (mass, volume) = (Mass::parse(mass)?, Volume::parse(volume)?);
        if mass == Mass::ZERO || volume == Volume::ZERO {
            Err(zero())
        } else {
            Ok(Strength::PerVolume { mass, volume })
        }
    }

    /// Mass in `amount`, or nothing for a tablet or when it is not a whole number of micrograms.
    pub fn mass_in(self, amount: Volume) -> Option<Mass> {
        match self {
            Strength::PerTablet(_) => None,
            Strength::PerVolume { mass, volume } => {
                let product =
                    u128::from(mass.as_micrograms()) * u128::from(amount.as_microlitres());
                let per = u128::from(volume.as_microlitres());
                (per > 0 && product % per == 0)
                    .then(|| u64::try_from(product / per).ok().map(Mass::micrograms))
                    .flatten()
            }
        }
    }
}

impl std::fmt::Display for Strength {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Strength::PerTablet(mass) => write!(f, "{mass}"),
            Strength::PerVolume { mass, volume } => write!(f, "{mass} per {volume}"),
        }
    }
}
