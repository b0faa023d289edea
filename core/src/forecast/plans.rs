//! What one home takes, planned once for each mixture of people.

use std::collections::BTreeMap;

use jiff::Timestamp;
use jiff::civil::Date;

use crate::dose::{self, DoseForm};
use crate::household::Person;
use crate::mixture::{self, PlanRefusal, RoundTime, Seat, Wish};
use crate::order::{CheckedOrder, Form};
use crate::units::{Lapse, Volume};

/// Ages are told as lengths here, so the day changes nothing.
const DAY: Date = Date::constant(2000, 1, 1);
/// Rounds begin at this hour; only the gaps between them matter.
const FIRST_HOUR: i64 = 8;

/// Place of a kind of people among all kinds: those who take the same and are counted alike.
pub(super) type Kind = u16;

/// What a home, or all of them, take.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Need {
    pub(super) tablets: u64,
    pub(super) handed_out: u64,
    pub(super) packs: u64,
    pub(super) liquid_ul: u64,
}

impl Need {
    pub(super) fn add(&mut self, other: &Need) {
        self.tablets = self.tablets.saturating_add(other.tablets);
        self.handed_out = self.handed_out.saturating_add(other.handed_out);
        self.packs = self.packs.saturating_add(other.packs);
        self.liquid_ul = self.liquid_ul.saturating_add(other.liquid_ul);
    }
}

/// Everything the plan of a home depends on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Takes {
    form: DoseForm,
    amount: Volume,
    tablets: Option<u32>,
    most: Option<u32>,
}

/// The kinds of people, and the plans made so far.
pub(super) struct Plans<'a> {
    order: &'a CheckedOrder,
    times: Vec<(Timestamp, Date)>,
    kinds: BTreeMap<Takes, Kind>,
    /// One person of each kind.
    people: Vec<Person>,
    made: BTreeMap<Vec<Kind>, Need>,
    proven: bool,
}

impl<'a> Plans<'a> {
    pub(super) fn new(order: &'a CheckedOrder, days: u32) -> Plans<'a> {
        Plans {
            order,
            times: times(order.medicine.interval, days),
            kinds: BTreeMap::new(),
            people: Vec::new(),
            made: BTreeMap::new(),
            proven: true,
        }
    }

    pub(super) fn rounds(&self) -> u64 {
        u64::try_from(self.times.len()).unwrap_or(u64::MAX)
    }

    pub(super) fn proven(&self) -> bool {
        self.proven
    }

    pub(super) fn is_liquid(&self) -> bool {
        let product = self.order.main_product();
        product.is_some_and(|product| product.form == Form::Liquid)
    }

    pub(super) fn knows_packs(&self) -> bool {
        let product = self.order.main_product();
        product.is_some_and(|product| product.pack_size.is_some())
    }

    /// The kind of a person, or the code of the first reason why there is no dose.
    pub(super) fn kind(&mut self, person: &Person) -> Result<Kind, &'static str> {
        let dose = dose::work_out(self.order, person, DAY)
            .map_err(|reasons| reasons.first().map_or("no-dose", |reason| reason.code))?;
        let takes = Takes {
            form: dose.form,
            amount: dose.amount,
            tablets: dose.tablets,
            most: dose::most_doses(self.order, person, DAY),
        };
        if let Some(kind) = self.kinds.get(&takes) {
            return Ok(*kind);
        }
        let kind = Kind::try_from(self.people.len()).unwrap_or(Kind::MAX);
        self.people.push(person.clone());
        self.kinds.insert(takes, kind);
        Ok(kind)
    }

    /// What a home of these kinds takes; in whatever order they are named.
    pub(super) fn of(&mut self, home: &[Kind]) -> Result<Need, PlanRefusal> {
        let mut sorted = home.to_vec();
        sorted.sort_unstable();
        if let Some(need) = self.made.get(&sorted) {
            return Ok(*need);
        }
        let need = self.plan(&sorted)?;
        self.made.insert(sorted, need);
        Ok(need)
    }

    fn plan(&mut self, home: &[Kind]) -> Result<Need, PlanRefusal> {
        let seats: Vec<Seat> = home
            .iter()
            .filter_map(|kind| self.people.get(usize::from(*kind)))
            .map(|person| Seat {
                person: person.clone(),
                had: 0,
                renewed: 0,
            })
            .collect();
        let rounds: Vec<RoundTime> = self
            .times
            .iter()
            .map(|(at, day)| RoundTime {
                at: *at,
                day: *day,
                who: (0..seats.len()).collect(),
            })
            .collect();
        let wish = Wish {
            order: self.order,
            seats: &seats,
            rounds: &rounds,
            standing: &[],
            fresh: false,
        };
        let plan = mixture::plan(&wish, &mut |_, _| {})?;
        self.proven &= plan.proven;
        let supply = mixture::supply(self.order, &plan, &seats);
        Ok(Need {
            tablets: plan.tablets,
            handed_out: supply.handed_out,
            packs: supply.packs.unwrap_or(0),
            liquid_ul: plan.liquid.as_microlitres(),
        })
    }
}

/// The rounds of so many days, one interval apart.
fn times(interval: Lapse, days: u32) -> Vec<(Timestamp, Date)> {
    let day = Lapse::from_hours(24);
    let Some(end) = day.checked_mul(i32::try_from(days).unwrap_or(i32::MAX)) else {
        return Vec::new();
    };
    let mut found = Vec::new();
    let mut since = Lapse::ZERO;
    while since < end && interval > Lapse::ZERO {
        let hours = Lapse::from_hours(FIRST_HOUR);
        let at = Timestamp::UNIX_EPOCH.checked_add(since.saturating_add(hours));
        found.extend(at.ok().map(|at| (at, DAY)));
        since = since.saturating_add(interval);
    }
    found
}
