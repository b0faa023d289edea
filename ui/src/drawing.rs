//! The drawings, by name.
//!
//! A drawing is a file of `ui/drawings` without its ending, `soak:NN`, a bowl whose tablet is NN percent softened, or `code:TEXT`, the text as a QR code.
//! The files hold flat paths and circles in the light colours; the dark ones are the same shapes in other colours.
//! Everything is part of the program: nothing is read while it runs.

mod code;
mod hand;
mod palette;
mod soak;
mod stroke;

#[cfg(test)]
mod tests;

macro_rules! drawings {
    ($($name:literal)*) => {
        const NAMES: &[&str] = &[$($name),*];
        const FILES: &[&str] = &[$(include_str!(concat!("../drawings/", $name, ".svg"))),*];
    };
}

// In the order of the alphabet, so that a name is found by halving.
drawings! {
    "add-chocolate-milk"
    "add-juice"
    "add-milk"
    "add-pudding"
    "add-sugar"
    "add-syrup"
    "all-of-it"
    "allergy-stop"
    "ask-clinician"
    "bottle-label"
    "boxes-lots"
    "came-back-up"
    "clock-moved"
    "cover-label"
    "covered-bowl"
    "crush"
    "dropped-dose"
    "first-table"
    "fridge"
    "gather"
    "give"
    "glass-of-water"
    "hold"
    "hold-and-subtract"
    "household"
    "liquid-bottle"
    "lumps"
    "measure"
    "measure-syringe"
    "next-round"
    "order-paper"
    "ran-short"
    "show-code"
    "smooth"
    "soak-done"
    "soak-half"
    "soak-quarter"
    "soak-start"
    "soak-three-quarters"
    "some-of-it"
    "spilled-bowl"
    "spoon-empty"
    "spoon-full"
    "spoon-half"
    "spoon-quarter"
    "spoon-three-quarters"
    "spoons-one-and-half"
    "start-code"
    "stir"
    "sun-caution"
    "syringe-full"
    "table-clean"
    "table-set"
    "tablet"
    "throw-away"
    "weigh-child"
    "whole-tablet"
    "would-not-take"
}

/// The names of all drawings that are files, in the order of the alphabet.
#[must_use]
pub fn names() -> &'static [&'static str] {
    NAMES
}

/// The SVG text of a drawing, or nothing when there is no drawing of that name.
///
/// `soak:0` is a whole tablet in water, `soak:100` a bowl in which it has fallen apart; above 100 there is no picture.
#[must_use]
pub fn svg(name: &str, dark: bool) -> Option<String> {
    if let Some(text) = name.strip_prefix("code:") {
        return code::picture(text);
    }
    let light = match name.strip_prefix("soak:") {
        Some(percent) => soak::picture(whole_percent(percent)?),
        None => NAMES
            .binary_search(&name)
            .ok()
            .and_then(|at| FILES.get(at))?
            .trim_end()
            .to_owned(),
    };
    Some(if dark { palette::darken(&light) } else { light })
}

/// The code of a text as a PNG file, for those who carry it away; nothing when the text is too long for one code.
#[must_use]
pub fn code_png(text: &str) -> Option<Vec<u8>> {
    code::png(text)
}

/// The same drawing for a place `width` pixels wide: small pictures get heavier outlines, so that none is thinner
/// than two and a half pixels.
///
/// Returns nothing for an unknown name or a width that is not above zero.
#[must_use]
pub fn svg_for_width(name: &str, dark: bool, width: f32) -> Option<String> {
    svg(name, dark).and_then(|text| stroke::for_width(&text, f64::from(width)))
}

fn whole_percent(text: &str) -> Option<u8> {
    let digits = !text.is_empty() && text.len() <= 3 && text.bytes().all(|b| b.is_ascii_digit());
    if digits {
        text.parse().ok().filter(|&percent| percent <= 100)
    } else {
        None
    }
}
