//! Doses worked out anew, whole packs by the order's rule; every number here was counted by hand from the charts.

use hearthdose_core::exchange::{
    Message, OpeningKey, Scan, ScreeningOutcome, opened_text, write, write_sealed,
};
use hearthdose_core::household::Answer;
use hearthdose_core::household::HouseholdId;
use hearthdose_core::record::SiteEvent;
use hearthdose_core::site::{Count, Served, Stock, Totals, hand_out};
use hearthdose_tests::people::{checked, demo_text, weighing_and_aged};
use jiff::SignedDuration;
use jiff::civil::date;

use crate::book::{
    Book, HOME, TEN, answered, at, cipro, code, dose, doxy, for_lead, iodide, open_code, packs,
    people, person, reasons, scanned, secret,
};

#[test]
fn a_home_of_one_gets_whole_packs_with_the_spare() {
    let order = doxy();
    let book = scanned(&order, &code(&order, &people("alder-1"), at(TEN)));
    let serving = book.serve(&order, &[], at(TEN));
    // Two tablets a day for ten days, four to spare: 24, in packs of 20.
    assert_eq!(packs(&serving), [(None, 2)]);
    assert_eq!(dose(&serving, 1), "1 whole tablet");
    assert_eq!(serving.enough_until, Some(date(2031, 4, 12)));
    assert_eq!(for_lead(&serving), [""; 0]);
}

#[test]
fn a_home_of_four_shares_bowls() {
    let order = doxy();
    let book = scanned(&order, &code(&order, &people("tarn-4"), at(TEN)));
    let serving = book.serve(&order, &[], at(TEN));
    // 20 rounds: one whole tablet, one full bowl, and the children's 4 and 3 half teaspoons in one bowl: 60 and 4 to spare.
    assert_eq!(packs(&serving), [(None, 4)]);
    assert_eq!(dose(&serving, 2), "4 teaspoons (20 mL)");
    assert_eq!(dose(&serving, 3), "2 teaspoons (10 mL)");
    assert_eq!(dose(&serving, 4), "1½ teaspoons (7.5 mL)");
}

#[test]
fn a_home_of_nine_is_served_around_those_who_wait() {
    let order = doxy();
    let book = scanned(&order, &code(&order, &people("ferrow-9"), at(TEN)));
    let serving = book.serve(&order, &[], at(TEN));
    // Whole tablets for Tomas and Kester: 40. Bowls: Gudrun 8 half teaspoons, Runa 6, Sanne 5, Edda 1 beside one of them:
    // three a round, 60. With 4 to spare 104, in packs of 20.
    assert_eq!(packs(&serving), [(None, 6)]);
    assert_eq!(reasons(&serving, 2), ["screening-stop"]);
    assert_eq!(reasons(&serving, 3), ["screening-hold"]);
    assert!(reasons(&serving, 9).contains(&"below-youngest"));
    // Stopped, held, then those with a dose in the order of the code.
    let order: Vec<u16> = serving.people.iter().map(|shown| shown.id).collect();
    assert_eq!(order, [2, 3, 9, 1, 4, 5, 6, 7, 8]);
    assert_eq!(dose(&serving, 1), "4 teaspoons (20 mL)");
    assert_eq!(dose(&serving, 7), "2½ teaspoons (12.5 mL)");
    assert_eq!(dose(&serving, 8), "½ teaspoon (2.5 mL)");
}

#[test]
fn iodide_is_a_pack_for_each() {
    let order = iodide();
    for (name, ids) in [("alder-1", 1..=1), ("tarn-4", 1..=4)] {
        let book = scanned(&order, &code(&order, &people(name), at(TEN)));
        let serving = book.serve(&order, &[], at(TEN));
        // One tablet each, and a pack is never opened.
        let expected: Vec<_> = ids.map(|id| (Some(id), 1)).collect();
        assert_eq!(packs(&serving), expected, "{name}");
        assert_eq!(serving.enough_until, Some(date(2031, 4, 3)));
    }
}

#[test]
fn a_liquid_is_counted_in_bottles() {
    let order = cipro();
    let all = people("tarn-4");
    let book = scanned(&order, &code(&order, &all, at(TEN)));
    let serving = book.serve(&order, &[], at(TEN));
    // Twenty doses: 10 mL each for the grown-ups, 7 mL for 45 lb, 5 mL for 31 lb 4 oz: 640 mL in bottles of 100.
    assert_eq!(packs(&serving), [(None, 7)]);
    assert_eq!(dose(&serving, 3), "7 mL of the liquid with 250 mg per 5 mL");
    // The same, with bottles of one's own.
    let text = demo_text("orders/quillmere-ciprofloxacin-1");
    let order = checked(&text.replace("margin =", "hand-out = \"per-person\"\nmargin ="));
    let book = scanned(&order, &code(&order, &all, at(TEN)));
    let expected = [(Some(1), 2), (Some(2), 2), (Some(3), 2), (Some(4), 1)];
    assert_eq!(packs(&book.serve(&order, &[], at(TEN))), expected);
}

