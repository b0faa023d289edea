//! What must be true of every screen, whatever is on it.

use super::tree::{Bounds, Place, Window};

/// Smallest side of anything to press, in pixels.
const TARGET: f32 = 48.0;
/// Layouts round to whole pixels here and there.
const SLACK: f32 = 0.75;

/// Everything that is wrong with a screen, in words.
pub fn faults(window: &Window) -> Vec<String> {
    let mut found = Vec::new();
    targets(window, &mut found);
    words(window, &mut found);
    overlaps(window, &mut found);
    found
}

fn targets(window: &Window, found: &mut Vec<String>) {
    for control in &window.controls {
        let (width, height) = (control.place.width(), control.place.height());
        if width + SLACK < TARGET || height + SLACK < TARGET {
            found.push(format!(
                "“{}” is only {width:.0} by {height:.0}",
                control.name
            ));
        }
        if control.name.is_empty() {
            found.push(format!("a control without a name at {:?}", control.place));
        }
        if let Some(how) = outside(control.place, control.bounds) {
            found.push(format!("“{}” {how}", control.name));
        }
    }
}

fn words(window: &Window, found: &mut Vec<String>) {
    for text in &window.texts {
        let (width, height) = (text.place.width(), text.place.height());
        if text.height_needed > height + SLACK {
            found.push(format!(
                "“{}” needs {:.1} in height and has {height:.1}",
                text.words, text.height_needed
            ));
        }
        if text.width_needed > width + SLACK {
            found.push(format!(
                "“{}” needs {:.1} in width and has {width:.1}",
                text.words, text.width_needed
            ));
        }
        if let Some(how) = outside(text.place, text.bounds) {
            found.push(format!("“{}” {how}", text.words));
        }
        let Some(control) = text.control.and_then(|at| window.controls.get(at)) else {
            continue;
        };
        let inside = text.place.within(control.place);
        if inside.width() + SLACK < width || inside.height() + SLACK < height {
            found.push(format!(
                "“{}” leaves its control “{}”: {:?} in {:?}",
                text.words, control.name, text.place, control.place
            ));
        }
    }
}

fn overlaps(window: &Window, found: &mut Vec<String>) {
    for (at, one) in window.controls.iter().enumerate() {
        for other in window.controls.iter().skip(at + 1) {
            let inside = one.within.is_some() || other.within.is_some();
            if !inside && meet((one.place, one.bounds), (other.place, other.bounds)) {
                found.push(format!("“{}” and “{}” overlap", one.name, other.name));
            }
        }
    }
    for (at, one) in window.texts.iter().enumerate() {
        for other in window.texts.iter().skip(at + 1) {
            if meet((one.place, one.bounds), (other.place, other.bounds)) {
                found.push(format!("“{}” and “{}” overlap", one.words, other.words));
            }
        }
        for (number, control) in window.controls.iter().enumerate() {
            let own = one.control == Some(number);
            if !own && meet((one.place, one.bounds), (control.place, control.bounds)) {
                found.push(format!(
                    "the words “{}” reach into “{}”",
                    one.words, control.name
                ));
            }
        }
    }
}

/// What moves together is compared as a whole, what does not only where it is seen.
fn meet(one: (Place, Bounds), other: (Place, Bounds)) -> bool {
    let together = one.1.scroll == other.1.scroll;
    let seen = |(place, bounds): (Place, Bounds)| {
        if together {
            place
        } else {
            place.within(bounds.seen)
        }
    };
    let both = seen(one).within(seen(other));
    both.width() > SLACK && both.height() > SLACK
}

/// Beyond the sides of what shows it; what scrolls may be above and below.
fn outside(place: Place, bounds: Bounds) -> Option<String> {
    let seen = bounds.seen;
    if place.left + SLACK < seen.left || place.right > seen.right + SLACK {
        return Some(format!(
            "goes from {:.1} to {:.1} across, where {:.1} to {:.1} is seen",
            place.left, place.right, seen.left, seen.right
        ));
    }
    let cut = place.top + SLACK < seen.top || place.bottom > seen.bottom + SLACK;
    (bounds.scroll.is_none() && cut).then(|| {
        format!(
            "goes from {:.1} to {:.1} down, where {:.1} to {:.1} is seen",
            place.top, place.bottom, seen.top, seen.bottom
        )
    })
}
