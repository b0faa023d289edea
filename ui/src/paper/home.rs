//! What a home's papers are made from, and their order: who takes what, how to make it, what to do when, the chart, the labels.

use std::collections::BTreeMap;

use hearthdose_core::dose::Dose;
use hearthdose_core::mixture::{CoursePlan, PlannedRound, Seat};
use hearthdose_core::order::{CheckedOrder, ContactKind, WaterRule};
use hearthdose_core::units::Lapse;
use jiff::Timestamp;
use jiff::civil::{Date, Time};
use jiff::tz::TimeZone;

use super::flow::{Flow, Frame};
use super::{CannotPrint, Paper};
use crate::text::{Measure, Words};

/// Everything the papers of one home under one order say.
#[derive(Clone)]
pub struct Home<'a> {
    pub order: &'a CheckedOrder,
    /// As the household calls itself.
    pub name: Option<&'a str>,
    /// Every time on the papers is told in it.
    pub zone: &'a TimeZone,
    pub seats: &'a [Seat],
    /// People of the home who sit at no place of the plan, because their medicine was stopped.
    pub absent: &'a [Absent],
    pub plan: &'a CoursePlan,
    pub measure: Measure,
    pub water: WaterRule,
    /// The text of the code for a dispensing site.
    pub code: Option<&'a str>,
    /// By when more is to be collected.
    pub refill: Option<Date>,
    pub course_end: Date,
    /// When the papers are made.
    pub made: Timestamp,
}

/// Somebody who takes nothing until a nurse or doctor says so.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Absent {
    pub name: String,
    /// What stopped it, in a few words.
    pub why: String,
}

/// The sheet, the chart to tick and the labels for kept bowls: one document.
///
/// # Errors
/// A letter that the typeface does not have, and a code that fits no picture.
pub fn household(home: &Home<'_>, words: &Words, paper: Paper) -> Result<Vec<u8>, CannotPrint> {
    let mut sheet = Sheet {
        flow: Flow::new(paper, frame(home, words))?,
        numbers: numbers(home.plan),
        home,
        words,
    };
    sheet.people();
    sheet.steps();
    sheet.rules();
    sheet.numbers()?;
    sheet.chart();
    sheet.labels();
    let name = sheet.name();
    let title = words.say_with(
        "paper-title",
        &[
            ("home", name.clone().into()),
            ("title", sheet.order_title().into()),
        ],
    );
    sheet
        .flow
        .finish(&title, words.language().code(), &|page, of| {
            words.say_with("paper-page", &[("page", page.into()), ("of", of.into())])
        })
}

/// The strips at the top and the numbers at the bottom.
pub(super) fn frame(home: &Home<'_>, words: &Words) -> Frame {
    let date = home.zone.to_datetime(home.made).date();
    let name = home
        .name
        .map_or_else(|| words.say("paper-home"), str::to_owned);
    Frame {
        strips: head_of(home.order, words),
        foot: [
            numbers_line(home.order, words),
            words.say_with(
                "paper-foot",
                &[
                    ("home", name.into()),
                    ("date", words.long_date(date).into()),
                ],
            ),
        ],
    }
}

/// What stands at the top of every page.
pub(super) fn head_of(order: &CheckedOrder, words: &Words) -> Vec<String> {
    let mut strips = strips(order, words);
    strips.extend(words.foreign_in(order));
    strips
}

/// No order is signed yet, so each paper is for practice and says so.
pub(super) fn strips(order: &CheckedOrder, words: &Words) -> Vec<String> {
    let key = if order.invented {
        "strip-invented"
    } else {
        "strip-unsigned"
    };
    vec![words.say(key)]
}

/// "Emergency: 555-0100 · Questions: 555-0142".
pub(super) fn numbers_line(order: &CheckedOrder, words: &Words) -> String {
    let kinds = [
        (ContactKind::Emergency, "contact-emergency"),
        (ContactKind::Questions, "contact-questions"),
    ];
    let mut parts = Vec::new();
    for (kind, key) in kinds {
        if let Some(contact) = order.contacts.iter().find(|contact| contact.kind == kind) {
            let values = [
                ("what", words.say(key).into()),
                ("phone", contact.phone.as_str().into()),
            ];
            parts.push(words.say_with("paper-number", &values));
        }
    }
    parts.push(words.say("not-your-clinician"));
    parts.join(" · ")
}

/// From one round on a dose, or none.
#[derive(Clone, Debug)]
pub(super) struct Stretch {
    pub from: usize,
    pub dose: Option<Dose>,
}

/// A home's papers in the making.
pub(super) struct Sheet<'a> {
    pub flow: Flow,
    /// What each bowl of the plan is called.
    numbers: Vec<usize>,
    pub home: &'a Home<'a>,
    pub words: &'a Words,
}

