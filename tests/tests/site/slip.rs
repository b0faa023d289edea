//! The slip: what went out, in the words of the label, and the same after it was signed and read.

use hearthdose_core::exchange::{Message, OrderMark, Scan, Slip, SlipLine, SlipUnit, write};
use hearthdose_core::order::{CheckedOrder, Notice};
use hearthdose_core::site::{hand_out, slip};
use jiff::civil::date;

use crate::book::{
    Book, HOME, TEN, at, cipro, code, doxy, iodide, lot, notice, people, received, secret, seen,
};

/// Hands out at ten and a half minute from one lot, and writes the slip.
fn served(order: &CheckedOrder, home: &str, shelf: (&str, &str), notices: &[Notice]) -> Slip {
    let mut book = Book::new(1);
    let product = order.main_product().unwrap();
    let (name, expiry) = shelf;
    let shelf = received(
        lot(&product.key, name),
        expiry,
        30,
        product.pack_size.unwrap(),
    );
    book.note(at(TEN), shelf);
    book.note(at(TEN), seen(&code(order, &people(home), at(TEN))));
    let serving = book.serve(order, notices, at(TEN));
    let now = at("2031-04-03T10:00:37-05:00");
    for event in hand_out(&book.home().unwrap(), &serving, book.coming(), None).unwrap() {
        book.note(now, event);
    }
    let home = book.home().unwrap();
    let out = &home.handed_out[0];
    let slip = slip(
        order,
        &book.stock(),
        &home,
        out,
        &serving.remarks,
        "OLD-MILL",
    )
    .unwrap();
    let text = write(&Message::Slip(slip.clone()), &secret(5)).unwrap();
    let Scan::Message(read) = Scan::read(&text) else {
        panic!("{text}");
    };
    assert_eq!(read.message, Message::Slip(slip.clone()));
    assert_eq!(read.signer, secret(5).public());
    slip
}

#[test]
fn packs_of_the_home_name_no_person() {
    let order = doxy();
    let slip = served(&order, "tarn-4", ("QD3100", "2032-06-30"), &[]);
    let expected = Slip {
        household: HOME,
        issue: 1,
        site: "OLD-MILL".to_owned(),
        at: at(TEN),
        order: Some(OrderMark::of(&order)),
        lines: vec![SlipLine {
            person: None,
            product: "doxycycline 100 mg tablet".to_owned(),
            lot: Some("QD3100".to_owned()),
            expiry: Some(date(2032, 6, 30)),
            count: 80,
            unit: SlipUnit::Tablets,
            enough_until: Some(date(2031, 4, 12)),
            extension: None,
        }],
    };
    assert_eq!(slip, expected);
}

#[test]
fn an_extended_lot_says_so() {
    let order = doxy();
    let slip = served(
        &order,
        "alder-1",
        ("QD3107", "2031-01-31"),
        &[notice("extend-lot")],
    );
    assert_eq!(slip.lines[0].expiry, Some(date(2031, 1, 31)));
    let words = "may be used until 2031-12-31, by the issuer's notice";
    assert_eq!(slip.lines[0].extension.as_deref(), Some(words));
    let slip = served(
        &order,
        "alder-1",
        ("QD3108", "2032-01-31"),
        &[notice("extend-lot")],
    );
    assert_eq!(slip.lines[0].extension, None);
}

#[test]
fn packs_of_ones_own_name_the_number_of_the_person() {
    let slip = served(&iodide(), "tarn-4", ("KI01", "2033-06-30"), &[]);
    let lines: Vec<_> = slip
        .lines
        .iter()
        .map(|line| (line.person, line.count))
        .collect();
    assert_eq!(lines, [1, 2, 3, 4].map(|id| (Some(id), 14)));
    assert_eq!(slip.lines[0].product, "potassium iodide 130 mg tablet");
}

#[test]
fn liquids_are_bottles() {
    let slip = served(&cipro(), "tarn-4", ("CF01", "2032-06-30"), &[]);
    let [line] = slip.lines.as_slice() else {
        panic!("{slip:?}");
    };
    // 640 mL.
    assert_eq!((line.count, line.unit), (7, SlipUnit::Bottles));
    assert_eq!(line.product, "ciprofloxacin 250 mg / 5 mL oral suspension");
}

#[test]
fn no_name_is_on_it() {
    for order in [doxy(), iodide(), cipro()] {
        let slip = served(&order, "ferrow-9", ("LOT1", "2033-06-30"), &[]);
        let said = format!("{slip:?}");
        for person in people("ferrow-9") {
            assert!(!said.contains(&person.name), "{}", person.name);
        }
    }
}
