//! Where the modules of a code lie in a picture: a perspective, and on top of it a gentle bend.

/// Somewhere in a picture, in pixels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Spot {
    pub x: f64,
    pub y: f64,
}

/// A place of the code that was found in the picture; modules count from the upper left edge.
#[derive(Clone, Copy, Debug)]
pub(super) struct Tie {
    pub u: f64,
    pub v: f64,
    pub spot: Spot,
    pub weight: f64,
}

/// From modules to pixels.
#[derive(Clone, Debug)]
pub(super) struct Warp {
    half: f64,
    centre: Spot,
    scale: f64,
    perspective: [f64; 8],
    bend: [[f64; TERMS]; 2],
}

/// Products of powers up to the third.
const TERMS: usize = 10;
/// How much a term of each power is held back, so that few ties do not bend far.
const HOLD: [f64; 4] = [0.02, 0.02, 0.002, 0.004];
/// Fewer ties than the corners of three finder patterns and one more say nothing of a bend.
const LEAST_FOR_BEND: usize = 13;

impl Warp {
    /// The warp that fits these ties best; none when they lie in a line or are too few.
    pub fn fit(ties: &[Tie], modules: usize) -> Option<Warp> {
        let half = modules as f64 / 2.0;
        let total: f64 = ties.iter().map(|tie| tie.weight).sum();
        let mean = |pick: fn(&Tie) -> f64| {
            ties.iter().map(|tie| tie.weight * pick(tie)).sum::<f64>() / total
        };
        let centre = Spot {
            x: mean(|tie| tie.spot.x),
            y: mean(|tie| tie.spot.y),
        };
        let scale = ties
            .iter()
            .map(|tie| {
                (tie.spot.x - centre.x)
                    .abs()
                    .max((tie.spot.y - centre.y).abs())
            })
            .fold(1.0, f64::max);
        let mut sums = Sums::<8>::new();
        for tie in ties {
            let (s, t) = (tie.u / half - 1.0, tie.v / half - 1.0);
            let (x, y) = (
                (tie.spot.x - centre.x) / scale,
                (tie.spot.y - centre.y) / scale,
            );
            sums.add(&[s, t, 1.0, 0.0, 0.0, 0.0, -x * s, -x * t], x, tie.weight);
            sums.add(&[0.0, 0.0, 0.0, s, t, 1.0, -y * s, -y * t], y, tie.weight);
        }
        for place in [6, 7] {
            sums.hold(place, 1e-6 * total);
        }
        let mut warp = Warp {
            half,
            centre,
            scale,
            perspective: sums.solve()?,
            bend: [[0.0; TERMS]; 2],
        };
        if ties.len() >= LEAST_FOR_BEND {
            warp.bend = warp.bend_of(ties, total)?;
        }
        Some(warp)
    }

    fn bend_of(&self, ties: &[Tie], total: f64) -> Option<[[f64; TERMS]; 2]> {
        let (mut across, mut down) = (Sums::<TERMS>::new(), Sums::<TERMS>::new());
        for tie in ties {
            let row = terms(tie.u / self.half - 1.0, tie.v / self.half - 1.0);
            let flat = self.at(tie.u, tie.v);
            across.add(&row, tie.spot.x - flat.x, tie.weight);
            down.add(&row, tie.spot.y - flat.y, tie.weight);
        }
        let powers = [0, 1, 1, 2, 2, 2, 3, 3, 3, 3];
        for (place, power) in powers.into_iter().enumerate() {
            across.hold(place, HOLD[power] * total / 10.0);
            down.hold(place, HOLD[power] * total / 10.0);
        }
        Some([across.solve()?, down.solve()?])
    }

    pub fn at(&self, u: f64, v: f64) -> Spot {
        let (s, t) = (u / self.half - 1.0, v / self.half - 1.0);
        let [a, b, c, d, e, f, g, h] = self.perspective;
        let depth = 1.0 + g * s + h * t;
        let mut spot = Spot {
            x: self.centre.x + self.scale * (a * s + b * t + c) / depth,
            y: self.centre.y + self.scale * (d * s + e * t + f) / depth,
        };
        for (place, term) in terms(s, t).into_iter().enumerate() {
            spot.x += self.bend[0][place] * term;
            spot.y += self.bend[1][place] * term;
        }
        spot
    }

    /// The place, one module to the right of it, and one below, as steps from the place.
    pub fn frame_at(&self, u: f64, v: f64) -> (Spot, Spot, Spot) {
        let (middle, right, below) = (self.at(u, v), self.at(u + 1.0, v), self.at(u, v + 1.0));
        let step = |to: Spot| Spot {
            x: to.x - middle.x,
            y: to.y - middle.y,
        };
        (middle, step(right), step(below))
    }
}

