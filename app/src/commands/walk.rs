//! `walk`: a whole round of the demonstration household, drawn without a display.

use std::path::Path;

use hearthdose_ui::text::Language;
use hearthdose_ui::walk::{self, Walk as Wish};

use crate::answer::{self, Answer, Exit, Stop};
use crate::arguments::Walk;
use crate::input;

/// A small phone, the least the screens are made for.
const SIZE: (u32, u32) = (360, 640);

pub fn run(asked: &Walk) -> Result<Answer, Stop> {
    let language = Language::of_code(&asked.language).ok_or_else(|| {
        let known: Vec<&str> = Language::ALL
            .iter()
            .map(|language| language.code())
            .collect();
        Stop::unusable(format!(
            "language: “{}”: write {}",
            asked.language,
            known.join(" or ")
        ))
    })?;
    let wish = Wish {
        out: &asked.out,
        language,
        scale: scale(&asked.text_scale)?,
        dark: asked.dark,
        size: SIZE,
    };
    let mut tell = |path: &Path| answer::say(&format!("drawn: {}", path.display()));
    let pictures =
        walk::run(&wish, &mut tell).map_err(|error| Stop::unusable(format!("walk: {error}")))?;
    let report = asked.out.join("walk.json");
    let steps: serde_json::Value = serde_json::from_slice(&input::bytes(&report)?)
        .map_err(|error| Stop::unusable(format!("{}: {error}", report.display())))?;
    Answer::new(
        Exit::Done,
        &steps,
        format!(
            "{} pictures and walk.json in {}\n",
            pictures.len(),
            asked.out.display()
        ),
    )
}

/// Percent of the usual text size: `1.5` and `150` are the same.
fn scale(text: &str) -> Result<u16, Stop> {
    let wrong = || {
        Stop::unusable(format!(
            "text-scale: “{text}”: write 1 to 2, or 100 to 200 for percent"
        ))
    };
    let number: f64 = text
        .trim()
        .trim_end_matches('%')
        .trim_end()
        .parse()
        .map_err(|_| wrong())?;
    let percent = if number <= 2.0 {
        number * 100.0
    } else {
        number
    };
    (100..=200_u16)
        .find(|whole| f64::from(*whole) == percent.round())
        .ok_or_else(wrong)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_scale_is_a_factor_or_a_percentage() {
        for (text, percent) in [
            ("1", 100),
            ("2", 200),
            ("1.5", 150),
            ("100", 100),
            ("200", 200),
            ("150 %", 150),
        ] {
            assert_eq!(scale(text).ok(), Some(percent), "{text}");
        }
        for text in ["", "0.5", "3", "99", "201", "-1", "NaN", "inf", "large"] {
            assert!(scale(text).is_err(), "{text}");
        }
    }
}
