//! A lot that came in with two dates: the earlier one counts until the lead has read the package.

use hearthdose_tests::kitchen::{press, pressable, title};

use super::{adult, at_site, packs_in, type_into, words};

#[test]
fn the_lead_reads_the_package_and_its_date_counts() {
    let (_world, mut kitchen) = at_site("lot-read");
    packs_in(&mut kitchen, "QD9000", "2032-05-31", "20");
    packs_in(&mut kitchen, "QD9000", "2031-04-30", "20");
    press(&mut kitchen, "day");
    assert!(words(&kitchen).contains("1 thing to settle"));
    press(&mut kitchen, "to-settle");
    press(&mut kitchen, "lot-read:tablet-100:QD9000");
    assert_eq!(title(&kitchen.view()), "What does lot QD9000 say?");
    // Both stand side by side, with who typed them.
    for said in ["May 31, 2032.", "April 30, 2031.", "this tablet"] {
        assert!(
            words(&kitchen).contains(said),
            "{said}: {}",
            words(&kitchen)
        );
    }
    type_into(&mut kitchen, "expiry", "31 May");
    assert!(!pressable(&kitchen.view()).contains(&"lot-was-read".to_owned()));
    type_into(&mut kitchen, "reason", "Ana Reyes: a smeared label");
    press(&mut kitchen, "lot-was-read");
    assert!(words(&kitchen).contains("This date cannot be read."));
    type_into(&mut kitchen, "expiry", "2032-05-31");
    press(&mut kitchen, "lot-was-read");
    assert!(words(&kitchen).contains("Everything fits together."));
    press(&mut kitchen, "line");
    press(&mut kitchen, "shelves");
    let shown = words(&kitchen);
    assert!(shown.contains("May 31, 2032.") && !shown.contains("two different dates"));
    // And it goes out by that date.
    press(&mut kitchen, "line");
    adult(&mut kitchen, "Wim");
    assert!(words(&kitchen).contains("May 31, 2032."));
}