fn terms(s: f64, t: f64) -> [f64; TERMS] {
    [
        1.0,
        s,
        t,
        s * s,
        s * t,
        t * t,
        s * s * s,
        s * s * t,
        s * t * t,
        t * t * t,
    ]
}

/// Least squares in `N` unknowns.
pub(super) struct Sums<const N: usize> {
    square: [[f64; N]; N],
    right: [f64; N],
}

impl<const N: usize> Sums<N> {
    pub fn new() -> Sums<N> {
        Sums {
            square: [[0.0; N]; N],
            right: [0.0; N],
        }
    }

    /// One equation: the row times the unknowns is to be `wanted`.
    pub fn add(&mut self, row: &[f64; N], wanted: f64, weight: f64) {
        for (line, left) in self.square.iter_mut().zip(row) {
            for (sum, right) in line.iter_mut().zip(row) {
                *sum += weight * left * right;
            }
        }
        for (sum, left) in self.right.iter_mut().zip(row) {
            *sum += weight * left * wanted;
        }
    }

    /// Holds one unknown near zero.
    pub fn hold(&mut self, place: usize, weight: f64) {
        self.square[place][place] += weight;
    }

    /// The unknowns, by elimination with the largest pivot; none when they are not determined.
    pub fn solve(mut self) -> Option<[f64; N]> {
        for column in 0..N {
            let size = |row: &usize| self.square[*row][column].abs();
            let pivot = (column..N).max_by(|a, b| size(a).total_cmp(&size(b)))?;
            if self.square[pivot][column].abs() < 1e-12 {
                return None;
            }
            self.square.swap(column, pivot);
            self.right.swap(column, pivot);
            let (upper, lower) = self.square.split_at_mut(column + 1);
            let line = &upper[column];
            for (row, below) in lower.iter_mut().enumerate() {
                let factor = below[column] / line[column];
                for (sum, above) in below.iter_mut().zip(line).skip(column) {
                    *sum -= factor * above;
                }
                self.right[column + 1 + row] -= factor * self.right[column];
            }
        }
        let mut found = [0.0; N];
        for row in (0..N).rev() {
            let known: f64 = (row + 1..N)
                .map(|at| self.square[row][at] * found[at])
                .sum();
            found[row] = (self.right[row] - known) / self.square[row][row];
        }
        Some(found)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ties(of: impl Fn(f64, f64) -> Spot) -> Vec<Tie> {
        let corners = [(0.5, 0.5), (6.5, 0.5), (6.5, 6.5), (0.5, 6.5)];
        let finders = [(0.0, 0.0), (46.0, 0.0), (0.0, 46.0)];
        let mut places: Vec<(f64, f64)> = finders
            .into_iter()
            .flat_map(|(left, top)| corners.map(|(u, v)| (left + u, top + v)))
            .collect();
        places.extend([
            (26.5, 6.5),
            (6.5, 26.5),
            (26.5, 26.5),
            (46.5, 26.5),
            (26.5, 46.5),
            (46.5, 46.5),
        ]);
        let tie = |(u, v)| Tie {
            u,
            v,
            spot: of(u, v),
            weight: 1.0,
        };
        places.into_iter().map(tie).collect()
    }

    fn farthest(of: impl Fn(f64, f64) -> Spot) -> f64 {
        let warp = Warp::fit(&ties(&of), 53).unwrap();
        let mut most = 0.0f64;
        for u in 0..53 {
            for v in 0..53 {
                let (u, v) = (f64::from(u) + 0.5, f64::from(v) + 0.5);
                let (found, right) = (warp.at(u, v), of(u, v));
                most = most.max((found.x - right.x).hypot(found.y - right.y));
            }
        }
        most
    }

    #[test]
    fn a_slant_is_met_exactly_and_a_bend_nearly() {
        let slanted = |u: f64, v: f64| {
            let depth = 1.0 + 0.006 * u - 0.003 * v;
            Spot {
                x: 200.0 + (7.0 * u + v) / depth,
                y: 90.0 + (8.0 * v - u) / depth,
            }
        };
        assert!(farthest(slanted) < 0.01, "{}", farthest(slanted));
        // Paper around a can whose radius is half the code's side, seven pixels to a module.
        let bent = |u: f64, v: f64| {
            let turn = (u - 26.5) / 30.0;
            Spot {
                x: 400.0 + 210.0 * turn.sin(),
                y: 80.0 + 7.0 * v + 30.0 * turn.cos(),
            }
        };
        // Less than half a module, so that no module is taken for its neighbour.
        assert!(farthest(bent) < 3.5, "{}", farthest(bent));
    }

    #[test]
    fn ties_in_a_line_give_nothing() {
        let line: Vec<Tie> = (0..20)
            .map(|at| f64::from(at) * 2.0)
            .map(|u| Tie {
                u,
                v: u,
                spot: Spot { x: u, y: u },
                weight: 1.0,
            })
            .collect();
        assert!(Warp::fit(&line, 41).is_none());
    }
}
