//! The drawing hand: paths and circles with an ink outline, written down as SVG text.
//!
//! Lengths are units of the 320 × 200 view box, angles are degrees, turning like a clock hand.
//! Coordinates are worked out here, so that the text holds no groups and no transforms.

use std::f64::consts::TAU;
use std::fmt::Write as _;

use super::palette::{
    BAND, CRUMB, Colour, ENAMEL, GROUND, INK, INSIDE, RIPPLE, TABLET, TABLET_SIDE, WATER,
};

/// How far the handles of a curve reach for a quarter of a circle.
const QUARTER: f64 = 0.5523;

pub(super) type Point = (f64, f64);

#[derive(Clone, Copy)]
pub(super) enum Step {
    Move(Point),
    Line(Point),
    Curve(Point, Point, Point),
    Close,
}

use Step::{Close, Curve, Line, Move};

/// Where a shape is put: mirrored, then turned, then moved.
#[derive(Clone, Copy)]
pub(super) struct Place {
    pub to: Point,
    pub turn: f64,
    pub mirrored: bool,
}

impl Place {
    pub(super) const HERE: Place = Place {
        to: (0.0, 0.0),
        turn: 0.0,
        mirrored: false,
    };

    fn put(self, (x, y): Point) -> Point {
        let (sin, cos) = self.turn.to_radians().sin_cos();
        let x = if self.mirrored { -x } else { x };
        (
            self.to.0 + (x * cos - y * sin),
            self.to.1 + (x * sin + y * cos),
        )
    }
}

/// The outline of a shape.
pub(super) struct Edge<'a> {
    pub colour: &'a Colour,
    /// Nothing: the outline of the whole picture, 4.
    pub width: Option<f64>,
}

pub(super) const OUTLINE: Option<Edge<'static>> = Some(Edge {
    colour: &INK,
    width: None,
});

pub(super) const fn edge(colour: &Colour, width: f64) -> Option<Edge<'_>> {
    Some(Edge {
        colour,
        width: Some(width),
    })
}

/// A picture in the making.
pub(super) struct Picture {
    shapes: String,
}

impl Picture {
    /// A picture that stands on the table: the ground line with its one gap.
    pub(super) fn on_table() -> Picture {
        let (line, width) = (GROUND.light, 3);
        Picture {
            shapes: format!(
                "<path d=\"M22 178H236M252 178H298\" stroke=\"{line}\" stroke-width=\"{width}\"/>"
            ),
        }
    }

    pub(super) fn finish(self) -> String {
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 320 200\" fill=\"none\" stroke=\"{}\" \
             stroke-width=\"4\" stroke-linecap=\"round\" stroke-linejoin=\"round\">{}</svg>",
            INK.light, self.shapes
        )
    }

    pub(super) fn shape(&mut self, steps: &[Step], fill: Option<&Colour>, edge: Option<Edge<'_>>) {
        self.placed(steps, Place::HERE, fill, edge);
    }

    pub(super) fn placed(
        &mut self,
        steps: &[Step],
        place: Place,
        fill: Option<&Colour>,
        edge: Option<Edge<'_>>,
    ) {
        let _ = write!(self.shapes, "<path d=\"{}\"", path(steps, place));
        self.paint(fill, edge);
    }

    pub(super) fn disc(&mut self, centre: Point, radius: f64, fill: &Colour) {
        let (x, y) = centre;
        let _ = write!(
            self.shapes,
            "<circle cx=\"{}\" cy=\"{}\" r=\"{}\"",
            number(x),
            number(y),
            number(radius)
        );
        self.paint(Some(fill), None);
    }

    fn paint(&mut self, fill: Option<&Colour>, edge: Option<Edge<'_>>) {
        if let Some(fill) = fill {
            let _ = write!(self.shapes, " fill=\"{}\"", fill.light);
        }
        match edge {
            None => self.shapes.push_str(" stroke=\"none\""),
            Some(Edge { colour, width }) => {
                if colour.light != INK.light {
                    let _ = write!(self.shapes, " stroke=\"{}\"", colour.light);
                }
                if let Some(width) = width {
                    let _ = write!(self.shapes, " stroke-width=\"{}\"", number(width));
                }
            }
        }
        self.shapes.push_str("/>");
    }

    /// The mixing bowl of white enamel with its blue band, filled with water.
    pub(super) fn bowl_of_water(&mut self, (x, y): Point, rx: f64, ry: f64, depth: f64) {
        let (foot, base) = (rx * 0.42, y + depth);
        let body = [
            Move((x - rx, y)),
            Curve(
                (x - rx * 0.98, y + depth * 0.62),
                (x - rx * 0.62, base),
                (x - foot, base),
            ),
            Line((x + foot, base)),
            Curve(
                (x + rx * 0.62, base),
                (x + rx * 0.98, y + depth * 0.62),
                (x + rx, y),
            ),
            Close,
        ];
        self.shape(&body, Some(&ENAMEL), OUTLINE);
        let band = lower_half((x, y + depth * 0.16), rx * 0.947, ry * 1.05);
        self.shape(&band, None, edge(&BAND, (rx * 0.075).max(4.0)));
        self.shape(&oval((x, y), rx, ry), Some(&INSIDE), OUTLINE);
        let (level, sunk) = (0.86, water_line(y, ry));
        self.shape(
            &oval((x, sunk), rx * level, ry * (level - 0.06)),
            Some(&WATER),
            edge(&RIPPLE, 2.5),
        );
    }

    /// A whole tablet: a flat disc with a side and one score line.
    pub(super) fn tablet(&mut self, (x, y): Point, rx: f64, ry: f64, height: f64) {
        let (low, k) = (y + height, QUARTER);
        let side = [
            Move((x - rx, y)),
            Line((x - rx, low)),
            Curve(
                (x - rx, low + ry * k),
                (x - rx * k, low + ry),
                (x, low + ry),
            ),
            Curve(
                (x + rx * k, low + ry),
                (x + rx, low + ry * k),
                (x + rx, low),
            ),
            Line((x + rx, y)),
            Close,
        ];
        self.shape(&side, Some(&TABLET_SIDE), OUTLINE);
        self.shape(&oval((x, y), rx, ry), Some(&TABLET), OUTLINE);
        let score = [
            Move((x - rx * 0.2, y - ry * 0.62)),
            Line((x + rx * 0.2, y + ry * 0.62)),
        ];
        self.shape(&score, None, edge(&INK, 2.5));
    }

    pub(super) fn crumbs(&mut self, places: &[Point], radius: f64) {
        for (place, more) in places.iter().zip([0.0, 0.8, 1.6].into_iter().cycle()) {
            self.disc(*place, radius + more, &CRUMB);
        }
    }
}

