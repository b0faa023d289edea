//! What no sequence of events at a site may lead to, against a second set of books kept here in plain words.

use std::collections::{BTreeMap, BTreeSet};

use hearthdose_core::household::Answer;
use hearthdose_core::order::{CheckedOrder, IfYes, Notice};
use hearthdose_core::record::{LotName, SiteEvent};
use hearthdose_core::screening;
use hearthdose_core::site::{Serving, hand_out};
use hearthdose_tests::people::{Dice, checked, demo_text, weighing_and_aged};
use jiff::civil::Date;
use jiff::{SignedDuration, Span, Timestamp};

use crate::book::{
    Book, TEN, answered, at, code, days_after, lifted, notice_with, pills, reasons, received, seen,
};

const LOTS: [&str; 4] = ["A", "B", "C", "D"];
const PEOPLE: u16 = 4;
const FIRST: Date = Date::constant(2031, 4, 3);

fn order() -> CheckedOrder {
    let text = demo_text("orders/quillmere-doxy-1");
    let rule = "hand-out = \"plan + spare\"\nspare = 4";
    assert!(text.contains(rule));
    checked(&text.replace(rule, "hand-out = \"per-person\""))
}

/// The second set of books.
#[derive(Default)]
struct Plain {
    answers: BTreeMap<(u16, String), Answer>,
    lifted: BTreeSet<(u16, String)>,
    packs: BTreeMap<LotName, i64>,
    /// The earliest that was typed.
    expiry: BTreeMap<LotName, Date>,
    each: BTreeMap<LotName, u32>,
    /// When it was issued, what it says, the lot, and the last day of an extension.
    notices: Vec<(Timestamp, &'static str, &'static str)>,
}

const EXTENDED: Date = Date::constant(2031, 12, 31);

impl Plain {
    fn may_have(&self, order: &CheckedOrder, person: u16) -> bool {
        order.questions.iter().all(|question| {
            let of = (person, question.key.clone());
            let is_lifted = self.lifted.contains(&of);
            match (self.answers.get(&of), question.if_yes) {
                (None, _) | (Some(Answer::Yes), IfYes::Stop) => false,
                (Some(Answer::No), _) | (Some(Answer::Yes), IfYes::Caution) => true,
                (Some(Answer::Yes), IfYes::Hold) | (Some(Answer::Unsure), _) => is_lifted,
            }
        })
    }

    /// Whether a lot may be used on a day.
    fn is_good(&self, lot: &LotName, day: Date) -> bool {
        let mut notices = self.notices.clone();
        notices.sort();
        let mine: Vec<_> = notices
            .iter()
            .filter(|(_, _, name)| *name == lot.lot)
            .collect();
        if mine.iter().any(|(_, kind, _)| *kind == "recall-lot") {
            return false;
        }
        let printed = self.expiry.get(lot).copied();
        match mine.last().map(|(_, kind, _)| *kind) {
            Some("quarantine-lot") => false,
            Some(_) => day <= printed.map_or(EXTENDED, |printed| printed.max(EXTENDED)),
            None => printed.is_some_and(|printed| day <= printed),
        }
    }
}

struct Run {
    order: CheckedOrder,
    book: Book,
    plain: Plain,
    notices: Vec<Notice>,
    days: i64,
}

impl Run {
    fn begin(dice: &mut Dice, order: &CheckedOrder) -> Run {
        let mut run = Run {
            order: order.clone(),
            book: Book::new(1),
            plain: Plain::default(),
            notices: Vec::new(),
            days: 0,
        };
        let people: Vec<_> = (1..=PEOPLE)
            .map(|id| {
                let mut person = weighing_and_aged("", "adult");
                person.cleared = false;
                person.swallows_tablets = true;
                for question in &order.questions {
                    if dice.percent(90) {
                        let answer = one_of(dice);
                        person.answers.insert(question.key.clone(), answer);
                        run.plain.answers.insert((id, question.key.clone()), answer);
                    }
                }
                person
            })
            .collect();
        run.book.note(at(TEN), seen(&code(order, &people, at(TEN))));
        run
    }

    fn now(&self) -> Timestamp {
        days_after(at(TEN), self.days) + SignedDuration::from_mins(5)
    }

    fn something(&mut self, dice: &mut Dice) {
        let now = self.now();
        let person = u16::try_from(dice.between(1, i64::from(PEOPLE))).unwrap();
        let places = i64::try_from(self.order.questions.len()).unwrap();
        let place = usize::try_from(dice.below(places)).unwrap();
        let key = self.order.questions[place].key.clone();
        let name = dice.pick(&LOTS);
        let lot = pills(name);
        match dice.below(8) {
            0 | 1 => {
                let answer = one_of(dice);
                let of = (person, key.clone());
                if self.plain.answers.insert(of.clone(), answer) != Some(answer) {
                    self.plain.lifted.remove(&of);
                }
                self.book.note(now, answered(person, &key, answer));
            }
            2 => {
                self.plain.lifted.insert((person, key.clone()));
                self.book.note(now, lifted(person, &key));
            }
            3 | 4 => {
                let packs = u32::try_from(dice.between(1, 6)).unwrap();
                let each = dice.pick(&[10, 20, 20, 30]);
                let expiry = FIRST + Span::new().days(dice.between(-2, 30));
                *self.plain.packs.entry(lot.clone()).or_default() += i64::from(packs);
                let known = self.plain.expiry.entry(lot.clone()).or_insert(expiry);
                *known = expiry.min(*known);
                let known = self.plain.each.entry(lot.clone()).or_insert(each);
                *known = each.min(*known);
                self.book
                    .note(now, received(lot, &expiry.to_string(), packs, each));
            }
            5 => {
                let sum = self.plain.packs.entry(lot.clone()).or_default();
                let counted = u32::try_from(*sum + dice.between(-3, 1)).unwrap_or(0);
                let difference = i64::from(counted) - *sum;
                *sum = i64::from(counted);
                let reason = "counted".to_owned();
                let event = SiteEvent::LotCounted {
                    lot,
                    counted,
                    difference,
                    reason,
                };
                self.book.note(now, event);
            }
            6 if dice.percent(25) => self.hear(dice, name),
            _ => self.days += dice.between(0, 2),
        }
    }

