//! What is drawn while nothing happens: little in the soak, nothing at rest.

use hearthdose_tests::kitchen::{World, go_on_to, press};
use hearthdose_ui::headless::Headless;
use hearthdose_ui::text::Language;
use hearthdose_ui::vm::Kitchen;
use hearthdose_ui::vm::view::Intent;
use jiff::SignedDuration;

/// How many of the ticks of one minute change what is drawn.
fn redraws(headless: &Headless, world: &World, kitchen: &mut Kitchen) -> usize {
    let shown = headless.render(&kitchen.view(), 390, 844);
    assert!(!shown.pixels.is_empty());
    let mut drawn = 0;
    for _ in 0..60 {
        world.pass(SignedDuration::from_secs(1));
        kitchen.take(&Intent::Tick);
        if headless.changes(&kitchen.view()) {
            drawn += 1;
            // Drawn for good, so that the next change is noticed as one.
            let _ = headless.draw(390, 844);
        }
    }
    drawn
}

#[test]
fn a_soak_draws_seldom_and_rest_draws_nothing() {
    let headless = Headless::new().expect("a window in memory");
    let world = World::new("redraws");
    let mut kitchen = world.start(Language::English);
    press(&mut kitchen, "practise");
    go_on_to(&world, &mut kitchen, "Let the tablets soften");
    let soak = redraws(&headless, &world, &mut kitchen);
    go_on_to(&world, &mut kitchen, "Done for now");
    press(&mut kitchen, "to-today");
    let rest = redraws(&headless, &world, &mut kitchen);
    println!("redraws a minute: {soak} in the soak, {rest} on today");
    // The time left is told every five seconds, and the tablet softens a little more often than that.
    assert!(
        (12..=30).contains(&soak),
        "{soak} redraws in a minute of soaking"
    );
    assert_eq!(rest, 0, "nothing changes on today, so nothing is drawn");
}