/// The lowest number for each bowl that no bowl has which is still to be used: small ones, that people can write on a label.
fn numbers(plan: &CoursePlan) -> Vec<usize> {
    let mut numbers: Vec<usize> = Vec::new();
    for bowl in &plan.bowls {
        let open = plan.bowls.iter().zip(&numbers).filter(|(other, _)| {
            let last = other.takes.iter().map(|take| take.0).max();
            last.unwrap_or(other.round).max(other.round) >= bowl.round
        });
        let used: Vec<usize> = open.map(|(_, number)| *number).collect();
        let free = (1..).find(|number| !used.contains(number));
        numbers.push(free.unwrap_or(1));
    }
    numbers
}

impl Sheet<'_> {
    /// What the bowl at this place of the plan is called.
    pub(super) fn number(&self, bowl: usize) -> usize {
        self.numbers.get(bowl).copied().unwrap_or(bowl + 1)
    }

    pub(super) fn name(&self) -> String {
        match self.home.name {
            Some(name) => name.to_owned(),
            None => self.words.say("paper-home"),
        }
    }

    pub(super) fn order_title(&self) -> String {
        self.words.title(self.home.order).to_owned()
    }

    pub(super) fn medicine(&self) -> String {
        self.words.medicine(self.home.order).to_owned()
    }

    pub(super) fn phone(&self, kind: ContactKind) -> String {
        let contacts = &self.home.order.contacts;
        let of = |kind| contacts.iter().find(|contact| contact.kind == kind);
        of(kind)
            .or_else(|| of(ContactKind::Questions))
            .map(|contact| contact.phone.clone())
            .unwrap_or_default()
    }

    pub(super) fn seat_name(&self, seat: usize) -> String {
        let seat = self.home.seats.get(seat);
        seat.map(|seat| seat.person.name.clone())
            .unwrap_or_default()
    }

    /// Rounds in which somebody has a dose, with their places in the plan.
    pub(super) fn rounds(&self) -> impl Iterator<Item = (usize, &PlannedRound)> {
        let all = self.home.plan.rounds.iter().enumerate();
        all.filter(|(_, round)| !round.doses.is_empty())
    }

    pub(super) fn clock(&self, at: Timestamp) -> String {
        self.words.clock(at, self.home.zone)
    }

    pub(super) fn date_of(&self, at: Timestamp) -> Date {
        self.home.zone.to_datetime(at).date()
    }

    /// "7:49 p.m. Thursday, April 3".
    pub(super) fn clock_and_date(&self, at: Timestamp) -> String {
        let values = [
            ("time", self.clock(at).into()),
            ("date", self.words.date(self.date_of(at)).into()),
        ];
        self.words.say_with("paper-time-date", &values)
    }

    pub(super) fn amount(&self, dose: &Dose) -> String {
        self.words
            .dose_words(dose.form, dose.amount, dose.tablets, self.home.measure)
    }

    /// What a seat takes, from round to round; empty where it never takes anything.
    pub(super) fn stretches(&self, seat: usize) -> Vec<Stretch> {
        let mut found: Vec<Stretch> = Vec::new();
        for (index, round) in self.rounds() {
            let dose = round.doses.iter().find(|planned| planned.seat == seat);
            let dose = dose.map(|planned| &planned.dose);
            let held = self
                .home
                .plan
                .held
                .iter()
                .any(|(who, from, _)| *who == seat && *from == index);
            let last = found.last().map(|stretch| stretch.dose.as_ref());
            let new = match (dose, last) {
                (Some(dose), Some(Some(before))) => !same(dose, before),
                (Some(_), _) => true,
                (None, Some(Some(_))) => held,
                (None, _) => false,
            };
            if new {
                found.push(Stretch {
                    from: index,
                    dose: dose.cloned(),
                });
            }
        }
        found
    }

    /// Times of day at which rounds are, without those of a first dose at an odd time or of a night on which clocks change.
    pub(super) fn regular_times(&self) -> Vec<Time> {
        let mut times: BTreeMap<Time, usize> = BTreeMap::new();
        for (_, round) in self.rounds() {
            let time = self.home.zone.to_datetime(round.at).time();
            *times.entry(time).or_default() += 1;
        }
        let most = times.values().max().copied().unwrap_or(0);
        let regular = times.iter().filter(|(_, count)| **count * 2 > most);
        regular.map(|(time, _)| *time).collect()
    }

    /// How long before its time a round begins, at the most.
    pub(super) fn lead(&self) -> Lapse {
        let rounds = self.rounds();
        rounds
            .map(|(_, round)| round.pace.lead())
            .max()
            .unwrap_or(Lapse::ZERO)
    }

    pub(super) fn length(&self) -> Lapse {
        let rounds = self.rounds();
        rounds
            .map(|(_, round)| round.pace.total())
            .max()
            .unwrap_or(Lapse::ZERO)
    }
}

/// Whether two doses look the same on paper.
pub(super) fn same(one: &Dose, other: &Dose) -> bool {
    (one.form, one.amount, one.tablets) == (other.form, other.amount, other.tablets)
}
