//! What a site's facts add up to, whoever heard them in whatever order: thousands of days with two or three tablets.

use hearthdose_core::record::{Change, Event, Fact, SiteEvent};
use hearthdose_core::site::{Home, Stock, Totals};
use hearthdose_tests::people::Dice;
use jiff::SignedDuration;

use crate::book::{Book, HOME, TEN, at, code, doxy, people, pills, received, seen};
use crate::day::{LOTS, a_day};

/// Everything that is asked of a site's facts.
#[derive(Clone, Debug, PartialEq)]
struct Sum {
    home: Option<Home>,
    stock: Stock,
    totals: Totals,
}

fn sum(facts: &[Fact]) -> Sum {
    let home = Home::fold(HOME, facts);
    let stock = Stock::fold(facts);
    let outs = home.iter().flat_map(|home| &home.handed_out);
    let outs = outs.map(|out| out.served(HOME));
    let totals = Totals::of(outs, &stock, at(TEN) + SignedDuration::from_hours(5));
    Sum {
        home,
        stock,
        totals,
    }
}

fn shuffle(dice: &mut Dice, facts: &mut [Fact]) {
    for last in (1..facts.len()).rev() {
        let other = usize::try_from(dice.below(i64::try_from(last + 1).unwrap())).unwrap();
        facts.swap(last, other);
    }
}

fn codes() -> Vec<SiteEvent> {
    let order = doxy();
    let first = code(&order, &people("tarn-4"), at(TEN));
    let mut second = first.clone();
    second.issue = 2;
    second.people[0].left = Some(7);
    let mut other = second.clone();
    other.people[1].left = Some(9);
    vec![seen(&first), seen(&second), seen(&other)]
}

// promise: P26
#[test]
fn every_order_and_every_batch_of_merges_adds_up_alike() {
    let codes = codes();
    let mut dice = Dice::new(2031);
    let (mut homes, mut gone, mut served, mut below, mut counted) = (0, 0, 0, 0, 0);
    for case in 0..3_000 {
        let day = a_day(&mut dice, &codes);
        let mut facts = day.all();
        let expected = sum(&facts);
        // The shelves against the tally that was kept by hand.
        for name in LOTS.map(pills) {
            let packs = expected.stock.lot(&name).map_or(0, |lot| lot.packs());
            assert_eq!(packs, day.tally.packs(&name), "case {case}: {name:?}");
            below += usize::from(packs < 0);
        }
        counted += usize::from(day.tally.counts() > 1);
        shuffle(&mut dice, &mut facts);
        assert_eq!(sum(&facts), expected, "case {case}: shuffled");
        // Merges in any direction, some twice, until everybody has heard everything.
        let mut books: Vec<Book> = day
            .tablets
            .iter()
            .map(|tablet| tablet.book.clone())
            .collect();
        let many = i64::try_from(books.len()).unwrap();
        for _ in 0..8 {
            let from = usize::try_from(dice.below(many)).unwrap();
            let to = usize::try_from(dice.below(many)).unwrap();
            let mut batch = books[from].facts.clone();
            shuffle(&mut dice, &mut batch);
            batch.truncate(usize::try_from(dice.below(30)).unwrap());
            books[to].merge(&batch);
            books[to].merge(&batch);
        }
        for book in &mut books {
            book.merge(&facts);
            assert_eq!(sum(&book.facts), expected, "case {case}");
        }
        let home = expected.home;
        homes += usize::from(home.is_some());
        gone += usize::from(home.as_ref().is_some_and(|home| home.erased));
        served += home.map_or(0, |home| home.handed_out.len());
    }
    // The days were not empty.
    assert!(homes > 2_000 && gone > 10 && served > 3_000 && below > 300);
    assert!(counted > 300, "{counted}");
}

#[test]
fn merging_is_commutative_associative_and_idempotent() {
    let codes = codes();
    let mut dice = Dice::new(77);
    for case in 0..1_000 {
        let day = a_day(&mut dice, &codes);
        let parts: Vec<&Book> = day.tablets.iter().map(|tablet| &tablet.book).collect();
        let (a, b, c) = (parts[0], parts[1], parts[parts.len() - 1]);
        let with = |one: &Book, other: &Book| {
            let mut one = one.clone();
            one.merge(&other.facts);
            one
        };
        let says = |book: &Book| sum(&book.facts);
        assert_eq!(says(&with(a, b)), says(&with(b, a)), "case {case}");
        let (left, right) = (with(&with(a, b), c), with(a, &with(b, c)));
        assert_eq!(says(&left), says(&right), "case {case}");
        assert_eq!(says(&with(&left, &right)), says(&left), "case {case}");
        assert_eq!(with(a, a).facts, a.facts);
    }
}