    /// A notice about a lot, issued at any moment of these weeks.
    fn hear(&mut self, dice: &mut Dice, name: &'static str) {
        let kind = dice.pick(&["recall-lot", "quarantine-lot", "extend-lot", "extend-lot"]);
        let (lot, issued) = match kind {
            "recall-lot" => ("QD3112", "2031-04-12T08:00:00-05:00"),
            "quarantine-lot" => ("QD3112", "2031-04-10T08:30:00-05:00"),
            _ => ("QD3107", "2031-04-08T11:00:00-05:00"),
        };
        let number = dice.below(1_000_000);
        let when = at(TEN) + SignedDuration::from_secs(number);
        let changes = [(lot, name), (issued, &when.to_string())];
        self.notices.push(notice_with(kind, &changes));
        self.plain.notices.push((when, kind, name));
    }

    /// Looks at the desk, holds it against the plain books, and hands out what is there.
    fn check(&mut self, dice: &mut Dice, case: usize) -> (usize, u32) {
        let serving = self.book.serve(&self.order, &self.notices, self.now());
        let home = self.book.home().unwrap();
        for shown in &serving.people {
            let may = self.plain.may_have(&self.order, shown.id);
            let reasons = reasons(&serving, shown.id);
            assert_eq!(
                reasons.is_empty(),
                may,
                "case {case}: {} {reasons:?}",
                shown.id
            );
            let person = home.person(&shown.coded, &self.order);
            let passed = screening::evaluate(&self.order, &person, serving.day).is_ok();
            assert_eq!(passed, may, "case {case}");
        }
        for bag in &serving.bags {
            let of = bag.person.unwrap();
            assert!(
                self.plain.may_have(&self.order, of),
                "case {case}: a bag for {of}"
            );
        }
        let taken = self.taken_off(&serving, case);
        if dice.percent(50) {
            let reason = Some("asked the nurse line".to_owned());
            let events = hand_out(&home, &serving, self.book.coming(), reason);
            for event in events.into_iter().flatten() {
                self.book.note(self.now(), event);
            }
            for (lot, packs) in taken {
                *self.plain.packs.get_mut(&lot).unwrap() -= packs;
            }
            let stock = self.book.stock();
            for (lot, packs) in &self.plain.packs {
                assert_eq!(stock.lot(lot).unwrap().packs(), *packs, "case {case}");
            }
        }
        let short = serving.bags.iter().map(|bag| bag.pick.short).sum();
        (serving.bags.len(), short)
    }

    fn taken_off(&self, serving: &Serving, case: usize) -> BTreeMap<LotName, i64> {
        let mut taken: BTreeMap<LotName, i64> = BTreeMap::new();
        for bag in &serving.bags {
            let mut tablets = 0;
            for take in &bag.pick.takes {
                // A lot that was only ever counted is taken to be as the order has it.
                let each = self.plain.each.get(&take.lot).copied().unwrap_or(20);
                assert!(take.packs > 0 && take.each == each, "case {case}");
                assert!(
                    self.plain.is_good(&take.lot, serving.day),
                    "case {case}: {take:?}"
                );
                *taken.entry(take.lot.clone()).or_default() += i64::from(take.packs);
                tablets += take.packs * take.each;
            }
            // Ten days, two tablets a day; or what is missing is told.
            assert!(tablets + bag.pick.short * 20 >= 20, "case {case}: {bag:?}");
            assert!(bag.pick.short == 0 || serving.enough_until.is_none());
        }
        for (lot, packs) in &taken {
            assert!(*packs <= self.plain.packs[lot], "case {case}: {lot:?}");
        }
        // Nothing is called short while a good lot still has packs.
        if serving.bags.iter().any(|bag| bag.pick.short > 0) {
            for (lot, there) in &self.plain.packs {
                let rest = there - taken.get(lot).unwrap_or(&0);
                let is_good = self.plain.is_good(lot, serving.day);
                assert!(rest <= 0 || !is_good, "case {case}: {lot:?}");
            }
        }
        taken
    }
}

fn one_of(dice: &mut Dice) -> Answer {
    let all = [
        Answer::No,
        Answer::No,
        Answer::No,
        Answer::No,
        Answer::No,
        Answer::No,
    ];
    let others = [Answer::Yes, Answer::Unsure];
    if dice.percent(88) {
        dice.pick(&all)
    } else {
        dice.pick(&others)
    }
}

// promise: P1, P25
#[test]
fn no_bag_without_screening_and_none_from_a_lot_that_must_stay() {
    let order = order();
    let mut dice = Dice::new(25);
    let (mut bags, mut short, mut notices) = (0, 0, 0);
    for case in 0..1_500 {
        let mut run = Run::begin(&mut dice, &order);
        for _ in 0..dice.between(3, 25) {
            run.something(&mut dice);
            if dice.percent(25) {
                let (more, missing) = run.check(&mut dice, case);
                bags += more;
                short += missing;
            }
        }
        notices += run.notices.len();
        run.check(&mut dice, case);
    }
    assert!(
        bags > 2_000 && short > 500 && notices > 500,
        "{bags} {short} {notices}"
    );
}
