//! Outlines for small places: heavier, never thinner than two and a half pixels.

use super::hand::number;

/// Thinnest and widest main outline on screen, in pixels.
const THINNEST: f64 = 2.5;
const WIDEST: f64 = 5.0;
/// How much of the gain of the main outline its details take over.
const DETAIL: f64 = 0.75;
const WIDTH: &str = "stroke-width=\"";

/// Rewrites the outlines of `svg` for a place `pixels` wide; nothing when the text is no drawing or there is no width.
pub(super) fn for_width(svg: &str, pixels: f64) -> Option<String> {
    let view_box = svg.split_once("viewBox=\"")?.1.split_once('"')?.0;
    let units: f64 = view_box.split(' ').nth(2)?.parse().ok()?;
    let (head, rest) = svg.split_once(WIDTH)?;
    let (main, rest) = rest.split_once('"')?;
    let main: f64 = main.parse().ok()?;
    if !(pixels > 0.0 && units > 0.0 && main > 0.0) {
        return None;
    }
    let scale = pixels / units;
    let need = (main * scale).clamp(THINNEST, WIDEST) / scale;
    if need <= main {
        return Some(svg.to_owned());
    }
    let gain = 1.0 + (need / main - 1.0) * DETAIL;
    let mut out = format!("{head}{WIDTH}{}\"", number(need));
    let mut details = rest.split(WIDTH);
    out.push_str(details.next()?);
    for detail in details {
        let (width, after) = detail.split_once('"')?;
        let width: f64 = width.parse().ok()?;
        out.push_str(&format!("{WIDTH}{}\"{after}", number(width * gain)));
    }
    Some(out)
}
