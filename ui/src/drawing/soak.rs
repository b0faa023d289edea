//! A tablet softening in its bowl, at any percent.
//!
//! At 0 it is a whole disc. In between it parts along its score line, its halves drift and shrink, haze and mixture
//! spread and crumbs grow in number. At 100 all is mixture with one soft heap.

use super::hand::{Picture, Place, Point, Step, Wander, blob, edge, oval, water_line};
use super::palette::{CRUMB, HAZE, INK, MILK, MIXTURE, RIPPLE, TABLET, TABLET_SIDE};
use Step::{Close, Curve, Line, Move};

const X: f64 = 160.0;
const RIM: f64 = 74.0;

/// The picture of a tablet softened to `percent`, 0 to 100.
pub(super) fn picture(percent: u8) -> String {
    let mut picture = Picture::on_table();
    picture.bowl_of_water((X, RIM), 116.0, 42.0, 100.0);
    let water = water_line(RIM, 42.0);
    match percent {
        0 => whole(&mut picture, water),
        1..=99 => parting(&mut picture, water, f64::from(percent) / 100.0),
        _ => fallen_apart(&mut picture, water),
    }
    picture.finish()
}

fn whole(picture: &mut Picture, water: f64) {
    picture.tablet((X, water - 8.0), 34.0, 17.0, 11.0);
    let at = |x: f64, y: f64| (X + x, water + y);
    let ripples = [
        Move(at(-66.0, 8.0)),
        Curve(at(-58.0, 14.0), at(-50.0, 17.0), at(-42.0, 19.0)),
        Move(at(44.0, -17.0)),
        Curve(at(56.0, -14.0), at(64.0, -9.0), at(68.0, -3.0)),
    ];
    picture.shape(&ripples, None, edge(&RIPPLE, 3.0));
}

fn parting(picture: &mut Picture, water: f64, soft: f64) {
    let haze = Wander {
        bends: 12,
        by: 0.06,
        from: 2.0,
    };
    let spread = blob(
        (X, water + 1.0),
        52.0 + 58.0 * soft * 0.95,
        19.0 + 17.0 * soft,
        haze,
    );
    picture.shape(&spread, Some(&HAZE), None);
    let mixture = Wander {
        bends: 11,
        by: 0.10,
        from: 1.0,
    };
    let spread = blob(
        (X, water + 2.0),
        34.0 + 62.0 * soft,
        13.0 + 18.0 * soft,
        mixture,
    );
    picture.shape(&spread, Some(&MIXTURE), None);

    let left = 1.0 - 0.42 * soft;
    let half = half_tablet(37.0 * left + 3.0, 18.0 * left + 2.0);
    let gap = 2.0 + 9.0 * soft;
    for (side, turn, lower) in [
        (-1.0, -5.0 - 10.0 * soft, 1.0),
        (1.0, 4.0 + 12.0 * soft, -2.0),
    ] {
        for (colour, drop) in [(&TABLET_SIDE, 9.0 * (1.0 - soft * 0.4)), (&TABLET, 0.0)] {
            let to = (X + side * gap, water - 6.0 + lower + drop);
            picture.placed(
                &half,
                Place {
                    to,
                    turn,
                    mirrored: side > 0.0,
                },
                Some(colour),
                edge(&INK, 3.0),
            );
        }
    }

    const SEVEN: [Point; 7] = [
        (-52.0, 3.0),
        (48.0, -7.0),
        (40.0, 15.0),
        (-34.0, -14.0),
        (-30.0, 19.0),
        (8.0, 24.0),
        (62.0, 4.0),
    ];
    let so_far = SEVEN
        .iter()
        .zip(1_u8..)
        .filter(|&(_, count)| f64::from(count) <= 2.0 + 8.0 * soft);
    let crumbs: Vec<Point> = so_far.map(|((x, y), _)| (X + x, water + y)).collect();
    picture.crumbs(&crumbs, 3.2);
}

/// The left half, broken along the score line.
fn half_tablet(rx: f64, ry: f64) -> [Step; 7] {
    [
        Move((-2.0, -ry)),
        Curve((-rx * 0.8, -ry), (-rx * 1.08, -ry * 0.5), (-rx, 0.0)),
        Curve(
            (-rx * 1.06, ry * 0.66),
            (-rx * 0.6, ry * 1.05),
            (-3.0, ry * 0.96),
        ),
        Line((1.0, ry * 0.5)),
        Line((-5.0, ry * 0.1)),
        Line((1.0, -ry * 0.4)),
        Close,
    ]
}

fn fallen_apart(picture: &mut Picture, water: f64) {
    picture.shape(&oval((X, water), 100.0, 33.6), Some(&MIXTURE), None);
    let heap = blob(
        (X, water + 3.0),
        47.0,
        14.0,
        Wander {
            bends: 12,
            by: 0.13,
            from: 3.0,
        },
    );
    picture.shape(&heap, Some(&TABLET), edge(&CRUMB, 2.5));
    let top = blob(
        (X + 6.0, water - 1.0),
        20.0,
        6.0,
        Wander {
            bends: 9,
            by: 0.14,
            from: 2.0,
        },
    );
    picture.shape(&top, Some(&MILK), None);
    const NINE: [Point; 9] = [
        (-62.0, 4.0),
        (66.0, -4.0),
        (54.0, 12.0),
        (-46.0, -15.0),
        (-40.0, 19.0),
        (10.0, 25.0),
        (34.0, -19.0),
        (-76.0, -6.0),
        (80.0, 6.0),
    ];
    picture.crumbs(&NINE.map(|(x, y)| (X + x, water + y)), 2.6);
}
