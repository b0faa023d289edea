//! Ringing and reading aloud in the real window, with a player and a speech service of the test's own.

use std::fs;
use std::os::unix::fs::PermissionsExt;
use std::path::Path;
use std::thread;
use std::time::{Duration, Instant};

use hearthdose_core::prep::Stage;
use hearthdose_tests::speech::{one_text, service};

use super::bus::Bus;
use super::display::Display;
use super::exchange::hands;
use super::household::Table;
use super::program::Program;
use super::{PATIENCE, press_until};

/// A player that notes when it starts, and plays until it is ended.
fn player(folder: &Path) {
    let path = folder.join("pw-play");
    let notes = folder.join("played");
    let script = format!(
        "#!/bin/sh\necho \"$$\" >> '{}'\nexec sleep 60\n",
        notes.display()
    );
    fs::write(&path, script).expect("a script");
    fs::set_permissions(&path, fs::Permissions::from_mode(0o755)).expect("may run");
}

/// The numbers of the players that were started.
fn played(folder: &Path) -> Vec<String> {
    let text = fs::read_to_string(folder.join("played")).unwrap_or_default();
    text.lines().map(str::to_owned).collect()
}

fn until(what: &str, happened: impl Fn() -> bool) {
    let begun = Instant::now();
    while !happened() {
        assert!(begun.elapsed() < PATIENCE, "never: {what}");
        thread::sleep(Duration::from_millis(100));
    }
}

#[test]
fn it_rings_at_the_end_of_the_soak_and_reads_the_step_aloud() {
    let display = Display::start(390, 844);
    let bus = Bus::start(&display);
    let table = Table::lay("aloud", "45 s");
    let folder = table.folder();
    player(folder);
    let (socket, heard) = service(folder);
    let program = Program::equipped(&display, &table, &bus, &socket);
    display.wait_for_usual();
    press_until(&display, &table, "the soak", |stage| {
        matches!(stage, Stage::Soak { .. })
    });
    hands(&bus, &["wait:Let", "press:Read aloud"]);
    let text = one_text(&heard);
    assert!(text.iter().any(|line| line.starts_with("Let ")), "{text:?}");
    hands(&bus, &["press:Ring when it is soft", "wait:It will ring"]);
    assert_eq!(
        played(folder),
        Vec::<String>::new(),
        "not before it is time"
    );
    until("the player starts", || !played(folder).is_empty());
    // The message is still there; a press on it ends the sound.
    let place = display.usual().expect("something to press");
    display.click(place.centre());
    let ended = |number: &String| !Path::new("/proc").join(number).exists();
    until("the player ends", || played(folder).iter().all(ended));
    press_until(&display, &table, "the end of the round", |stage| {
        *stage == Stage::Done
    });
    drop(program);
}
