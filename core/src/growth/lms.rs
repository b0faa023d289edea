//! One age's weight curve: the L, M and S of the LMS method, and WHO's restricted rule beyond ±3.
//!
//! Invariant: M and S are positive, and 1 + 3·|L|·S stays away from zero, as in every published row.
//! Source: WHO Child Growth Standards, methods and development (2006), section 5.2 for the rule.

/// Skewness, median weight in kilograms and coefficient of variation at one age and sex.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Lms {
    pub(super) l: f64,
    pub(super) m: f64,
    pub(super) s: f64,
}

impl Lms {
    /// The weight in kilograms at `z` by the plain LMS formula.
    pub(super) fn weight_at(&self, z: f64) -> f64 {
        if self.l == 0.0 {
            self.m * (self.s * z).exp()
        } else {
            self.m * (1.0 + self.l * self.s * z).powf(1.0 / self.l)
        }
    }

    /// The z-score of a positive weight in kilograms.
    ///
    /// Beyond ±3 the distance between the second and third deviation is one unit: few children
    /// stood behind the tails, and the formula alone would stretch them.
    pub(super) fn restricted_z(&self, kilograms: f64) -> f64 {
        let third_above = self.weight_at(3.0);
        let third_below = self.weight_at(-3.0);
        if kilograms > third_above {
            3.0 + (kilograms - third_above) / (third_above - self.weight_at(2.0))
        } else if kilograms < third_below {
            -3.0 - (third_below - kilograms) / (self.weight_at(-2.0) - third_below)
        } else if self.l == 0.0 {
            (kilograms / self.m).ln() / self.s
        } else {
            ((kilograms / self.m).powf(self.l) - 1.0) / (self.l * self.s)
        }
    }

    /// The curve `fraction` of the way from this one to `later`, each parameter in a straight line.
    pub(super) fn towards(&self, later: &Lms, fraction: f64) -> Lms {
        let between = |from: f64, to: f64| from + (to - from) * fraction;
        Lms {
            l: between(self.l, later.l),
            m: between(self.m, later.m),
            s: between(self.s, later.s),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// WHO 2006 by month: name, L, M, S, then kilograms at -3, +3, -3.0902 and +3.0902 by plain LMS.
    ///
    /// L, M and S are WHO's published month table; the kilograms were worked out apart from this
    /// program and agree with WHO's printed deviation columns to 0.001.
    const WHO_2006_MONTHS: [(&str, [f64; 3], [f64; 4]); 11] = [
        (
            "boy 0",
            [0.3487, 3.3464, 0.14602],
            [2.080, 5.031, 2.048, 5.088],
        ),
        (
            "boy 3",
            [0.1738, 6.3762, 0.11727],
            [4.435, 8.971, 4.385, 9.061],
        ),
        (
            "boy 12",
            [0.0644, 9.6479, 0.10925],
            [6.927, 13.344, 6.858, 13.474],
        ),
        (
            "boy 24",
            [-0.0137, 12.1515, 0.11426],
            [8.632, 17.134, 8.544, 17.312],
        ),
        (
            "boy 36",
            [-0.0689, 14.3429, 0.12116],
            [10.017, 20.725, 9.910, 20.959],
        ),
        (
            "boy 60",
            [-0.1506, 18.3366, 0.13517],
            [12.370, 27.864, 12.229, 28.228],
        ),
        (
            "girl 0",
            [0.3809, 3.2322, 0.14171],
            [2.033, 4.793, 2.002, 4.846],
        ),
        (
            "girl 6",
            [-0.0756, 7.2970, 0.12204],
            [5.085, 10.578, 5.031, 10.698],
        ),
        (
            "girl 12",
            [-0.2024, 8.9481, 0.12268],
            [6.274, 13.117, 6.210, 13.275],
        ),
        (
            "girl 24",
            [-0.2941, 11.4775, 0.12390],
            [8.066, 17.014, 7.985, 17.229],
        ),
        (
            "girl 48",
            [-0.3361, 16.0697, 0.13884],
            [10.882, 25.170, 10.763, 25.540],
        ),
    ];

    #[test]
    fn month_rows_give_the_published_kilograms() {
        for (name, [l, m, s], kilograms) in WHO_2006_MONTHS {
            let curve = Lms { l, m, s };
            assert!((curve.weight_at(0.0) - m).abs() < 1e-12, "{name} median");
            for (z, expected) in [-3.0, 3.0, -3.0902, 3.0902].into_iter().zip(kilograms) {
                let weight = curve.weight_at(z);
                assert!(
                    (weight - expected).abs() <= 0.0006,
                    "{name} at {z}: {weight}"
                );
            }
        }
    }

    #[test]
    fn inside_three_deviations_the_score_undoes_the_weight() {
        for (name, [l, m, s], _) in WHO_2006_MONTHS {
            let curve = Lms { l, m, s };
            for z in [-3.0, -2.5, -1.0, 0.0, 0.5, 2.0, 3.0] {
                let back = curve.restricted_z(curve.weight_at(z));
                assert!((back - z).abs() < 1e-9, "{name} at {z}: {back}");
            }
        }
    }

    #[test]
    fn beyond_three_deviations_the_score_grows_in_a_straight_line() {
        // Worked out apart from this program from the same L, M and S: where plain LMS says
        // -3.0902 and +3.0902, the restricted rule says these.
        let expected = [
            (-3.08524, 3.09384),
            (-3.08586, 3.09455),
            (-3.08515, 3.09558),
            (-3.08456, 3.09609),
            (-3.08452, 3.09680),
            (-3.08315, 3.09853),
            (-3.08489, 3.09392),
            (-3.08400, 3.09687),
            (-3.08371, 3.09823),
            (-3.08332, 3.09929),
            (-3.08256, 3.10104),
        ];
        for ((name, [l, m, s], [.., light, heavy]), (below, above)) in
            WHO_2006_MONTHS.into_iter().zip(expected)
        {
            let curve = Lms { l, m, s };
            assert!((curve.restricted_z(light) - below).abs() < 1e-5, "{name}");
            assert!((curve.restricted_z(heavy) - above).abs() < 1e-5, "{name}");
        }
    }

    #[test]
    fn one_step_beyond_three_is_as_wide_as_the_last_step_inside() {
        let curve = Lms {
            l: -0.2941,
            m: 11.4775,
            s: 0.12390,
        };
        let step = curve.weight_at(3.0) - curve.weight_at(2.0);
        assert!((curve.restricted_z(curve.weight_at(3.0) + 2.0 * step) - 5.0).abs() < 1e-9);
        let step = curve.weight_at(-2.0) - curve.weight_at(-3.0);
        assert!((curve.restricted_z(curve.weight_at(-3.0) - 2.0 * step) + 5.0).abs() < 1e-9);
    }

    #[test]
    fn no_skewness_is_the_limit_of_little_skewness() {
        let none = Lms {
            l: 0.0,
            m: 12.0,
            s: 0.11,
        };
        let little = Lms { l: 1e-7, ..none };
        for kilograms in [7.0, 9.5, 12.0, 15.0, 21.0] {
            let apart = none.restricted_z(kilograms) - little.restricted_z(kilograms);
            assert!(apart.abs() < 1e-5, "{kilograms}");
        }
    }
}