#[test]
fn an_opened_bottle_that_does_not_keep_is_followed_by_another() {
    let text = demo_text("orders/quillmere-ciprofloxacin-1");
    let order = checked(&text.replace("keep-opened = \"14 d\"", "keep-opened = \"4 d\""));
    // 100 mL in all, but ten days are three times four days.
    let book = scanned(&order, &code(&order, &people("tarn-4")[3..], at(TEN)));
    assert_eq!(packs(&book.serve(&order, &[], at(TEN))), [(None, 3)]);
    // Two bottles would be enough for 200 mL.
    let book = scanned(&order, &code(&order, &people("alder-1"), at(TEN)));
    assert_eq!(packs(&book.serve(&order, &[], at(TEN))), [(None, 3)]);
}

#[test]
fn what_a_code_says_came_out_is_never_taken_for_it() {
    let order = doxy();
    let mut told = code(&order, &people("ferrow-9"), at(TEN));
    for person in &mut told.people {
        person.outcome = ScreeningOutcome::Clear;
    }
    let book = scanned(&order, &told);
    let serving = book.serve(&order, &[], at(TEN));
    assert_eq!(reasons(&serving, 2), ["screening-stop"]);
    assert_eq!(reasons(&serving, 3), ["screening-hold"]);
    assert_eq!(reasons(&serving, 9), ["below-youngest"]);
}

#[test]
fn a_question_left_out_of_an_open_code_is_asked_in_private() {
    let order = doxy();
    let all = people("ferrow-9");
    let told = open_code(&order, &all[5..6], at(TEN));
    let mut book = scanned(&order, &told);
    let serving = book.serve(&order, &[], at(TEN));
    assert_eq!(packs(&serving), []);
    assert_eq!(
        person(&serving, 1).ask_in_private,
        ["pregnant", "breastfeeding"]
    );
    assert_eq!(reasons(&serving, 1), ["screening-not-done"]);
    book.note(at(TEN), answered(1, "pregnant", Answer::No));
    assert_eq!(packs(&book.serve(&order, &[], at(TEN))), []);
    book.note(at(TEN), answered(1, "breastfeeding", Answer::No));
    let serving = book.serve(&order, &[], at(TEN));
    assert!(person(&serving, 1).ask_in_private.is_empty());
    // 70 lb: 6 half teaspoons, a bowl each of 20 rounds, 4 to spare.
    assert_eq!(packs(&serving), [(None, 2)]);
}

#[test]
fn a_stated_screening_does_not_cover_what_an_open_code_left_out() {
    let order = doxy();
    let mut lene = people("ferrow-9").swap_remove(2);
    lene.cleared = true;
    let mut book = scanned(&order, &open_code(&order, &[lene], at(TEN)));
    let serving = book.serve(&order, &[], at(TEN));
    assert_eq!(
        person(&serving, 1).ask_in_private,
        ["pregnant", "breastfeeding"]
    );
    assert_eq!(reasons(&serving, 1), ["screening-not-done"]);
    book.note(at(TEN), answered(1, "pregnant", Answer::Yes));
    book.note(at(TEN), answered(1, "breastfeeding", Answer::No));
    let serving = book.serve(&order, &[], at(TEN));
    assert_eq!(reasons(&serving, 1), ["screening-hold"]);
    assert_eq!(packs(&serving), []);
    // Somebody who was never asked is covered by the statement.
    let book = scanned(&order, &open_code(&order, &people("alder-1"), at(TEN)));
    assert_eq!(packs(&book.serve(&order, &[], at(TEN))), [(None, 2)]);
}

#[test]
fn forty_people_of_a_shelter_are_served_too() {
    let order = doxy();
    let many: Vec<_> = (0..10).flat_map(|_| people("tarn-4")).collect();
    let book = scanned(&order, &code(&order, &many, at(TEN)));
    let serving = book.serve(&order, &[], at(TEN));
    let [bag] = serving.bags.as_slice() else {
        panic!("one bag, not {:?}", serving.bags);
    };
    // A round: 10 whole tablets, 10 full bowls, and 70 half teaspoons in bowls of 8; with the children two by two in a bowl,
    // 10 bowls more: at most 604 tablets.
    let least = (20 * 10 + 20 * 10 + (20 * 70_u32).div_ceil(8) + 4).div_ceil(20);
    assert!((least..=31).contains(&bag.packs), "{}", bag.packs);
}

