//! Package numbers, what is handed out, and the sealing key.
//!
//! Sources: the two GTINs of the standard's own documents (references f); RFC 7748 for keys; 21 CFR 207.33 for drug codes.

use hearthdose_core::order::{Gtin, HandOut, Ndc, SealingKey, parse};
use proptest::prelude::*;

use crate::{changed, errors, order, set, text};

#[test]
fn a_package_number_checks_itself() {
    for good in [
        "09501101530003",
        "9501101530003",
        "09521234543213",
        "12345670",
    ] {
        let padded = format!("{good:0>14}");
        assert_eq!(Gtin::parse(good).expect("a number").as_str(), padded);
    }
    for bad in [
        "",
        "0",
        "00000000",
        "09501101530004",
        "0950110153000",
        "9501101530003 ",
        "950110153000x",
        "-9501101530003",
    ] {
        assert_eq!(Gtin::parse(bad), None, "{bad}");
    }
}

#[test]
fn a_drug_code_has_its_hyphens() {
    for good in [
        "9999-1011-20",
        "99999-101-20",
        "99999-1011-2",
        "99999-1011-20",
    ] {
        assert_eq!(Ndc::parse(good).expect("a code").as_str(), good);
    }
    for bad in [
        "",
        "9999910120",
        "99999-101",
        "9999-101-20",
        "99999-10a-20",
        "99999-101-20-1",
    ] {
        assert_eq!(Ndc::parse(bad), None, "{bad}");
    }
}

#[test]
fn a_weak_sealing_key_is_none() {
    let hex = |first: &str, last: &str| format!("{first}{}{last}", "00".repeat(30));
    for weak in [
        hex("00", "00"),
        hex("01", "00"),
        hex("01", "80"),
        format!("ed{}7f", "ff".repeat(30)),
        format!("ed{}ff", "ff".repeat(30)),
    ] {
        assert_eq!(SealingKey::parse("a", &weak), None, "{weak}");
    }
    let good = hex("09", "00");
    let key = SealingKey::parse("a", &good).expect("the base point is a key");
    assert_eq!((key.public[0], key.hex()), (9, good.clone()));
    assert_eq!(SealingKey::parse("a", &good[2..]), None);
    assert_eq!(SealingKey::parse("a", &good.replacen('0', "g", 1)), None);
}

#[test]
fn the_demonstration_orders_say_what_is_handed_out() {
    let doxy = order("quillmere-doxy-1");
    assert_eq!(doxy.medicine.hand_out, HandOut::PlanAndSpare { spare: 4 });
    let key = doxy.medicine.sealing_key.expect("a sealing key");
    assert_eq!(key.id, "quillmere-demo");
    let product = &doxy.products[0];
    assert_eq!(product.salt.as_deref(), Some("hyclate"));
    assert_eq!((product.gtins.len(), product.ndcs.len()), (2, 1));
    assert_eq!(
        order("quillmere-iodide-1").medicine.hand_out,
        HandOut::PerPerson
    );
    let plain = order("quillmere-ciprofloxacin-1").medicine;
    assert_eq!(
        (plain.hand_out, plain.sealing_key),
        (HandOut::PlanAndSpare { spare: 0 }, None)
    );
}

#[test]
fn every_change_of_it_is_told() {
    let old = order("quillmere-doxy-1");
    let told = |from: &str, to: &str| -> Vec<String> {
        let text = text("quillmere-doxy-1");
        assert_eq!(text.matches(from).count(), 1, "{from}");
        let new = parse(text.replace(from, to).as_bytes()).expect("readable");
        // The first says that one revision has two texts.
        crate::told(&old, &new).into_iter().skip(1).collect()
    };
    assert_eq!(
        told("spare = 4", "spare = 6"),
        ["handed out what the plan needs and 6 to spare, was what the plan needs and 4 to spare"]
    );
    assert_eq!(told("\"hyclate\"", "\"monohydrate\"").len(), 1);
    assert_eq!(told("\"09501101531024\"", "\"09501101534018\"").len(), 1);
    assert_eq!(told("\"99999-101-20\"", "\"99999-102-20\"").len(), 1);
    assert_eq!(told("\"quillmere-demo\"", "\"quillmere-2\"").len(), 1);
    let own = told(
        "hand-out = \"plan + spare\"\nspare = 4",
        "hand-out = \"per-person\"",
    );
    assert_eq!(
        own,
        ["handed out packs for each person, was what the plan needs and 4 to spare"]
    );
}

#[test]
fn a_spare_belongs_to_the_plan() {
    let both = changed(
        "quillmere-doxy-1",
        "hand-out = \"plan + spare\"",
        "hand-out = \"per-person\"",
    );
    assert_eq!(
        errors(&both),
        set(&["spare-without-plan at medicine.spare"])
    );
    let other = changed("quillmere-doxy-1", "\"plan + spare\"", "\"as you like\"");
    assert_eq!(
        errors(&other),
        set(&["unknown-choice at medicine.hand-out"])
    );
}

proptest! {
    /// Of ten last digits one is right, and any single slip is noticed.
    #[test]
    fn one_check_digit_of_ten(body in 1..9_999_999_999_999_u64, at in 0..14_usize, slip in 1..10_u8) {
        let all: Vec<String> = (0..10).map(|digit| format!("{body:013}{digit}")).collect();
        let good: Vec<&String> = all.iter().filter(|text| Gtin::parse(text).is_some()).collect();
        prop_assert_eq!(good.len(), 1);
        let mut slipped = good[0].clone().into_bytes();
        slipped[at] = b'0' + (slipped[at] - b'0' + slip) % 10;
        prop_assert_eq!(Gtin::parse(std::str::from_utf8(&slipped).expect("digits")), None);
    }
}
