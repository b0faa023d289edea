//! Drawings as images, each made once for light and once for dark.
//!
//! A small picture is the same drawing cut close to what it shows, without its ground line and with heavier outlines.

use crate::drawing;
use crate::vm::view::Spoon;
use slint::Image;
use std::cell::RefCell;
use std::collections::BTreeMap;

thread_local! {
    static MADE: RefCell<BTreeMap<(String, Use, bool), Image>> = const { RefCell::new(BTreeMap::new()) };
}

#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Use {
    Stage,
    Small,
    Spoon,
}

/// The whole drawing with its table line.
pub(super) fn stage(name: &str, dark: bool) -> Image {
    made(name, Use::Stage, dark)
}

/// The drawing for a place of about a hundred pixels; an empty image where there is no drawing of that name.
pub(super) fn small(name: &str, dark: bool) -> Image {
    made(name, Use::Small, dark)
}

/// One spoon of an amount.
pub(super) fn spoon(kind: Spoon, dark: bool) -> Image {
    let name = match kind {
        Spoon::Full => "full",
        Spoon::Half => "half",
        Spoon::Quarter => "quarter",
        Spoon::ThreeQuarters => "three-quarters",
        Spoon::Tablet => "tablet",
        Spoon::Syringe => "syringe",
    };
    made(name, Use::Spoon, dark)
}

fn made(name: &str, how: Use, dark: bool) -> Image {
    if name.is_empty() {
        return Image::default();
    }
    MADE.with_borrow_mut(|all| {
        let key = (name.to_owned(), how, dark);
        all.entry(key)
            .or_insert_with(|| draw(name, how, dark))
            .clone()
    })
}

fn draw(name: &str, how: Use, dark: bool) -> Image {
    let text = match how {
        Use::Stage => drawing::svg(name, dark),
        Use::Small => drawing::svg_for_width(name, dark, 110.0).map(|text| cut(&text, name)),
        Use::Spoon => Some(spoon_svg(name, dark)),
    };
    text.and_then(|text| Image::load_from_svg_data(text.as_bytes()).ok())
        .unwrap_or_default()
}

/// Cuts a drawing to the part that matters and takes away the ground line.
fn cut(text: &str, name: &str) -> String {
    let view = match name {
        "give" | "would-not-take" | "came-back-up" => "20 8 290 192",
        "ask-clinician" => "40 28 262 134",
        "whole-tablet" => "40 34 260 150",
        "hold" => "30 34 260 150",
        "covered-bowl" | "cover-label" => "22 40 284 142",
        "show-code" => "22 4 276 180",
        "allergy-stop" => "4 6 300 194",
        _ => "14 4 296 182",
    };
    let mut out = text.replacen("viewBox=\"0 0 320 200\"", &format!("viewBox=\"{view}\""), 1);
    if let Some(at) = out.find("<path d=\"M22 178")
        && let Some(len) = out[at..].find("/>")
    {
        out.replace_range(at..at + len + 2, "");
    }
    out
}

/// A spoon seen from above with a short handle, filled to a level; a tablet; a dose syringe.
fn spoon_svg(name: &str, dark: bool) -> String {
    let [ink, enamel, steel, mixture, tablet, side] = if dark {
        [
            "#F7ECD9", "#6B6156", "#737878", "#9A7826", "#C9AB55", "#8C7130",
        ]
    } else {
        [
            "#2B211A", "#FFFDF6", "#DADEDD", "#EFD07A", "#F6E2A0", "#DDBD63",
        ]
    };
    let open = |view: &str| {
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"{view}\" fill=\"none\" stroke=\"{ink}\" \
             stroke-width=\"4.5\" stroke-linecap=\"round\" stroke-linejoin=\"round\">"
        )
    };
    match name {
        "tablet" => format!(
            "{}<path d=\"M-34 0V11C-34 20.4 -18.8 28 0 28C18.8 28 34 20.4 34 11V0Z\" fill=\"{side}\"/>\
             <ellipse cx=\"0\" cy=\"0\" rx=\"34\" ry=\"17\" fill=\"{tablet}\"/>\
             <path d=\"M-6.8 -10.5L6.8 10.5\" stroke-width=\"3\"/></svg>",
            open("-40 -22 80 58")
        ),
        "syringe" => format!(
            "{}<path d=\"M0 -40V-30\"/><path d=\"M-13 -28H13V40H-13Z\" fill=\"{enamel}\"/>\
             <path d=\"M-10.5 -25.5H10.5V12H-10.5Z\" fill=\"{mixture}\" stroke=\"none\"/>\
             <path d=\"M-13 14H13\"/><path d=\"M-13 -28H13V40H-13Z\"/><path d=\"M13 -14H6M13 0H6\" stroke-width=\"3\"/>\
             <path d=\"M-20 40H20M0 16V62M-12 64H12\"/></svg>",
            open("-30 -44 60 114")
        ),
        _ => {
            let level = match name {
                "full" => -30.0,
                "three-quarters" => -13.0,
                "half" => 1.0,
                _ => 13.0,
            };
            let inside = "M0 -30C14 -30 19.5 -12 19.5 2C19.5 16 9 28 0 28C-9 28 -19.5 16 -19.5 2C-19.5 -12 -14 -30 0 -30Z";
            let fill = if name == "full" {
                format!("<path d=\"{inside}\" fill=\"{mixture}\" stroke-width=\"2.4\"/>")
            } else {
                format!(
                    "<clipPath id=\"a\"><path d=\"M-30 {level}H30V40H-30Z\"/></clipPath>\
                     <g clip-path=\"url(#a)\"><path d=\"{inside}\" fill=\"{mixture}\" stroke-width=\"2.4\"/></g>\
                     <path d=\"M-{half} {level}H{half}\" stroke-width=\"2.4\"/>",
                    half = if name == "quarter" { 17.6 } else { 19.0 },
                )
            };
            format!(
                "{}<path d=\"M-4.5 30L-6.5 64C-6.5 71 6.5 71 6.5 64L4.5 30Z\" fill=\"{steel}\"/>\
                 <path d=\"M0 -36C18 -36 25 -14 25 2C25 20 12 34 0 34C-12 34 -25 20 -25 2C-25 -14 -18 -36 0 -36Z\" fill=\"{enamel}\"/>\
                 {fill}</svg>",
                open("-30 -40 60 114")
            )
        }
    }
}
