//! The program's drawings on paper: their paths and circles as they are, in black ink on white.
//!
//! What is dark stays a light gray, so that a mark on a thing is still seen; no fill is darker than that.

use pdf_writer::Content;

use super::document::Place;

/// How far a circle's handles reach for a quarter of it.
const QUARTER: f32 = 0.5523;

/// Draws an SVG of the drawing hand into the middle of a place.
pub(super) fn draw(page: &mut Content, svg: &str, place: Place, page_height: f32) {
    let Some([left, top, width, height]) = attribute(svg, "viewBox").and_then(four) else {
        return;
    };
    let scale = (place.width / width).min(place.height / height);
    let x = place.x + (place.width - width * scale) / 2.0 - left * scale;
    let y = place.y + (place.height - height * scale) / 2.0 - top * scale;
    page.save_state()
        .transform([scale, 0.0, 0.0, -scale, x, page_height - y]);
    let mut elements = svg.split('<').skip(1);
    let root = elements.next().unwrap_or_default();
    let usual = number(root, "stroke-width").unwrap_or(4.0);
    for element in elements {
        let circle = element.starts_with("circle");
        if !circle && !element.starts_with("path") {
            continue;
        }
        let inked =
            attribute(element, "stroke").or_else(|| attribute(root, "stroke")) != Some("none");
        let fill = attribute(element, "fill")
            .or_else(|| attribute(root, "fill"))
            .and_then(gray);
        page.set_line_width(number(element, "stroke-width").unwrap_or(usual));
        page.set_stroke_gray(0.0);
        match attribute(element, "stroke-dasharray").map(numbers) {
            Some(dashes) => page.set_dash_pattern(dashes, 0.0),
            None => page.set_dash_pattern([], 0.0),
        };
        if let Some(gray) = fill {
            page.set_fill_gray(gray);
        }
        if circle {
            let at = |name| number(element, name).unwrap_or(0.0);
            disc(page, at("cx"), at("cy"), at("r"));
        } else {
            trace(page, attribute(element, "d").unwrap_or_default());
        }
        match (fill.is_some(), inked) {
            (true, true) => page.fill_nonzero_and_stroke(),
            (true, false) => page.fill_nonzero(),
            (false, true) => page.stroke(),
            (false, false) => page.end_path(),
        };
    }
    page.restore_state();
    page.set_fill_gray(0.0);
}

fn attribute<'a>(element: &'a str, name: &str) -> Option<&'a str> {
    let start = format!(" {name}=\"");
    let (_, rest) = element.split_once(&start)?;
    rest.split_once('"').map(|(value, _)| value)
}

fn number(element: &str, name: &str) -> Option<f32> {
    attribute(element, name)?.parse().ok()
}

fn numbers(text: &str) -> Vec<f32> {
    text.split([' ', ','])
        .filter_map(|part| part.parse().ok())
        .collect()
}

fn four(text: &str) -> Option<[f32; 4]> {
    numbers(text).try_into().ok()
}

/// A colour of the palette as a light gray; nothing for none.
fn gray(colour: &str) -> Option<f32> {
    let hex = colour.strip_prefix('#')?;
    let long: String = if hex.len() == 3 {
        hex.chars().flat_map(|digit| [digit, digit]).collect()
    } else {
        hex.to_owned()
    };
    let part = |at: usize| u8::from_str_radix(long.get(at..at + 2)?, 16).ok();
    let (red, green, blue) = (part(0)?, part(2)?, part(4)?);
    let light = (0.3 * f32::from(red) + 0.59 * f32::from(green) + 0.11 * f32::from(blue)) / 255.0;
    // Hair and crumbs stay marks; cloth, clay and steel become tints.
    let paper = if light < 0.28 {
        0.35
    } else {
        0.55 + 0.45 * light
    };
    Some(if light > 0.9 { 1.0 } else { paper })
}

fn disc(page: &mut Content, x: f32, y: f32, r: f32) {
    let reach = r * QUARTER;
    page.move_to(x + r, y)
        .cubic_to(x + r, y + reach, x + reach, y + r, x, y + r)
        .cubic_to(x - reach, y + r, x - r, y + reach, x - r, y)
        .cubic_to(x - r, y - reach, x - reach, y - r, x, y - r)
        .cubic_to(x + reach, y - r, x + r, y - reach, x + r, y)
        .close_path();
}

/// Follows a path of absolute moves, lines and curves, and of the short relative strokes of a square.
fn trace(page: &mut Content, path: &str) {
    let mut rest = path;
    let mut here = (0.0_f32, 0.0_f32);
    while let Some(letter) = rest.chars().next() {
        let tail = &rest[letter.len_utf8()..];
        let end = tail
            .find(|c: char| c.is_ascii_alphabetic())
            .unwrap_or(tail.len());
        let values = spaced(&tail[..end]);
        rest = &tail[end..];
        match (letter, values.as_slice()) {
            ('M', [x, y, more @ ..]) => {
                here = (*x, *y);
                page.move_to(*x, *y);
                lines(page, more, &mut here);
            }
            ('L', more) => lines(page, more, &mut here),
            ('H', [x, ..]) => {
                here.0 = *x;
                page.line_to(here.0, here.1);
            }
            ('V', [y, ..]) => {
                here.1 = *y;
                page.line_to(here.0, here.1);
            }
            ('h', [x, ..]) => {
                here.0 += *x;
                page.line_to(here.0, here.1);
            }
            ('v', [y, ..]) => {
                here.1 += *y;
                page.line_to(here.0, here.1);
            }
            ('C', all) => {
                for curve in all.chunks_exact(6) {
                    here = (curve[4], curve[5]);
                    page.cubic_to(curve[0], curve[1], curve[2], curve[3], here.0, here.1);
                }
            }
            ('Z' | 'z', _) => {
                page.close_path();
            }
            _ => {}
        }
    }
}

fn lines(page: &mut Content, all: &[f32], here: &mut (f32, f32)) {
    for point in all.chunks_exact(2) {
        *here = (point[0], point[1]);
        page.line_to(here.0, here.1);
    }
}

/// Numbers with spaces, commas or only a sign between them.
fn spaced(text: &str) -> Vec<f32> {
    numbers(&text.replace('-', " -"))
}
