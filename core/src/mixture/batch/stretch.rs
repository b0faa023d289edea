//! Bowls that keep for many rounds: each is filled at once with doses of all the rounds it may serve.
//!
//! A handful of fixed orders of preference are tried and the best result kept.
//! Nothing here proves anything; the floor of [`super::bounds`] and the search of [`super::standing`] do.

use super::course::{Course, Draft, Fill, Part};

/// Largest bowl, in steps, for which every total is looked at.
const FINE: u32 = 4_096;

/// In which order doses are offered to a bowl.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Order {
    /// Round by round, large doses first.
    Nearest,
    /// The making round, then all later ones by amount.
    OwnThenLargest,
    /// By amount, near rounds first.
    Largest,
    /// Later rounds first, so that small doses of the making round stay for other bowls.
    OwnLast,
}

const ORDERS: [Order; 4] = [Order::Nearest, Order::OwnThenLargest, Order::Largest, Order::OwnLast];

/// The best of all orders, stopping at a plan of `least` bowls.
pub(super) fn draft(course: &Course, least: usize) -> Draft {
    let mut best: Option<Draft> = None;
    for order in ORDERS {
        let draft = Filling::new(course).run(order);
        if best.as_ref().is_none_or(|best| draft.bowls.len() < best.bowls.len()) {
            best = Some(draft);
        }
        if best.as_ref().is_some_and(|best| best.bowls.len() <= least) {
            break;
        }
    }
    best.unwrap_or_default()
}

struct Filling<'a> {
    course: &'a Course,
    /// Per round and position: whether the dose has a bowl.
    served: Vec<Vec<bool>>,
}

impl<'a> Filling<'a> {
    fn new(course: &'a Course) -> Self {
        Self { course, served: course.rounds.iter().map(|round| vec![false; round.doses.len()]).collect() }
    }

    fn run(mut self, order: Order) -> Draft {
        let course = self.course;
        let mut draft = Draft { bowls: Vec::new(), open: vec![Vec::new(); course.open.len()] };
        let mut open: Vec<usize> = (0..course.open.len()).collect();
        open.sort_by_key(|&index| course.open[index].last);
        for index in open {
            let rest = course.open[index];
            draft.open[index] = self.choose(0, rest.last, rest.left, Order::Nearest);
        }
        for round in 0..course.rounds.len() {
            while let Some(position) = self.served[round].iter().position(|served| !served) {
                self.served[round][position] = true;
                let first = course.whole(round, position);
                let last = course.rounds[round].last;
                let mut parts = vec![first];
                parts.extend(self.choose(round, last, course.capacity - first.amount, order));
                draft.bowls.push(Fill { round, parts });
            }
        }
        draft
    }

    /// Doses of the rounds from `from` to `last` that fill the room as far as can be, the preferred ones.
    fn choose(&mut self, from: usize, last: usize, room: u32, order: Order) -> Vec<Part> {
        let mut offered: Vec<Part> = (from..=last)
            .flat_map(|round| {
                let served = &self.served[round];
                let free = move |position: &usize| !served[*position];
                (0..served.len()).filter(free).map(move |position| (round, position))
            })
            .map(|(round, position)| self.course.whole(round, position))
            .filter(|part| part.amount <= room)
            .collect();
        let largest = |part: &Part| std::cmp::Reverse(part.amount);
        match order {
            Order::Nearest => {}
            Order::OwnThenLargest => offered.sort_by_key(|part| (part.round > from, largest(part), part.round)),
            Order::Largest => offered.sort_by_key(|part| (largest(part), part.round)),
            Order::OwnLast => offered.sort_by_key(|part| (part.round == from, part.round, largest(part))),
        }
        let chosen = choice(&offered, room);
        for part in &chosen {
            self.served[part.round][part.position] = true;
        }
        chosen
    }
}

/// The fullest choice of doses for this room, or for a very large one just what fits in turn.
pub(super) fn choice(offered: &[Part], room: u32) -> Vec<Part> {
    if room <= FINE { fullest(offered, room) } else { in_turn(offered, room) }
}

/// The doses with the largest total that fits, out of as short a beginning of the list as possible.
fn fullest(offered: &[Part], room: u32) -> Vec<Part> {
    let size = usize::try_from(room).unwrap_or(0) + 1;
    // The dose that first made each total possible.
    let mut by: Vec<Option<Part>> = vec![None; size];
    let mut reached = vec![false; size];
    if let Some(nothing) = reached.first_mut() {
        *nothing = true;
    }
    for part in offered {
        let amount = usize::try_from(part.amount).unwrap_or(size);
        for total in (amount..size).rev() {
            if !reached[total] && reached[total - amount] {
                reached[total] = true;
                by[total] = Some(*part);
            }
        }
        if reached[size - 1] {
            break;
        }
    }
    let mut total = reached.iter().rposition(|&reached| reached).unwrap_or(0);
    let mut chosen = Vec::new();
    while let Some(part) = by[total] {
        chosen.push(part);
        total -= usize::try_from(part.amount).unwrap_or(total).min(total);
    }
    chosen
}

/// Every dose that still fits, in turn.
fn in_turn(offered: &[Part], mut room: u32) -> Vec<Part> {
    let mut chosen = Vec::new();
    for part in offered {
        if let Some(left) = room.checked_sub(part.amount) {
            room = left;
            chosen.push(*part);
        }
    }
    chosen
}
