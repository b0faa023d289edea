//! The mass in an amount of mixture, as an exact fraction.
//!
//! A third of a tablet is no whole number of micrograms, so limits are tested on the fraction and only shown rounded.
//! Every function answers nothing instead of overflowing; [`super::amounts`] reports quantities that large.

use std::cmp::Ordering;

use crate::units::{BodyWeight, Mass, Percent, Strength, Volume, show};

/// Micrograms as `over` / `under`.
#[derive(Clone, Copy, Debug)]
pub(super) struct ExactMass {
    over: u128,
    under: u128,
}

const PICOGRAMS_PER_KILOGRAM: u128 = 1_000_000_000_000_000;

impl ExactMass {
    /// The mass in `amount`; nothing for a tablet, whose strength has no volume.
    pub(super) fn of(strength: Strength, amount: Volume) -> Option<ExactMass> {
        let Strength::PerVolume { mass, volume } = strength else {
            return None;
        };
        let over =
            u128::from(mass.as_micrograms()).checked_mul(u128::from(amount.as_microlitres()))?;
        let under = u128::from(volume.as_microlitres());
        let shared = gcd(over, under);
        Some(ExactMass {
            over: over.checked_div(shared)?,
            under: under.checked_div(shared)?,
        })
    }

    /// A whole number of micrograms, or nothing.
    pub(super) fn whole(self) -> Option<Mass> {
        let micrograms = (self.under == 1).then_some(self.over)?;
        u64::try_from(micrograms).ok().map(Mass::micrograms)
    }

    pub(super) fn compare(self, mass: Mass) -> Option<Ordering> {
        self.compare_share(mass, Percent::WHOLE)
    }

    /// Against `share` of `mass`.
    pub(super) fn compare_share(self, mass: Mass, share: Percent) -> Option<Ordering> {
        let whole = u128::from(Percent::WHOLE.as_thousandths());
        let left = self.over.checked_mul(whole)?;
        let right = u128::from(mass.as_micrograms())
            .checked_mul(u128::from(share.as_thousandths()))?
            .checked_mul(self.under)?;
        Some(left.cmp(&right))
    }

    /// Against `share` of `per_kg` for somebody of `weight`.
    pub(super) fn compare_per_kg(
        self,
        per_kg: Mass,
        weight: &BodyWeight,
        share: Percent,
    ) -> Option<Ordering> {
        let whole = u128::from(Percent::WHOLE.as_thousandths());
        let left = self
            .over
            .checked_mul(PICOGRAMS_PER_KILOGRAM)?
            .checked_mul(whole)?;
        let right = u128::from(per_kg.as_micrograms())
            .checked_mul(u128::from(weight.as_picograms()))?
            .checked_mul(u128::from(share.as_thousandths()))?
            .checked_mul(self.under)?;
        Some(left.cmp(&right))
    }

    /// How far the mass is from `printed`, which has so many decimals in milligrams: true within half a unit of the last digit, that half included.
    pub(super) fn agrees_with(self, printed: Mass, decimals: u32) -> Option<bool> {
        let printed = u128::from(printed.as_micrograms()).checked_mul(self.under)?;
        let scale = 10u128.checked_pow(decimals)?.checked_mul(2)?;
        let distance = self.over.abs_diff(printed).checked_mul(scale)?;
        Some(distance <= self.under.checked_mul(1_000)?)
    }

    /// Whole tablets of `tablet` each, or nothing.
    pub(super) fn whole_tablets(self, tablet: Mass) -> Option<u128> {
        let per_tablet = u128::from(tablet.as_micrograms()).checked_mul(self.under)?;
        let fits = per_tablet > 0 && self.over.is_multiple_of(per_tablet);
        fits.then(|| self.over.checked_div(per_tablet)).flatten()
    }

    /// `37.5 mg`, or to the thousandth of a milligram where it is not exact.
    pub(super) fn shown(self) -> String {
        let rounded = self
            .over
            .saturating_add(self.under / 2)
            .checked_div(self.under);
        let micrograms = rounded.and_then(|value| u64::try_from(value).ok());
        micrograms.map_or_else(
            || "a huge mass".to_owned(),
            |value| format!("{} mg", show::decimal(value, 3)),
        )
    }

