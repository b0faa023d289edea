//! The refill date, by packs and plan: the last day that leaves the spare untouched.

use hearthdose_core::record::Event;
use hearthdose_core::today::refill_date;
use hearthdose_tests::people::{demo_order, demo_text};
use jiff::civil::{Date, date};

use crate::{at, grown, home, household};

fn packs(tablets: u32) -> Event {
    of_lot(None, tablets)
}

fn of_lot(lot: Option<&str>, tablets: u32) -> Event {
    Event::PacksReceived {
        product: "tablet-100".to_owned(),
        lot: lot.map(str::to_owned),
        tablets,
    }
}

/// Two grown-ups take four tablets a day; the order keeps four to spare.
fn refill(events: Vec<Event>) -> Option<Date> {
    let mut all = vec![
        (-20, household()),
        (-20, grown(1, "Ana")),
        (-20, grown(2, "Ben")),
    ];
    all.extend(events.into_iter().map(|event| (-10, event)));
    let state = home(&all);
    let order = demo_order("quillmere-doxy-1");
    refill_date(&state, &order, &at(&state, &order, -1).unwrap())
}

#[test]
fn tablets_less_the_spare_last_until_the_refill_date() {
    // Ten days of supply from 3 April on, as nobody wrote down a pack.
    assert_eq!(refill(vec![]), Some(date(2031, 4, 12)));
    // Forty less four are nine days.
    assert_eq!(refill(vec![packs(40)]), Some(date(2031, 4, 11)));
    assert_eq!(refill(vec![packs(44)]), Some(date(2031, 4, 12)));
    assert_eq!(refill(vec![packs(20), packs(24)]), Some(date(2031, 4, 12)));
    // Six less four serve the first morning alone.
    assert_eq!(refill(vec![packs(6)]), Some(date(2031, 4, 3)));
    assert_eq!(refill(vec![packs(0)]), Some(date(2031, 4, 3)));
    // Sixty days are 240 and four.
    assert_eq!(refill(vec![packs(243)]), Some(date(2031, 6, 1)));
    assert_eq!(refill(vec![packs(244)]), None);
}

/// Twenty of forty-four come from the lot that is called back: twenty-four less four are five days.
#[test]
fn a_lot_that_is_called_back_does_not_count() {
    let received = [of_lot(Some("QD3112"), 20), packs(24)];
    assert_eq!(refill(received.to_vec()), Some(date(2031, 4, 12)));
    for notice in ["quarantine-lot", "recall-lot"] {
        let text = demo_text(&format!("notices/quillmere-{notice}"));
        let told = [received.to_vec(), vec![Event::NoticeTaken { text }]].concat();
        assert_eq!(refill(told), Some(date(2031, 4, 7)), "{notice}");
    }
    let text = demo_text("notices/quillmere-extend-lot");
    let told = [received.to_vec(), vec![Event::NoticeTaken { text }]].concat();
    assert_eq!(refill(told), Some(date(2031, 4, 12)));
}
