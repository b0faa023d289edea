//! How far a drawing reaches, so that a small picture can be cut close to what it shows.
//!
//! Drawings are made of paths of straight lines and curves and of circles. The handles of a curve count as points,
//! so the extent is never too small; it may be a little too large.

/// Left, top, right and bottom in units of the drawing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Extent {
    pub left: f32,
    pub top: f32,
    pub right: f32,
    pub bottom: f32,
}

const NOTHING: Extent = Extent {
    left: f32::MAX,
    top: f32::MAX,
    right: f32::MIN,
    bottom: f32::MIN,
};

impl Extent {
    /// Of everything drawn in the text; nothing when nothing is drawn.
    pub(super) fn of(svg: &str) -> Option<Self> {
        let mut extent = NOTHING;
        for element in svg.split('<') {
            if let Some(path) = attribute(element, "d") {
                extent.follow(path);
            } else if element.starts_with("circle") {
                extent.circle(element);
            }
        }
        (extent.right > extent.left && extent.bottom > extent.top).then_some(extent)
    }

    /// With room for outlines on every side.
    pub(super) fn grown(self, by: f32) -> Self {
        Self {
            left: self.left - by,
            top: self.top - by,
            right: self.right + by,
            bottom: self.bottom + by,
        }
    }

    fn point(&mut self, x: f32, y: f32) {
        self.left = self.left.min(x);
        self.right = self.right.max(x);
        self.top = self.top.min(y);
        self.bottom = self.bottom.max(y);
    }

    fn circle(&mut self, element: &str) {
        let number = |name| attribute(element, name).and_then(|text| text.parse::<f32>().ok());
        if let (Some(x), Some(y), Some(r)) = (number("cx"), number("cy"), number("r")) {
            self.point(x - r, y - r);
            self.point(x + r, y + r);
        }
    }

    fn follow(&mut self, path: &str) {
        let mut x = 0.0;
        let mut y = 0.0;
        for (command, text) in commands(path) {
            let numbers = numbers(text);
            match command {
                'M' | 'L' | 'C' => {
                    for pair in numbers.chunks_exact(2) {
                        if let [px, py] = *pair {
                            (x, y) = (px, py);
                            self.point(x, y);
                        }
                    }
                }
                'H' | 'h' => {
                    for number in numbers {
                        x = if command == 'H' { number } else { x + number };
                        self.point(x, y);
                    }
                }
                'V' | 'v' => {
                    for number in numbers {
                        y = if command == 'V' { number } else { y + number };
                        self.point(x, y);
                    }
                }
                _ => {}
            }
        }
    }
}

fn attribute<'a>(element: &'a str, name: &str) -> Option<&'a str> {
    let start = format!(" {name}=\"");
    let (_, rest) = element.split_once(&start)?;
    rest.split_once('"').map(|(value, _)| value)
}

/// Each command letter with the text of its numbers.
fn commands(path: &str) -> impl Iterator<Item = (char, &str)> {
    path.match_indices(|c: char| c.is_ascii_alphabetic())
        .map(|(at, letter)| {
            let rest = &path[at + letter.len()..];
            let end = rest
                .find(|c: char| c.is_ascii_alphabetic())
                .unwrap_or(rest.len());
            (letter.chars().next().unwrap_or(' '), &rest[..end])
        })
}

/// Numbers parted by blanks, commas, or the sign of the next one.
fn numbers(text: &str) -> Vec<f32> {
    let mut spaced = String::with_capacity(text.len() + 8);
    for c in text.chars() {
        if c == '-' {
            spaced.push(' ');
        }
        spaced.push(if c == ',' { ' ' } else { c });
    }
    spaced
        .split_whitespace()
        .filter_map(|number| number.parse().ok())
        .collect()
}

#[cfg(test)]
mod tests {
    use super::Extent;

    #[test]
    fn lines_curves_and_circles_count() {
        let svg = "<svg viewBox=\"0 0 320 200\"><path d=\"M10 20L30-5h4v-6H12Z\"/><circle cx=\"60\" cy=\"40\" r=\"8\"/>\
                   <path d=\"M20 20C20 90 30 30 40 20\"/></svg>";
        let extent = Extent::of(svg);
        let expected = Extent {
            left: 10.0,
            top: -11.0,
            right: 68.0,
            bottom: 90.0,
        };
        assert_eq!(extent, Some(expected));
    }

    #[test]
    fn nothing_drawn_has_no_extent() {
        assert_eq!(Extent::of("<svg viewBox=\"0 0 320 200\"></svg>"), None);
    }
}
