//! Bowls that keep for many rounds: each is filled at once with doses of all the rounds it may serve.
//!
//! Round by round, several fixed orders of preference are tried from each of a few best beginnings.
//! Nothing here proves anything; the floor of [`super::bounds`] and the search of [`super::standing`] do.

use super::bounds::Outlook;
use super::course::{Course, Draft, Fill, Part};

/// Largest bowl, in steps, for which every total is looked at.
const FINE: u32 = 1_024;
/// Beginnings followed.
const WIDTH: usize = 12;
/// Doses beyond which each order of preference is only tried from end to end.
const MANY: usize = 4_000;

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
    /// The fullest choice out of the making round, and only then of later ones, near or large ones first.
    OwnOnlyThenNearest,
    OwnOnlyThenLargest,
}

const ORDERS: [Order; 6] = [
    Order::Nearest,
    Order::OwnThenLargest,
    Order::Largest,
    Order::OwnLast,
    Order::OwnOnlyThenNearest,
    Order::OwnOnlyThenLargest,
];

/// A plan for all rounds.
pub(super) fn draft(course: &Course, outlook: &Outlook) -> Draft {
    let begun = Filling::new(course, outlook);
    let doses: usize = course.rounds.iter().map(|round| round.doses.len()).sum();
    let ways = if doses > MANY {
        each_order(course, &begun)
    } else {
        best_beginnings(course, begun)
    };
    let best = ways.into_iter().min_by_key(|filling| filling.bowls.len());
    best.map_or_else(Draft::default, |filling| Draft {
        bowls: filling.bowls,
        open: filling.open,
    })
}

fn each_order<'a>(course: &Course, begun: &Filling<'a>) -> Vec<Filling<'a>> {
    let run = |order| {
        let mut filling = begun.clone();
        for round in 0..course.rounds.len() {
            filling.serve(round, order);
        }
        filling
    };
    ORDERS.into_iter().map(run).collect()
}

fn best_beginnings<'a>(course: &Course, begun: Filling<'a>) -> Vec<Filling<'a>> {
    let mut begun = vec![begun];
    for round in 0..course.rounds.len() {
        let mut next: Vec<Filling> = Vec::new();
        for filling in &begun {
            for order in ORDERS {
                let mut more = filling.clone();
                more.serve(round, order);
                let known = |other: &Filling| {
                    other.served == more.served && other.bowls.len() <= more.bowls.len()
                };
                if !next.iter().any(known) {
                    next.push(more);
                }
            }
        }
        next.sort_by_cached_key(|filling| filling.promise(round + 1));
        next.truncate(WIDTH);
        begun = next;
    }
    begun
}

#[derive(Clone)]
struct Filling<'a> {
    course: &'a Course,
    outlook: &'a Outlook,
    /// Per round and position: whether the dose has a bowl.
    served: Vec<Vec<bool>>,
    bowls: Vec<Fill>,
    open: Vec<Vec<Part>>,
}

impl<'a> Filling<'a> {
    /// Nothing is served yet but what the open bowls can give.
    fn new(course: &'a Course, outlook: &'a Outlook) -> Self {
        let served = course
            .rounds
            .iter()
            .map(|round| vec![false; round.doses.len()])
            .collect();
        let mut filling = Self {
            course,
            outlook,
            served,
            bowls: Vec::new(),
            open: vec![Vec::new(); course.open.len()],
        };
        let mut open: Vec<usize> = (0..course.open.len()).collect();
        open.sort_by_key(|&index| course.open[index].last);
        for index in open {
            let rest = course.open[index];
            filling.open[index] = filling.choose(0, rest.last, rest.left, Order::Nearest);
        }
        filling
    }

    fn serve(&mut self, round: usize, order: Order) {
        let course = self.course;
        while let Some(position) = self.served[round].iter().position(|served| !served) {
            self.served[round][position] = true;
            let first = course.whole(round, position);
            let mut parts = vec![first];
            parts.extend(self.choose(
                round,
                course.rounds[round].last,
                course.capacity - first.amount,
                order,
            ));
            self.bowls.push(Fill { round, parts });
        }
    }

    /// The fewest bowls this can come to, then the volume made and not yet used.
    fn promise(&self, round: usize) -> (usize, u64) {
        let later = self.served.iter().zip(&self.course.rounds).skip(round);
        let served: Vec<u32> = later
            .flat_map(|(served, round)| {
                served
                    .iter()
                    .zip(&round.doses)
                    .filter(|(served, _)| **served)
            })
            .map(|(_, dose)| dose.amount)
            .collect();
        let worth = |which: usize| {
            served
                .iter()
                .map(|&amount| self.outlook.measures[which].value(amount))
                .sum()
        };
        let floor = usize::try_from(self.outlook.at_least(round, worth)).unwrap_or(usize::MAX);
        let made =
            u64::try_from(self.bowls.len()).unwrap_or(u64::MAX) * u64::from(self.course.capacity);
        let used: u64 = served.iter().map(|&amount| u64::from(amount)).sum();
        (self.bowls.len() + floor, made - used.min(made))
    }

    /// Doses of the rounds from `from` to `last` that fill the room as far as can be, the preferred ones.
    fn choose(&mut self, from: usize, last: usize, room: u32, order: Order) -> Vec<Part> {
        let mut chosen = Vec::new();
        let mut left = room;
        let first_from = match order {
            Order::OwnOnlyThenNearest | Order::OwnOnlyThenLargest => {
                self.add(&mut chosen, &mut left, from, from, Order::Nearest);
                from + 1
            }
            _ => from,
        };
        if first_from <= last {
            self.add(&mut chosen, &mut left, first_from, last, order);
        }
        chosen
    }

    fn add(
        &mut self,
        chosen: &mut Vec<Part>,
        left: &mut u32,
        from: usize,
        last: usize,
        order: Order,
    ) {
        let mut offered: Vec<Part> = (from..=last)
            .flat_map(|round| {
                let served = &self.served[round];
                let free = move |position: &usize| !served[*position];
                (0..served.len())
                    .filter(free)
                    .map(move |position| (round, position))
            })
            .map(|(round, position)| self.course.whole(round, position))
            .filter(|part| part.amount <= *left)
            .collect();
        let largest = |part: &Part| std::cmp::Reverse(part.amount);
        match order {
            Order::Nearest | Order::OwnOnlyThenNearest => {}
            Order::OwnThenLargest => {
                offered.sort_by_key(|part| (part.round > from, largest(part), part.round))
            }
            Order::Largest | Order::OwnOnlyThenLargest => {
                offered.sort_by_key(|part| (largest(part), part.round))
            }
            Order::OwnLast => {
                offered.sort_by_key(|part| (part.round == from, part.round, largest(part)))
            }
        }
        for part in choice(&offered, *left) {
            self.served[part.round][part.position] = true;
            *left -= part.amount;
            chosen.push(part);
        }
    }
}

/// The fullest choice of doses for this room, or for a very large one just what fits in turn.
pub(super) fn choice(offered: &[Part], room: u32) -> Vec<Part> {
    if room <= FINE {
        fullest(offered, room)
    } else {
        in_turn(offered, room)
    }
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