#[test]
fn an_erased_home_stays_erased_and_the_shelves_stay_as_they_are() {
    let codes = codes();
    let mut dice = Dice::new(5);
    for case in 0..1_000 {
        let day = a_day(&mut dice, &codes);
        let before = day.all();
        let mut book = Book::new(9);
        book.merge(&before);
        // This clock is a day behind the others, and what it notes is still later than all it has heard.
        let now = at(TEN) - SignedDuration::from_hours(24);
        let erasure = SiteEvent::HomeErased {
            home: HOME,
            receipt: "00".to_owned(),
        };
        let erased = book.note(now, erasure);
        let home = book.home().unwrap();
        assert!(
            home.erased && home.seen.is_empty() && home.handed_out.is_empty(),
            "{case}"
        );
        assert!(home.answers.is_empty() && home.weighings.is_empty() && home.words.is_none());
        assert_eq!(book.stock(), Stock::fold(&before), "case {case}");
        // Thrown away here, and brought back by a tablet that was away.
        let only: Vec<Fact> = book
            .facts
            .iter()
            .filter(|fact| fact.id == erased)
            .cloned()
            .collect();
        let mut away = day.tablets[0].book.clone();
        away.merge(&only);
        assert!(away.home().unwrap().erased, "case {case}");
        // No correction brings it back, also not one that claims to be about the erasure.
        for change in [
            Change::Withdraw { reason: None },
            Change::Replace {
                event: Event::Site {
                    site: codes[0].clone(),
                }
                .into(),
                reason: None,
            },
        ] {
            let mut other = book.clone();
            other.note_event(
                now,
                Event::Correction {
                    target: erased,
                    change,
                },
            );
            let home = other.home().unwrap();
            assert!(
                home.handed_out.is_empty() && home.answers.is_empty(),
                "case {case}"
            );
        }
        // Whoever comes again afterwards is a home like any other.
        book.note(at(TEN), codes[0].clone());
        let home = book.home().unwrap();
        assert!(!home.erased && home.seen.len() == 1 && home.handed_out.is_empty());
    }
}

/// Two that say different things of one return: the same number everywhere.
#[test]
fn returns_that_disagree_count_once_and_alike() {
    let mut book = Book::new(1);
    book.note(at(TEN), received(pills("A"), "2032-01-31", 10, 20));
    let hand_out = book.coming();
    let (lot, packs) = (pills("A"), 4);
    book.note(
        at(TEN),
        SiteEvent::LotOut {
            lot,
            packs,
            hand_out,
        },
    );
    for packs in [4, 1, 4, 3] {
        let lot = pills("A");
        book.note(
            at(TEN),
            SiteEvent::LotBack {
                lot,
                packs,
                hand_out,
            },
        );
    }
    let mut facts = book.facts.clone();
    let mut dice = Dice::new(1);
    for _ in 0..50 {
        shuffle(&mut dice, &mut facts);
        assert_eq!(Stock::fold(&facts).lot(&pills("A")).unwrap().packs(), 10);
        assert_eq!(Stock::fold(&facts), book.stock());
    }
}

/// Two people stand before one shelf and count it, each with a tablet of their own.
#[test]
fn two_counts_at_one_time_do_not_add_up() {
    let mut one = Book::new(1);
    let lot = || pills("A");
    one.note(at(TEN), received(lot(), "2032-01-31", 24, 20));
    let mut other = Book::new(2);
    other.merge(&one.facts);
    let minutes = |minutes| at(TEN) + SignedDuration::from_mins(minutes);
    let counted = |counted: u32| SiteEvent::LotCounted {
        lot: lot(),
        counted,
        difference: i64::from(counted) - 24,
        reason: "four boxes were wet".to_owned(),
    };
    let out = |book: &Book, packs| SiteEvent::LotOut {
        lot: lot(),
        packs,
        hand_out: book.coming(),
    };
    // Three packs left before the counts, seen by one tablet only; two after them.
    let early = out(&other, 3);
    other.note(minutes(1), early);
    one.note(minutes(5), counted(17));
    other.note(minutes(5), counted(17));
    let late = out(&other, 2);
    other.note(minutes(9), late);
    let mut facts = [one.facts.clone(), other.facts.clone()].concat();
    let mut dice = Dice::new(3);
    for _ in 0..50 {
        shuffle(&mut dice, &mut facts);
        let mut all = Book::new(3);
        all.merge(&facts);
        let stock = all.stock();
        let shelf = stock.lot(&lot()).unwrap();
        assert_eq!(shelf.packs(), 15);
        // 24 came and 3 went, so the count put 4 right.
        assert_eq!((shelf.received, shelf.out, shelf.counted), (24, 5, -4));
    }
}