    /// `2.65`, `2.2`: milligrams for each kilogram of `weight`, half away from zero, no trailing zero.
    pub(super) fn per_kg_shown(self, weight: &BodyWeight) -> String {
        let hundredths = (|| {
            let over = self.over.checked_mul(PICOGRAMS_PER_KILOGRAM)?;
            let under = self
                .under
                .checked_mul(u128::from(weight.as_picograms()))?
                .checked_mul(10)?;
            nearest(over, under)
        })();
        hundredths
            .and_then(|value| u64::try_from(value).ok())
            .map_or_else(|| "many".to_owned(), |value| show::decimal(value, 2))
    }

    /// How far above or below `per_kg` × `weight` the mass is, in whole percent: `151 % over`.
    pub(super) fn distance_shown(self, per_kg: Mass, weight: &BodyWeight) -> String {
        let percent = (|| {
            let over = self
                .over
                .checked_mul(PICOGRAMS_PER_KILOGRAM)?
                .checked_mul(100)?;
            let under = self
                .under
                .checked_mul(u128::from(weight.as_picograms()))?
                .checked_mul(u128::from(per_kg.as_micrograms()))?;
            nearest(over, under)
        })();
        match percent {
            Some(percent) if percent >= 100 => format!("{} % over", percent - 100),
            Some(percent) => format!("{} % under", 100 - percent),
            None => "far from".to_owned(),
        }
    }
}

/// `over` / `under` to the nearest whole number, half up.
fn nearest(over: u128, under: u128) -> Option<u128> {
    over.checked_add(under / 2)?.checked_div(under)
}

fn gcd(a: u128, b: u128) -> u128 {
    let (mut a, mut b) = (a, b);
    while b > 0 {
        (a, b) = (b, a % b);
    }
    a.max(1)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mass(strength: &str, amount: &str) -> ExactMass {
        let strength = Strength::parse(strength).expect("a strength");
        ExactMass::of(strength, Volume::parse(amount).expect("an amount")).expect("a mass")
    }

    #[test]
    fn a_third_of_a_tablet_is_never_rounded_for_a_rule() {
        let third = mass("100 mg / 15 mL", "5 mL");
        assert_eq!(third.whole(), None);
        assert_eq!(third.shown(), "33.333 mg");
        assert_eq!(
            third.compare(Mass::micrograms(33_333)),
            Some(Ordering::Greater)
        );
        assert_eq!(
            third.compare(Mass::micrograms(33_334)),
            Some(Ordering::Less)
        );
    }

    /// 16.25 mg printed as 16 mg and 32.5 mg printed as 32 mg: FDA's potassium iodide sheet (references c1).
    #[test]
    fn half_a_printed_digit_still_agrees() {
        let cases = [
            ("130 mg / 40 mL", "5 mL", 16_000, 0, true),
            ("130 mg / 40 mL", "10 mL", 32_000, 0, true),
            ("130 mg / 40 mL", "10 mL", 33_000, 0, true),
            ("130 mg / 40 mL", "10 mL", 32_000, 1, false),
            ("130 mg / 40 mL", "5 mL", 65_000, 0, false),
        ];
        for (strength, amount, printed, decimals, expected) in cases {
            let agrees = mass(strength, amount).agrees_with(Mass::micrograms(printed), decimals);
            assert_eq!(agrees, Some(expected), "{strength} {amount} {printed}");
        }
    }

    /// 12.5 mg at 5 lb is 5.51 mg/kg, 151 % over 2.2 mg/kg.
    #[test]
    fn distances_are_told_in_whole_percent() {
        let row = mass("100 mg / 20 mL", "2.5 mL");
        let weight = BodyWeight::parse("5 lb").expect("a weight");
        assert_eq!(row.per_kg_shown(&weight), "5.51");
        // 12.5 mg for 12.5 mg/2.5 = 5 kg is 2.5 mg/kg.
        let five = BodyWeight::parse("5 kg").expect("a weight");
        assert_eq!(row.per_kg_shown(&five), "2.5");
        assert_eq!(
            row.distance_shown(Mass::micrograms(2_200), &weight),
            "151 % over"
        );
    }
}
