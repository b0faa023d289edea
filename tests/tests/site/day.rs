//! A day at a site that chance made: two or three tablets with clocks of their own, and a tally kept by hand beside them.

use std::collections::BTreeMap;

use hearthdose_core::household::Answer;
use hearthdose_core::record::{Fact, FactId, HandOutLine, LotName, SiteEvent, Stamp};
use hearthdose_core::site::take_back;
use hearthdose_tests::people::Dice;
use jiff::civil::date;
use jiff::{SignedDuration, Timestamp};

use crate::book::{Book, HOME, TEN, answered, at, lifted, pills, received, taken_away, weighed};

/// One tablet of a site, with the hours by which its clock is wrong.
pub struct Tablet {
    pub book: Book,
    wrong: i64,
}

/// Everything that was done to the shelves, written down beside the tablets with its place in the order of facts.
#[derive(Default)]
pub struct Tally(Vec<(Stamp, LotName, Done)>);

enum Done {
    Moved(i64),
    Counted(u32),
    /// Of a hand-out; said twice it came back once, the first time.
    Back(FactId, u32),
}

impl Tally {
    fn note(&mut self, book: &Book, lot: &LotName, done: Done) {
        let stamp = book.facts.last().unwrap().stamp;
        self.0.push((stamp, lot.clone(), done));
    }

    /// What is on the shelf: the last count, and what was moved after it.
    pub fn packs(&self, lot: &LotName) -> i64 {
        let mine = || self.0.iter().filter(|(_, name, _)| name == lot);
        let counts = mine().filter_map(|(stamp, _, done)| match done {
            Done::Counted(counted) => Some((*stamp, i64::from(*counted))),
            _ => None,
        });
        let last = counts.max_by_key(|(stamp, _)| *stamp);
        let is_after = |stamp: Stamp| last.is_none_or(|(last, _)| stamp > last);
        let mut packs = last.map_or(0, |(_, counted)| counted);
        for (stamp, _, done) in mine() {
            packs += match done {
                Done::Moved(moved) if is_after(*stamp) => *moved,
                Done::Back(out, back) => {
                    let same = mine().filter(
                        |(_, _, other)| matches!(other, Done::Back(other, _) if other == out),
                    );
                    let first = same.map(|(stamp, _, _)| *stamp).min();
                    let counts = first == Some(*stamp) && is_after(*stamp);
                    if counts { i64::from(*back) } else { 0 }
                }
                _ => 0,
            };
        }
        packs
    }

    /// How often anything was counted.
    pub fn counts(&self) -> usize {
        let counts = self
            .0
            .iter()
            .filter(|(_, _, done)| matches!(done, Done::Counted(_)));
        counts.count()
    }
}

pub struct Day {
    pub tablets: Vec<Tablet>,
    pub tally: Tally,
    codes: Vec<SiteEvent>,
}

pub const LOTS: [&str; 3] = ["A", "B", "C"];

pub fn a_day(dice: &mut Dice, codes: &[SiteEvent]) -> Day {
    let many = dice.between(2, 3);
    let mut day = Day {
        tablets: (1..=many)
            .map(|number| Tablet {
                book: Book::new(u64::try_from(number).unwrap()),
                wrong: dice.pick(&[0, 0, 5, -3, 26]),
            })
            .collect(),
        tally: Tally::default(),
        codes: codes.to_vec(),
    };
    for minute in 0..dice.between(4, 24) {
        let which = usize::try_from(dice.below(many)).unwrap();
        day.something(dice, which, minute);
    }
    day
}