/// Height of the water's middle in a bowl whose rim has its middle at `y`.
pub(super) fn water_line(y: f64, ry: f64) -> f64 {
    y + ry * (1.0 - 0.86) * 1.25
}

pub(super) fn oval((x, y): Point, rx: f64, ry: f64) -> [Step; 6] {
    let k = QUARTER;
    [
        Move((x - rx, y)),
        Curve((x - rx, y - ry * k), (x - rx * k, y - ry), (x, y - ry)),
        Curve((x + rx * k, y - ry), (x + rx, y - ry * k), (x + rx, y)),
        Curve((x + rx, y + ry * k), (x + rx * k, y + ry), (x, y + ry)),
        Curve((x - rx * k, y + ry), (x - rx, y + ry * k), (x - rx, y)),
        Close,
    ]
}

fn lower_half((x, y): Point, rx: f64, ry: f64) -> [Step; 3] {
    let k = QUARTER;
    [
        Move((x - rx, y)),
        Curve((x - rx, y + ry * k), (x - rx * k, y + ry), (x, y + ry)),
        Curve((x + rx * k, y + ry), (x + rx, y + ry * k), (x + rx, y)),
    ]
}

/// How a blob's edge wanders: number of bends, how far they go (share of the radius) and where they start.
#[derive(Clone, Copy)]
pub(super) struct Wander {
    pub bends: u8,
    pub by: f64,
    pub from: f64,
}

/// A soft heap or a spreading cloud: an oval whose edge wanders.
pub(super) fn blob((x, y): Point, rx: f64, ry: f64, wander: Wander) -> Vec<Step> {
    let bend = |i: u8| {
        let angle = TAU * f64::from(i % wander.bends) / f64::from(wander.bends);
        let reach = 1.0 + wander.by * (wander.from * 2.3 + f64::from(i % wander.bends) * 2.6).sin();
        (x + rx * reach * angle.cos(), y + ry * reach * angle.sin())
    };
    let mut steps = vec![Move(bend(0))];
    for i in 0..wander.bends {
        let (before, here, next, after) = (
            bend(i + wander.bends - 1),
            bend(i),
            bend(i + 1),
            bend(i + 2),
        );
        let leave = (
            here.0 + (next.0 - before.0) / 6.0,
            here.1 + (next.1 - before.1) / 6.0,
        );
        let arrive = (
            next.0 - (after.0 - here.0) / 6.0,
            next.1 - (after.1 - here.1) / 6.0,
        );
        steps.push(Curve(leave, arrive, next));
    }
    steps.push(Close);
    steps
}

fn path(steps: &[Step], place: Place) -> String {
    let point = |p: Point| {
        let (x, y) = place.put(p);
        format!("{} {}", number(x), number(y))
    };
    steps
        .iter()
        .map(|step| match *step {
            Move(p) => format!("M{}", point(p)),
            Line(p) => format!("L{}", point(p)),
            Curve(leave, arrive, p) => format!("C{} {} {}", point(leave), point(arrive), point(p)),
            Close => "Z".to_owned(),
        })
        .collect()
}

/// One decimal, and none where it would be a zero.
pub(super) fn number(value: f64) -> String {
    let text = format!("{value:.1}");
    text.strip_suffix(".0")
        .map_or_else(|| text.clone(), str::to_owned)
}
