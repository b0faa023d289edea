//! How a scan stands to what was seen before.

use hearthdose_core::exchange::{
    DeviceSecret, Message, Met, Scan, Scanned, Standing, frames, write, write_frame, write_sealed,
};
use hearthdose_core::exchange::{OpeningKey, Shift};

use crate::samples::{at, household, secret, shift, site_key, slip};

fn scanned_by(message: &Message, secret: &DeviceSecret) -> Scanned {
    match Scan::read(&write(message, secret).unwrap()) {
        Scan::Message(scanned) => *scanned,
        other => panic!("{other:?}"),
    }
}

fn scanned(message: &Message) -> Scanned {
    scanned_by(message, &secret())
}

#[test]
fn a_household_is_met_and_comes_again() {
    let code = |issue, people| {
        let mut code = household(people);
        code.issue = issue;
        scanned(&Message::Household(code))
    };
    let mut met = Met::default();
    // A first visit: whole, and nothing more is known. It is no alarm.
    assert_eq!(met.judge(&code(2, 3)), Standing::SignatureUnknown);
    assert_eq!(met.remember(&code(2, 3)), Standing::SignatureUnknown);
    assert_eq!(met.judge(&code(2, 3)), Standing::Known);
    // A later code, then the earlier one again.
    assert_eq!(met.remember(&code(3, 3)), Standing::New);
    assert_eq!(met.remember(&code(2, 3)), Standing::Retired);
    assert_eq!(met.judge(&code(3, 3)), Standing::Known);
    // Another content under the same number; another device under the same name.
    assert_eq!(met.remember(&code(3, 4)), Standing::Conflicting);
    let mut copied = household(3);
    copied.issue = 9;
    let other = DeviceSecret::from_bytes(&[8; 32]);
    let copied = scanned_by(&Message::Household(copied), &other);
    assert_eq!(met.remember(&copied), Standing::Conflicting);
    // Neither was remembered.
    assert_eq!(met.judge(&code(3, 3)), Standing::Known);
    met.merged(&code(3, 3));
    assert_eq!(met.judge(&code(3, 3)), Standing::AlreadyMerged);
    assert_eq!(met.judge(&code(4, 3)), Standing::New);
}

#[test]
fn a_device_whose_key_was_compared_is_not_unknown() {
    let mut met = Met::default();
    met.meet(secret().public());
    assert_eq!(met.judge(&scanned(&Message::Slip(slip()))), Standing::New);
    let other = DeviceSecret::from_bytes(&[8; 32]);
    let message = scanned_by(&Message::Slip(slip()), &other);
    assert_eq!(met.judge(&message), Standing::SignatureUnknown);
}

#[test]
fn slips_do_not_retire_each_other() {
    let mut met = Met::default();
    let mut later = slip();
    later.at = at("2031-04-15T10:00:00-05:00");
    met.merged(&scanned(&Message::Slip(later)));
    assert_eq!(met.judge(&scanned(&Message::Slip(slip()))), Standing::New);
    let mut changed = slip();
    met.merged(&scanned(&Message::Slip(slip())));
    changed.lines[0].count = 40;
    assert_eq!(
        met.judge(&scanned(&Message::Slip(changed))),
        Standing::Conflicting
    );
}

#[test]
fn later_site_keys_and_longer_shift_files_follow() {
    let mut met = Met::default();
    let mut later = site_key();
    later.made = at("2031-05-01T07:00:00-05:00");
    met.remember(&scanned(&Message::SiteKey(later)));
    let earlier = scanned(&Message::SiteKey(site_key()));
    assert_eq!(met.judge(&earlier), Standing::Retired);

    let whole = shift();
    let half = Shift {
        facts: whole.facts[..1].to_vec(),
        ..whole.clone()
    };
    let (whole, half) = (Message::Shift(whole), Message::Shift(half));
    met.merged(&scanned(&half));
    assert_eq!(met.judge(&scanned(&half)), Standing::AlreadyMerged);
    assert_eq!(met.judge(&scanned(&whole)), Standing::New);
}

#[test]
fn each_outcome_has_its_word() {
    let met = Met::default();
    let outcome = |text: &str| Scan::read(text).outcome(&met);
    let text = write(&Message::Household(household(1)), &secret()).unwrap();
    assert_eq!(outcome(&text), "signature-unknown");
    assert_eq!(outcome("HD2"), "newer-version");
    assert_eq!(outcome("HD1"), "damaged");
    assert_eq!(outcome("hello"), "foreign");
    let (_, to) = OpeningKey::derive(&[1; 32]);
    let message = Message::Household(household(1));
    let sealed = write_sealed(&message, &secret(), &to, [2; 32]).unwrap();
    assert_eq!(outcome(&sealed), "sealed");
    let frame = write_frame(&frames(b"order", 0).unwrap()[0]).unwrap();
    assert_eq!(outcome(&frame), "part");
    for (standing, word) in [
        (Standing::New, "new"),
        (Standing::Known, "known"),
        (Standing::AlreadyMerged, "already-merged"),
        (Standing::Retired, "retired"),
        (Standing::Conflicting, "conflicting"),
    ] {
        assert_eq!(standing.code(), word);
    }
}