impl Day {
    fn something(&mut self, dice: &mut Dice, which: usize, minute: i64) {
        if dice.percent(15) {
            let from = usize::try_from(dice.below(i64::try_from(self.tablets.len()).unwrap()));
            let facts = self.tablets[from.unwrap()].book.facts.clone();
            self.tablets[which].book.merge(&facts);
        }
        let Tablet { book, wrong } = &mut self.tablets[which];
        let now = at(TEN) + SignedDuration::from_hours(*wrong) + SignedDuration::from_mins(minute);
        let name = pills(dice.pick(&LOTS));
        let person = u16::try_from(dice.between(1, 4)).unwrap();
        let key = dice.pick(&["pregnant", "kidney-or-liver", "born-early"]);
        match dice.below(12) {
            0 => {
                let packs = u32::try_from(dice.between(1, 40)).unwrap();
                let expiry = dice.pick(&["2031-04-30", "2032-01-31"]);
                book.note(now, received(name.clone(), expiry, packs, 20));
                self.tally.note(book, &name, Done::Moved(i64::from(packs)));
            }
            1 => {
                let counted = u32::try_from(dice.between(0, 30)).unwrap();
                // Whatever the sum said then.
                let difference = dice.between(-5, 5);
                let reason = "counted".to_owned();
                let lot = name.clone();
                book.note(
                    now,
                    SiteEvent::LotCounted {
                        lot,
                        counted,
                        difference,
                        reason,
                    },
                );
                self.tally.note(book, &name, Done::Counted(counted));
            }
            2 | 3 => {
                book.note(now, self.codes[dice.pick(&[0, 1, 2])].clone());
            }
            4 => {
                let answer = dice.pick(&[Answer::Yes, Answer::No, Answer::Unsure]);
                book.note(now, answered(person, key, answer));
            }
            5 => {
                let weight = dice.pick(&["31 lb", "45 lb", "100 lb"]);
                let on = date(2031, 4, i8::try_from(dice.between(1, 4)).unwrap());
                book.note(now, weighed(person, weight, on));
            }
            6 => {
                book.note(now, lifted(person, dice.pick(&[key, "implausible-weight"])));
            }
            7 => {
                let words = "green door".to_owned();
                book.note(now, SiteEvent::HomeNamed { home: HOME, words });
            }
            8 => {
                undo(dice, book, &mut self.tally, now);
            }
            9 if dice.percent(30) => {
                let receipt = "00".to_owned();
                book.note(
                    now,
                    SiteEvent::HomeErased {
                        home: HOME,
                        receipt,
                    },
                );
            }
            _ => {
                give(dice, book, &mut self.tally, now);
            }
        }
    }

    pub fn all(&self) -> Vec<Fact> {
        let facts = self.tablets.iter().flat_map(|tablet| &tablet.book.facts);
        let by_id: BTreeMap<FactId, Fact> = facts.map(|fact| (fact.id, fact.clone())).collect();
        by_id.into_values().collect()
    }
}

/// A hand-out of up to three bags, the same lot in several of them or not.
fn give(dice: &mut Dice, book: &mut Book, tally: &mut Tally, now: Timestamp) {
    let lines: Vec<HandOutLine> = (0..dice.between(1, 3))
        .map(|_| HandOutLine {
            person: dice.percent(50).then_some(1),
            lot: pills(dice.pick(&LOTS)),
            packs: u32::try_from(dice.between(1, 4)).unwrap(),
            each: 20,
        })
        .collect();
    let mut taken: BTreeMap<LotName, u32> = BTreeMap::new();
    for line in &lines {
        *taken.entry(line.lot.clone()).or_default() += line.packs;
    }
    let out = SiteEvent::HandedOut {
        home: HOME,
        issue: 1,
        lines,
        people: dice.pick(&[&[][..], &[2], &[2, 3]]).to_vec(),
        enough_until: Some(date(2031, 4, 12)),
        lead: None,
        in_count: Vec::new(),
    };
    let hand_out = book.note(now, out);
    for (lot, packs) in &taken {
        let (lot, packs) = (lot.clone(), *packs);
        let name = lot.clone();
        book.note(
            now,
            SiteEvent::LotOut {
                lot,
                packs,
                hand_out,
            },
        );
        tally.note(book, &name, Done::Moved(-i64::from(packs)));
    }
}

/// Undoes one of the hand-outs that this tablet sees; perhaps another tablet does too.
fn undo(dice: &mut Dice, book: &mut Book, tally: &mut Tally, now: Timestamp) {
    let seen = book.home().map(|home| home.handed_out).unwrap_or_default();
    let Ok(many) = i64::try_from(seen.len()) else {
        return;
    };
    if many == 0 {
        return;
    }
    let out = &seen[usize::try_from(dice.below(many)).unwrap()];
    book.note_event(now, taken_away(out.fact));
    let mut packs: BTreeMap<LotName, u32> = BTreeMap::new();
    for line in &out.lines {
        *packs.entry(line.lot.clone()).or_default() += line.packs;
    }
    for back in take_back(out) {
        let lot = back.lot().unwrap().clone();
        book.note(now, back);
        tally.note(book, &lot, Done::Back(out.fact, packs[&lot]));
    }
}
