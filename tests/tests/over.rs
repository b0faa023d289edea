//! The end of a wait without a sound: the window flashes slowly, and a banner on other pages leads to the wait.

use std::thread;
use std::time::{Duration, Instant};

use hearthdose_tests::kitchen::{World, go_on_to, press, title};
use hearthdose_ui::headless::{Headless, Picture};
use hearthdose_ui::text::Language;
use hearthdose_ui::vm::Kitchen;
use hearthdose_ui::vm::view::Intent;
use jiff::SignedDuration;

/// The demo recipe's soak, and a little more.
const SOAK: SignedDuration = SignedDuration::from_secs(5 * 60 + 1);
const SOFT: &str = "The tablet is soft now. Go on with the dose.";

/// A tablet soaks, and time passes in seconds as a window's clock has it.
fn soaking(name: &str) -> (World, Kitchen) {
    let world = World::new(name);
    let mut kitchen = world.start(Language::English);
    press(&mut kitchen, "practise");
    go_on_to(&world, &mut kitchen, "Let the tablets soften");
    kitchen.take(&Intent::Tick);
    (world, kitchen)
}

fn banner(kitchen: &Kitchen) -> Option<String> {
    kitchen.view().banner.map(|link| link.label)
}

#[test]
fn on_its_own_page_the_window_flashes_until_something_is_pressed() {
    let (world, mut kitchen) = soaking("over-here");
    assert!(!kitchen.view().flash);
    world.pass(SOAK);
    kitchen.take(&Intent::Tick);
    let view = kitchen.view();
    assert!(view.flash);
    assert_eq!(view.banner, None, "the page says it");
    kitchen.take(&Intent::Tick);
    assert!(kitchen.view().flash, "time alone does not end it");
    press(&mut kitchen, "help");
    assert!(!kitchen.view().flash);
    assert_eq!(banner(&kitchen).as_deref(), Some(SOFT));
}

#[test]
fn on_another_page_a_banner_says_which_wait_is_over_and_leads_there() {
    let (world, mut kitchen) = soaking("over-elsewhere");
    press(&mut kitchen, "help");
    assert_eq!(banner(&kitchen), None);
    assert!(kitchen.view().waiting, "looked at each second");
    world.pass(SOAK);
    kitchen.take(&Intent::Tick);
    assert_eq!(banner(&kitchen).as_deref(), Some(SOFT));
    assert!(kitchen.view().flash);
    press(&mut kitchen, "to-wait");
    assert!(
        title(&kitchen.view()).starts_with("Crush in"),
        "{}",
        title(&kitchen.view())
    );
    let view = kitchen.view();
    assert_eq!((view.banner, view.flash), (None, false));
    press(&mut kitchen, "crushed");
    press(&mut kitchen, "help");
    assert_eq!(banner(&kitchen), None, "it was gone on with");
}

#[test]
fn a_helper_at_a_site_is_led_home() {
    let (world, mut kitchen) = soaking("over-site");
    kitchen.take(&Intent::Press {
        id: "work-at-site".to_owned(),
    });
    world.pass(SOAK);
    kitchen.take(&Intent::Tick);
    assert_eq!(banner(&kitchen).as_deref(), Some(SOFT));
    press(&mut kitchen, "to-wait");
    assert!(
        title(&kitchen.view()).starts_with("Crush in"),
        "{}",
        title(&kitchen.view())
    );
}

#[test]
fn the_time_of_the_next_round_is_told_on_other_pages() {
    let (world, mut kitchen) = soaking("over-start");
    go_on_to(&world, &mut kitchen, "Done for now");
    press(&mut kitchen, "to-today");
    press(&mut kitchen, "help");
    kitchen.take(&Intent::Tick);
    assert_eq!(banner(&kitchen), None);
    world.pass(SignedDuration::from_mins(12 * 60 + 25));
    kitchen.take(&Intent::Tick);
    let said = banner(&kitchen);
    assert_eq!(
        said.as_deref(),
        Some("It is time for the next dose. Set the table.")
    );
    press(&mut kitchen, "to-wait");
    assert!(
        title(&kitchen.view()).starts_with("Morning dose"),
        "{}",
        title(&kitchen.view())
    );
    assert_eq!(banner(&kitchen), None);
}

#[test]
fn who_wants_no_flash_has_the_banner() {
    let (world, mut kitchen) = soaking("over-no-flash");
    press(&mut kitchen, "help");
    press(&mut kitchen, "settings");
    press(&mut kitchen, "flash:no");
    world.pass(SOAK);
    kitchen.take(&Intent::Tick);
    assert!(!kitchen.view().flash);
    assert_eq!(banner(&kitchen).as_deref(), Some(SOFT));
}

/// How often the picture changes while nothing but time passes.
fn changes(headless: &Headless, length: Duration) -> usize {
    let draw = || -> Picture { headless.draw(390, 844) };
    let (mut last, mut count) = (draw(), 0);
    let began = Instant::now();
    while began.elapsed() < length {
        thread::sleep(Duration::from_millis(20));
        let next = draw();
        if next != last {
            count += 1;
            last = next;
        }
    }
    count
}

/// In the real window and in real time: never three flashes a second (WCAG 2.2, 2.3.1), and without movement none at all.
#[test]
fn a_flash_is_slow_and_stands_still_where_nothing_is_to_move() {
    let headless = Headless::new().expect("a window in memory");
    let (world, mut kitchen) = soaking("over-drawn");
    press(&mut kitchen, "help");
    let before = headless.render(&kitchen.view(), 390, 844);
    world.pass(SOAK);
    kitchen.take(&Intent::Tick);
    let bright = headless.render(&kitchen.view(), 390, 844);
    assert!(before != bright);
    let count = changes(&headless, Duration::from_secs(3));
    println!("{count} changes in three seconds");
    assert!((4..=7).contains(&count), "{count} changes in three seconds");

    let mut still = kitchen.view();
    still.still = true;
    still.flash = false;
    let _ = headless.render(&still, 390, 844);
    still.flash = true;
    let steady = headless.render(&still, 390, 844);
    assert_eq!(changes(&headless, Duration::from_secs(2)), 0);
    assert!(steady == bright, "the bright half stays");
}
