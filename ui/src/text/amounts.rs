//! Amounts in words and drawn, always together.

use hearthdose_core::dose::DoseForm;
use hearthdose_core::prep::Tool;
use hearthdose_core::units::{Volume, show};

use super::Words;
use crate::vm::view::{Amount, AmountPart, Spoon};

/// What an amount is measured with, as far as words go.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measure {
    Spoon,
    Syringe,
}

impl From<Tool> for Measure {
    fn from(tool: Tool) -> Measure {
        match tool {
            Tool::Spoon => Measure::Spoon,
            Tool::Syringe => Measure::Syringe,
        }
    }
}

impl Words {
    /// "1½ teaspoons (7.5 mL)", or mL first in a syringe household.
    pub fn volume(&self, volume: Volume, measure: Measure) -> String {
        let ml = volume.millilitres();
        match (show::teaspoon_number(volume), measure) {
            (Some(number), Measure::Spoon) => {
                // Up to one whole spoon the word is singular: "½ teaspoon".
                let key = if volume > Volume::ZERO && volume <= Volume::TEASPOON {
                    "amount-teaspoon"
                } else {
                    "amount-teaspoons"
                };
                self.say_with(key, &[("number", number.into()), ("ml", ml.into())])
            }
            _ => self.say_with("amount-ml", &[("ml", ml.into())]),
        }
    }

    pub fn dose_words(
        &self,
        form: DoseForm,
        amount: Volume,
        tablets: Option<u32>,
        measure: Measure,
    ) -> String {
        match (form, tablets) {
            (DoseForm::Tablets, Some(count)) => {
                self.say_with("amount-tablets", &[("count", count.into())])
            }
            (DoseForm::Liquid, _) => self.volume(amount, Measure::Syringe),
            _ => self.volume(amount, measure),
        }
    }

    /// The whole drawn amount.
    pub fn amount(
        &self,
        form: DoseForm,
        amount: Volume,
        tablets: Option<u32>,
        measure: Measure,
    ) -> Amount {
        let words = self.dose_words(form, amount, tablets, measure);
        let spoons = spoons(form, amount, tablets, measure);
        let mut parts = Vec::new();
        for (spoon, key) in [
            (Spoon::Full, "spoons-full"),
            (Spoon::ThreeQuarters, "spoons-three-quarters"),
            (Spoon::Half, "spoons-half"),
            (Spoon::Quarter, "spoons-quarter"),
        ] {
            let count = spoons.iter().filter(|s| **s == spoon).count();
            if count > 0 {
                parts.push(AmountPart {
                    spoon,
                    words: self.say_with(key, &[("count", count.into())]),
                });
            }
        }
        let syringe = spoons.contains(&Spoon::Syringe);
        let hint = if syringe {
            self.say_with("fill-syringe", &[("ml", amount.millilitres().into())])
        } else {
            String::new()
        };
        Amount {
            words,
            spoons,
            parts,
            hint,
        }
    }
}

/// One drawn spoon for each teaspoon, the part of a spoon last.
pub fn spoons(
    form: DoseForm,
    amount: Volume,
    tablets: Option<u32>,
    measure: Measure,
) -> Vec<Spoon> {
    if form == DoseForm::Tablets {
        return vec![Spoon::Tablet; usize::try_from(tablets.unwrap_or(1)).unwrap_or(1)];
    }
    let quarters = amount
        .quarter_teaspoons()
        .filter(|_| measure == Measure::Spoon && form == DoseForm::Mixture);
    let Some(quarters) = quarters else {
        return vec![Spoon::Syringe];
    };
    let mut drawn = vec![Spoon::Full; usize::try_from(quarters / 4).unwrap_or(0)];
    drawn.extend(match quarters % 4 {
        1 => Some(Spoon::Quarter),
        2 => Some(Spoon::Half),
        3 => Some(Spoon::ThreeQuarters),
        _ => None,
    });
    drawn
}
