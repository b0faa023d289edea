//! What the issuer's notices have changed for one order, as they stand now.
//!
//! Only notices about this order by its own issuer count, and of two about the same thing the one issued later, whichever arrived first.
//! A stop holds until a renewal that was issued later; a recalled lot stays recalled.

use jiff::Timestamp;
use jiff::civil::Date;

use crate::order::notice::{Action, CourseEnd};
use crate::order::{Notice, Order, WaterRule};
use crate::record::State;
use crate::units::AgeSpan;

/// The notices about one order, oldest first, and what they add up to for its course.
#[derive(Clone, Debug)]
pub struct InForce<'a> {
    /// Oldest first.
    pub notices: Vec<&'a Notice>,
    /// The stop that holds, and its first day without a dose; at once without one.
    pub stop: Option<(&'a Notice, Option<Date>)>,
    /// The order's own course first, then what renewals added.
    pub stretches: Vec<Stretch>,
}

/// Days of doses in a row.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stretch {
    pub days: u32,
    pub begins: Begins,
    /// No dose from there on; all of them count.
    pub cuts: Vec<Cut>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Begins {
    /// With each person's own first day.
    Own,
    On(Date),
    /// On the day of this instant in the household's zone.
    At(Timestamp),
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cut {
    Before(Date),
    At(Timestamp),
}

/// A lot in the house that notices are about, or not.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LotInHouse {
    pub product: String,
    pub lot: String,
    /// Tablets received of it.
    pub tablets: u64,
    pub standing: LotStanding,
}

/// What the issuer said last of a lot.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum LotStanding {
    /// Nothing: the printed expiry counts.
    AsPrinted,
    /// May be used to the end of this day.
    Extended { until: Date },
    /// Set aside until a later notice.
    SetAside,
    /// Not to be used; to be brought back.
    BringBack,
}

/// Who may fetch medicine, for how many, when.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Collection {
    pub youngest_collector: Option<AgeSpan>,
    pub most_people: Option<u32>,
    pub from: Option<Date>,
    pub until: Option<Date>,
}

