//! Ringing on a desktop: the player is a script of the test's own that notes each start.

use std::fs;
use std::os::unix::fs::PermissionsExt;
use std::path::{Path, PathBuf};
use std::thread;
use std::time::{Duration, Instant};

use hearthdose_tests::kitchen::{World, go_on_to, press, pressable, title};
use hearthdose_ui::machine::ringing::Ringing;
use hearthdose_ui::text::Language;
use hearthdose_ui::vm::ports::{Bell, Ring};
use hearthdose_ui::vm::view::Intent;

/// Puts a program into the folder that notes its name and its last word, and goes on for a while if it is a player.
fn program(folder: &Path, name: &str, then: &str) {
    let script = format!(
        "#!/bin/sh\nfor last; do :; done\necho \"{name} $last\" >> '{}'\nhead -c 4 \"$last\" >> '{}' 2>/dev/null\n{then}\n",
        folder.join("started").display(),
        folder.join("heads").display(),
    );
    let path = folder.join(name);
    fs::write(&path, script).expect("a script");
    fs::set_permissions(&path, fs::Permissions::from_mode(0o755)).expect("may run");
}

fn started(folder: &Path) -> Vec<String> {
    let text = fs::read_to_string(folder.join("started")).unwrap_or_default();
    text.lines().map(str::to_owned).collect()
}

/// Waits until something was started, at most ten seconds.
fn wait_for(folder: &Path, name: &str) -> Vec<String> {
    let began = Instant::now();
    while began.elapsed() < Duration::from_secs(10) {
        let lines = started(folder);
        if lines.iter().any(|line| line.starts_with(name)) {
            return lines;
        }
        thread::sleep(Duration::from_millis(50));
    }
    panic!("{name} was not started; only {:?}", started(folder));
}

fn soon(words: &str) -> Ring {
    Ring::After {
        seconds: 1,
        words: words.to_owned(),
    }
}

#[test]
fn the_first_player_of_the_list_plays_a_sound_and_the_message_has_the_words() {
    let world = World::new("ringing-first");
    let folder = world.folder();
    program(folder, "aplay", "exec sleep 20");
    program(folder, "paplay", "exec sleep 20");
    program(folder, "notify-send", "");
    let mut bell = Ringing::among(&[folder.to_path_buf()]);
    assert!(bell.ring(&soon("It is soft now")));
    assert_eq!(
        started(folder),
        Vec::<String>::new(),
        "not before it is time"
    );
    let lines = wait_for(folder, "paplay");
    bell.hush();
    wait_for(folder, "notify-send It is soft now");
    assert!(
        !lines.iter().any(|line| line.starts_with("aplay")),
        "{lines:?}"
    );
    let heads = fs::read_to_string(folder.join("heads")).expect("the sound was there");
    assert!(heads.starts_with("RIFF"), "{heads}");
}

#[test]
fn a_press_ends_it_and_takes_the_sound_away() {
    let world = World::new("ringing-press");
    let folder = world.folder();
    program(folder, "pw-play", "exec sleep 1");
    let mut bell = Ringing::among(&[folder.to_path_buf()]);
    // What is pressed before it is time leaves the ring alone.
    assert!(bell.ring(&soon("now")));
    bell.hush();
    let lines = wait_for(folder, "pw-play");
    bell.hush();
    // The notes come every five seconds; six show that they do not come again.
    thread::sleep(Duration::from_secs(6));
    assert_eq!(started(folder).len(), 1);
    let file = PathBuf::from(lines[0].trim_start_matches("pw-play "));
    assert!(!file.exists(), "{}", file.display());
}

#[test]
fn a_second_wish_takes_the_place_of_the_first() {
    let world = World::new("ringing-second");
    let folder = world.folder();
    program(folder, "notify-send", "");
    let mut bell = Ringing::among(&[folder.to_path_buf()]);
    assert!(bell.ring(&soon("first")));
    assert!(bell.ring(&soon("second")));
    assert_eq!(wait_for(folder, "notify-send"), ["notify-send second"]);
    thread::sleep(Duration::from_secs(1));
    assert_eq!(started(folder), ["notify-send second"]);
}

#[test]
fn where_nothing_rings_it_is_told() {
    let world = World::new("ringing-none");
    let mut kitchen = world.start(Language::English);
    kitchen.hang_bell(Box::new(Ringing::among(&[])));
    go_on_to(&world, &mut kitchen, "Let the tablets soften");
    press(&mut kitchen, "ring-timer");
    assert_eq!(title(&kitchen.view()), "No clock");
}

#[test]
fn on_a_computer_it_is_told_that_the_window_has_to_stay() {
    let world = World::new("ringing-told");
    let folder = world.folder();
    program(folder, "pw-play", "");
    let mut kitchen = world.start(Language::English);
    kitchen.hang_bell(Box::new(Ringing::among(&[folder.to_path_buf()])));
    go_on_to(&world, &mut kitchen, "Let the tablets soften");
    kitchen.take(&Intent::Tick);
    assert!(pressable(&kitchen.view()).contains(&"ring-timer".to_owned()));
    press(&mut kitchen, "ring-timer");
    assert_eq!(title(&kitchen.view()), "It will ring");
}