#[test]
fn a_sealed_code_is_kept_as_it_was_once_opened() {
    let order = doxy();
    let (key, public) = OpeningKey::derive(&[3; 32]);
    let (other, _) = OpeningKey::derive(&[4; 32]);
    // Lene is pregnant, which only a sealed code says.
    let told = code(&order, &people("ferrow-9")[2..3], at(TEN));
    let message = Message::Household(told);
    let text = write_sealed(&message, &secret(1), &public, [9; 32]).unwrap();
    let Scan::Sealed(sealed) = Scan::read(&text) else {
        panic!("{text}");
    };
    assert_eq!(opened_text(&sealed, &other), None);
    let kept = opened_text(&sealed, &key).unwrap();
    assert_eq!(kept, write(&message, &secret(1)).unwrap());
    let mut book = Book::new(1);
    let home = HOME;
    book.note(at(TEN), SiteEvent::HomeSeen { home, code: text });
    assert!(book.home().unwrap().code().is_none());
    book.note(at(TEN), SiteEvent::HomeSeen { home, code: kept });
    let serving = book.serve(&order, &[], at(TEN));
    assert_eq!(reasons(&serving, 1), ["screening-hold"]);
    assert!(person(&serving, 1).ask_in_private.is_empty());
}

/// A shelter, where everybody has another row: counted by tables of twelve, so that the line does not wait.
#[test]
fn fifty_people_of_many_weights_are_counted_by_tables() {
    let order = doxy();
    let weights = [
        "12 lb", "20 lb", "30 lb", "45 lb", "60 lb", "70 lb", "80 lb", "31 lb", "24 lb",
    ];
    let all: Vec<_> = (0..54)
        .map(|place| {
            let mut person = weighing_and_aged(weights[place % 9], "adult");
            person.age = None;
            person
        })
        .collect();
    let told = code(&order, &all, at(TEN));
    let serving = scanned(&order, &told).serve(&order, &[], at(TEN));
    let [bag] = serving.bags.as_slice() else {
        panic!("one bag, not {:?}", serving.bags);
    };
    let ready = serving.people.iter().filter(|shown| shown.dose.is_ok());
    let half_teaspoons: u32 = ready
        .map(|shown| {
            let amount = shown.dose.as_ref().unwrap().amount.as_microlitres() / 2_500;
            u32::try_from(amount).unwrap()
        })
        .sum();
    assert!(half_teaspoons > 100, "{half_teaspoons}");
    // No fewer than the volume asks for; no more than bowls that are at worst half empty.
    let by_volume = (20 * half_teaspoons).div_ceil(8);
    let least = (by_volume + 4).div_ceil(20);
    let most = (2 * by_volume + 4).div_ceil(20);
    assert!(
        (least..=most).contains(&bag.packs),
        "{least} {} {most}",
        bag.packs
    );
}

/// One is stopped, one held, one below the youngest: six of nine got something, and they alone were served.
#[test]
fn who_got_nothing_was_not_served() {
    let order = doxy();
    let mut book = scanned(&order, &code(&order, &people("ferrow-9"), at(TEN)));
    let serving = book.serve(&order, &[], at(TEN));
    let events = hand_out(&book.home().unwrap(), &serving, book.coming(), None).unwrap();
    for event in events {
        book.note(at(TEN), event);
    }
    let home = book.home().unwrap();
    assert_eq!(home.handed_out[0].people, [1, 4, 5, 6, 7, 8]);
    let outs = home.handed_out.iter().map(|out| out.served(HOME));
    let totals = Totals::of(outs, &book.stock(), at(TEN));
    assert_eq!((totals.all.homes, totals.all.people), (1, 6));

    // Packs of one's own: whoever has a line.
    let order = iodide();
    let mut book = scanned(&order, &code(&order, &people("tarn-4"), at(TEN)));
    book.note(at(TEN), answered(2, "iodine-allergy", Answer::Yes));
    let serving = book.serve(&order, &[], at(TEN));
    let events = hand_out(&book.home().unwrap(), &serving, book.coming(), None).unwrap();
    let with_packs: Vec<u16> = packs(&serving).iter().filter_map(|(id, _)| *id).collect();
    for event in events {
        book.note(at(TEN), event);
    }
    assert_eq!(book.home().unwrap().handed_out[0].people, with_packs);
}

/// The same home comes twice, and another one once; two of its three hours have hand-outs.
#[test]
fn a_home_that_comes_twice_counts_once() {
    let served = |home: u8, minutes: i64, people: &[u16]| Served {
        home: HouseholdId([home; 8]),
        at: at(TEN) + SignedDuration::from_mins(minutes),
        people: people.to_vec(),
        packs: Vec::new(),
    };
    let outs = [
        served(1, 0, &[1, 2]),
        served(1, 10, &[2, 3]),
        served(2, 20, &[1]),
        served(1, 130, &[1]),
    ];
    let now = at(TEN) + SignedDuration::from_mins(140);
    let totals = Totals::of(outs, &Stock::default(), now);
    let count = |hand_outs, homes, people| Count {
        hand_outs,
        homes,
        people,
    };
    assert_eq!(totals.all, count(4, 2, 4));
    assert_eq!(totals.last_hour, count(1, 1, 1));
    let hours: Vec<Count> = totals.hours.into_values().collect();
    assert_eq!(hours, [count(3, 2, 4), count(1, 1, 1)]);
}
