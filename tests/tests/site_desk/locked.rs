//! Private answers of a site leave it only locked, and come in only where the key is.

use hearthdose_core::exchange::Scan;
use hearthdose_tests::kitchen::{World, press, title};
use hearthdose_ui::text::Language;
use hearthdose_ui::vm::Kitchen;

use super::{ORDER, adult, at_site, at_site_on, packs_in, type_into, words};

/// SHA-256 of "quillmere demonstration sealing key", as the demo order says; by sha256sum.
const OPENS: &str = "50f9a8f26fa7b0341dbbaa2e4e41c9ae30751d2c59ab45e1f11e90314bbfa64f";

pub fn opening() -> [u8; 32] {
    let mut bytes = [0; 32];
    for (at, byte) in bytes.iter_mut().enumerate() {
        *byte = u8::from_str_radix(&OPENS[2 * at..2 * at + 2], 16).unwrap();
    }
    bytes
}

/// The shift file in a world's folder.
fn written(world: &World) -> Option<Vec<u8>> {
    let files = std::fs::read_dir(world.folder()).unwrap();
    let mut files = files.map(|file| file.unwrap().path());
    let path = files.find(|path| path.extension().is_some_and(|ending| ending == "shift"))?;
    Some(std::fs::read(path).unwrap())
}

/// A grown-up was asked everything, private things too.
fn asked(kitchen: &mut Kitchen) {
    packs_in(kitchen, "QD9000", "2032-05-31", "30");
    adult(kitchen, "Wim");
    press(kitchen, "line");
    press(kitchen, "shift");
    press(kitchen, "write-shift");
}

#[test]
fn private_answers_leave_a_tablet_only_locked() {
    let (one_world, mut one) = at_site("locked-one");
    asked(&mut one);
    let bytes = written(&one_world).expect("a file");
    assert!(matches!(Scan::read_bytes(&bytes), Scan::Sealed(_)));
    // In no spelling is what was asked in the file.
    let text = String::from_utf8_lossy(&bytes);
    assert!(!text.contains("pregnan") && !text.contains("Wim"));

    let (two_world, mut two) = at_site_on("locked-two", 9);
    two_world.carry("one.shift", bytes);
    press(&mut two, "shift");
    press(&mut two, "shift:0");
    assert!(
        words(&two).contains("locked with a key that is not on this tablet"),
        "{}",
        words(&two)
    );
    // The key came, as a file of the tablet that has it.
    two_world.site_key.set(Some(opening()));
    drop(two);
    let mut two = two_world.start(Language::English);
    press(&mut two, "shift");
    press(&mut two, "shift:0");
    assert_eq!(title(&two.view()), "Is this one of your tablets?");
    press(&mut two, "trust-shift");
    assert!(words(&two).contains("Known before: 0."), "{}", words(&two));
}

#[test]
fn without_a_key_to_lock_them_nothing_is_written() {
    let world = World::new("unlocked");
    let lines = ORDER
        .lines()
        .filter(|line| !line.starts_with("sealing-key"));
    let order: Vec<&str> = lines.collect();
    world.bring("order.toml", &order.join("\n"));
    let mut kitchen = world.start(Language::English);
    press(&mut kitchen, "work-at-site");
    press(&mut kitchen, "order:0");
    press(&mut kitchen, "work-by-order");
    type_into(&mut kitchen, "site-name", "Old mill");
    press(&mut kitchen, "name-site");
    asked(&mut kitchen);
    assert!(
        words(&kitchen).contains("Ask the lead for instructions with a key."),
        "{}",
        words(&kitchen)
    );
    assert_eq!(written(&world), None);
}