impl<'a> InForce<'a> {
    pub fn of(state: &'a State, order: &Order) -> InForce<'a> {
        InForce::of_notices(&state.notices, order)
    }

    /// From all notices that were received, in any order.
    pub fn of_notices(received: &'a [Notice], order: &Order) -> InForce<'a> {
        let about = |notice: &&Notice| notice.applies_to(order);
        let mut notices: Vec<&Notice> = received.iter().filter(about).collect();
        notices.sort_by_key(|notice| (notice.issued, notice.id.clone(), notice.fingerprint));
        let own = Stretch {
            days: order.medicine.course_days,
            begins: Begins::Own,
            cuts: Vec::new(),
        };
        let mut force = InForce {
            notices: notices.clone(),
            stop: None,
            stretches: vec![own],
        };
        for notice in notices {
            force.add(notice);
        }
        force
    }

    fn add(&mut self, notice: &'a Notice) {
        match &notice.action {
            Action::Stop { from } => self.stop = Some((notice, *from)),
            Action::Shorten { until } => self.shorten(*until),
            Action::Renew { days, from } => {
                // The stop goes on for what was before it; the renewal is new.
                if let Some((stop, from)) = self.stop.take() {
                    self.cut_all(from.map_or(Cut::At(stop.issued), Cut::Before));
                }
                self.stretches.push(Stretch {
                    days: *days,
                    begins: from.map_or(Begins::At(notice.issued), Begins::On),
                    cuts: Vec::new(),
                });
            }
            Action::ExtendLot { .. }
            | Action::QuarantineLot { .. }
            | Action::RecallLot { .. }
            | Action::Water { .. }
            | Action::Collection { .. } => {}
        }
    }

    fn shorten(&mut self, until: CourseEnd) {
        match until {
            CourseEnd::Days(days) => {
                self.stretches.truncate(1);
                for own in &mut self.stretches {
                    own.days = own.days.min(days);
                }
            }
            CourseEnd::LastDay(last) => {
                self.cut_all(last.tomorrow().map_or(Cut::At(Timestamp::MAX), Cut::Before));
            }
        }
    }

    fn cut_all(&mut self, cut: Cut) {
        for stretch in &mut self.stretches {
            stretch.cuts.push(cut);
        }
    }

    /// The stop that leaves no dose on this day or after it.
    pub fn stopped_on(&self, day: Date) -> Option<&'a Notice> {
        let (notice, from) = self.stop?;
        from.is_none_or(|from| day >= from).then_some(notice)
    }

    /// Whether a round of a stretch is still one.
    pub fn leaves(&self, stretch: &Stretch, day: Date, at: Timestamp) -> bool {
        let is_before = |cut: &Cut| match cut {
            Cut::Before(end) => day < *end,
            Cut::At(end) => at < *end,
        };
        let stop = self.stop.and_then(|(_, from)| from).map(Cut::Before);
        stretch.cuts.iter().chain(&stop).all(is_before)
    }

    /// Days added by renewals.
    pub fn renewed_days(&self) -> u32 {
        let renewals = self.stretches.iter().skip(1);
        renewals.fold(0, |days, stretch| days.saturating_add(stretch.days))
    }

    /// Whether the course is another than the order's.
    pub fn changes_course(&self, order: &Order) -> bool {
        let own = self.stretches.first();
        let as_ordered =
            own.is_some_and(|own| own.days == order.medicine.course_days && own.cuts.is_empty());
        self.stop.is_some() || self.stretches.len() > 1 || !as_ordered
    }

    /// The water for the mixture: the latest notice's rule, else the order's.
    pub fn water_rule(&self, order: &Order) -> WaterRule {
        let rule = |notice: &&Notice| match notice.action {
            Action::Water { rule } => Some(rule),
            _ => None,
        };
        self.notices
            .iter()
            .rev()
            .find_map(rule)
            .unwrap_or(order.water)
    }

    /// Who may fetch medicine, by the latest notice about it.
    pub fn collection(&self) -> Option<Collection> {
        self.notices
            .iter()
            .rev()
            .find_map(|notice| match notice.action {
                Action::Collection {
                    youngest_collector,
                    most_people,
                    from,
                    until,
                } => Some(Collection {
                    youngest_collector,
                    most_people,
                    from,
                    until,
                }),
                _ => None,
            })
    }

    /// What was said of a lot; letters count the same in either case.
    pub fn lot(&self, lot: &str) -> LotStanding {
        let names = |notice: &&&Notice| {
            let mut lots = notice.lots().iter();
            lots.any(|named| named.trim().eq_ignore_ascii_case(lot.trim()))
        };
        let standing = |so_far: LotStanding, notice: &&Notice| match notice.action {
            _ if so_far == LotStanding::BringBack => so_far,
            Action::ExtendLot { expires, .. } => LotStanding::Extended { until: expires },
            Action::QuarantineLot { .. } => LotStanding::SetAside,
            Action::RecallLot { .. } => LotStanding::BringBack,
            _ => so_far,
        };
        let about = self.notices.iter().filter(names);
        about.fold(LotStanding::AsPrinted, standing)
    }
}

/// The lots this household received, with what the issuer said of each; the first received first.
pub fn lots(state: &State, order: &Order) -> Vec<LotInHouse> {
    let force = InForce::of(state, order);
    let mut found: Vec<LotInHouse> = Vec::new();
    for pack in &state.packs {
        let Some(lot) = &pack.lot else { continue };
        if pack.order.as_ref().is_some_and(|own| *own != order.id) {
            continue;
        }
        let tablets = u64::from(pack.tablets);
        let same = |known: &&mut LotInHouse| (&known.product, &known.lot) == (&pack.product, lot);
        match found.iter_mut().find(same) {
            Some(known) => known.tablets = known.tablets.saturating_add(tablets),
            None => found.push(LotInHouse {
                product: pack.product.clone(),
                lot: lot.clone(),
                tablets,
                standing: force.lot(lot),
            }),
        }
    }
    found
}

/// The water rule of the gather step.
pub fn water_rule(state: &State, order: &Order) -> WaterRule {
    InForce::of(state, order).water_rule(order)
}
