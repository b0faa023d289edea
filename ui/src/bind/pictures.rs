//! Drawings as images, each made once for light and once for dark.
//!
//! A small picture is the same drawing cut close to what it shows, without its ground line and with heavier outlines.

use super::extent::Extent;
use crate::drawing;
use crate::vm::ports::Mirrored;
use crate::vm::view::Spoon;
use slint::{Image, Rgb8Pixel, SharedPixelBuffer};
use std::cell::RefCell;
use std::collections::BTreeMap;

thread_local! {
    static MADE: RefCell<BTreeMap<(String, Use, bool), Image>> = const { RefCell::new(BTreeMap::new()) };
}

/// More pictures than any household's round shows; the moments of a soak must not pile up.
const KEPT: usize = 160;
/// A whole drawing would be this wide when its cut fits a small place; sets the weight of outlines.
const SMALL: f32 = 118.0;
/// Drawings in this frame leave room around what they show; others are cut close already.
const FRAME: &str = "viewBox=\"0 0 320 200\"";

#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Use {
    Stage,
    Place,
    Small,
    Spoon,
}

/// Frees the pictures that are not on the screen.
pub(super) fn forget() {
    MADE.with_borrow_mut(BTreeMap::clear);
}

/// The whole drawing with its table line.
pub(super) fn stage(name: &str, dark: bool) -> Image {
    made(name, Use::Stage, dark)
}

/// The drawing for one place of a table that is set.
pub(super) fn place(name: &str, dark: bool) -> Image {
    made(name, Use::Place, dark)
}

/// The drawing for a place of about a hundred pixels; an empty image where there is no drawing of that name.
pub(super) fn small(name: &str, dark: bool) -> Image {
    made(name, Use::Small, dark)
}

/// One spoon, tablet or syringe of an amount.
pub(super) fn spoon(kind: Spoon, dark: bool) -> Image {
    let name = match kind {
        Spoon::Full => "spoon-full",
        Spoon::Half => "spoon-half",
        Spoon::Quarter => "spoon-quarter",
        Spoon::ThreeQuarters => "spoon-three-quarters",
        Spoon::Tablet => "tablet",
        Spoon::Syringe => "syringe-full",
    };
    made(name, Use::Spoon, dark)
}

/// What a camera sees; empty where the pixels do not fill the picture.
pub(super) fn seen(seen: &Mirrored) -> Image {
    let mut pixels = SharedPixelBuffer::<Rgb8Pixel>::new(seen.width, seen.height);
    let places = pixels.make_mut_slice();
    if places.len() != seen.pixels.len() {
        return Image::default();
    }
    for (place, gray) in places.iter_mut().zip(seen.pixels.iter()) {
        *place = Rgb8Pixel::new(*gray, *gray, *gray);
    }
    Image::from_rgb8(pixels)
}

fn made(name: &str, how: Use, dark: bool) -> Image {
    if name.is_empty() {
        return Image::default();
    }
    MADE.with_borrow_mut(|all| {
        let key = (name.to_owned(), how, dark);
        if all.len() >= KEPT && !all.contains_key(&key) {
            all.clear();
        }
        all.entry(key)
            .or_insert_with(|| draw(name, how, dark))
            .clone()
    })
}

fn draw(name: &str, how: Use, dark: bool) -> Image {
    let text = match how {
        Use::Stage => drawing::svg(name, dark),
        Use::Place => drawing::svg(name, dark).map(|text| cut(&text)),
        // A code has no outlines and stays as it is.
        Use::Small => drawing::svg_for_width(name, dark, SMALL)
            .map(|text| cut(&text))
            .or_else(|| drawing::svg(name, dark)),
        Use::Spoon => drawing::svg(name, dark),
    };
    text.and_then(|text| Image::load_from_svg_data(text.as_bytes()).ok())
        .unwrap_or_default()
}

/// Cuts a drawing to what it shows and takes away the ground line, which starts at a fixed place in every drawing.
fn cut(text: &str) -> String {
    let mut out = text.to_owned();
    if let Some(at) = out.find("<path d=\"M22 178")
        && let Some(length) = out[at..].find("/>")
    {
        out.replace_range(at..at + length + 2, "");
    }
    let Some(reach) = Extent::of(&out).filter(|_| out.contains(FRAME)) else {
        return out;
    };
    // Outlines have a width, and what leaves the drawing is cut off by its frame.
    let reach = reach.grown(4.0);
    let (left, top) = (reach.left.max(0.0), reach.top.max(0.0));
    let (width, height) = (reach.right.min(320.0) - left, reach.bottom.min(200.0) - top);
    out.replacen(
        FRAME,
        &format!("viewBox=\"{left} {top} {width} {height}\""),
        1,
    )
}
