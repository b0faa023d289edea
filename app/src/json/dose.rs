//! A dose as JSON.

use hearthdose_core::dose::{Dose, DoseForm, TraceLine};
use hearthdose_core::units::{Volume, show};
use serde::Serialize;

use super::{milligrams, millilitres};

/// The amount of one dose; fields that mean nothing for its form are null.
#[derive(Debug, Serialize)]
pub struct Amount {
    pub form: DoseForm,
    /// The line of the chart.
    pub row: String,
    /// Half teaspoons, where a mixture is measured in whole ones.
    pub half_tsp: Option<u64>,
    pub ml: Option<String>,
    pub tablets: Option<u32>,
    pub mg: String,
    /// Two decimals, half away from zero; null without a weight.
    pub mg_per_kg: Option<String>,
    pub text: String,
}

impl Amount {
    pub fn of(dose: &Dose) -> Amount {
        let measured = dose.form != DoseForm::Tablets;
        Amount {
            form: dose.form,
            row: dose.row_text.clone(),
            half_tsp: half_teaspoons(dose.form, dose.amount),
            ml: measured.then(|| millilitres(dose.amount)),
            tablets: dose.tablets,
            mg: milligrams(dose.mass),
            mg_per_kg: dose.hundredths_mg_per_kg.map(show::hundredths),
            text: dose.text.clone(),
        }
    }
}

/// Only a mixture is measured by the half teaspoon.
pub fn half_teaspoons(form: DoseForm, amount: Volume) -> Option<u64> {
    (form == DoseForm::Mixture)
        .then(|| amount.half_teaspoons())
        .flatten()
}

/// The document of `dose`.
#[derive(Debug, Serialize)]
pub struct Document<'a> {
    pub outcome: &'static str,
    #[serde(flatten)]
    pub amount: Amount,
    pub trace: &'a [TraceLine],
    pub signed: bool,
    pub invented: bool,
}
