//! Reading aloud: what a screen says, to a speech service of the test's own behind a real socket.

use std::os::unix::net::UnixListener;
use std::thread;
use std::time::Duration;

use hearthdose_tests::kitchen::{World, go_on_to, press, pressable, title};
use hearthdose_tests::speech::{one_text, service};
use hearthdose_ui::machine::speech::Speech;
use hearthdose_ui::text::Language;
use hearthdose_ui::vm::ports::Voice;
use hearthdose_ui::vm::view::Intent;

#[test]
fn a_screen_is_read_only_when_asked_and_stops_at_the_next_press() {
    let world = World::new("voice-asked");
    let (socket, heard) = service(world.folder());
    let mut kitchen = world.start(Language::English);
    kitchen.give_voice(Box::new(Speech::at(socket)));
    go_on_to(&world, &mut kitchen, "Let the tablets soften");
    assert!(heard.try_recv().is_err(), "nothing is read by itself");

    press(&mut kitchen, "read-aloud");
    let lines = one_text(&heard);
    let before = [
        "SET SELF CLIENT_NAME user:hearthdose:table",
        "CANCEL SELF",
        "SET SELF LANGUAGE en",
        "SPEAK",
    ];
    assert_eq!(lines[..4], before);
    assert!(
        lines[4..].contains(&"Let the tablets soften.".to_owned()),
        "{lines:?}"
    );

    kitchen.take(&Intent::Tick);
    assert!(heard.try_recv().is_err(), "time alone does not end it");
    kitchen.take(&Intent::Back);
    let ended = heard.recv_timeout(Duration::from_secs(5));
    assert_eq!(ended.as_deref(), Ok("CANCEL SELF"));
}

#[test]
fn the_amount_is_read_in_words_and_in_the_language_of_the_screen() {
    let world = World::new("voice-spanish");
    let (socket, heard) = service(world.folder());
    let mut kitchen = world.start(Language::Spanish);
    kitchen.give_voice(Box::new(Speech::at(socket)));
    press(&mut kitchen, "practise");
    press(&mut kitchen, "read-aloud");
    let lines = one_text(&heard);
    assert!(
        lines.contains(&"SET SELF LANGUAGE es".to_owned()),
        "{lines:?}"
    );
    assert!(
        lines.iter().any(|line| line.contains("cucharadita")),
        "{lines:?}"
    );
}

#[test]
fn a_line_of_one_dot_is_no_end() {
    let world = World::new("voice-dots");
    let (socket, heard) = service(world.folder());
    let mut speech = Speech::at(socket);
    assert!(speech.say("before\n.\nafter", Language::English));
    let lines = one_text(&heard);
    assert_eq!(lines[lines.len() - 4..], ["before", "..", "after", "."]);
}

#[test]
fn where_nothing_speaks_it_is_told_and_without_a_voice_nothing_is_offered() {
    let world = World::new("voice-none");
    let mut kitchen = world.start(Language::English);
    press(&mut kitchen, "practise");
    assert!(!pressable(&kitchen.view()).contains(&"read-aloud".to_owned()));
    /// A service that is not there.
    struct Silent;
    impl Voice for Silent {
        fn is_there(&self) -> bool {
            false
        }
        fn say(&mut self, _: &str, _: Language) -> bool {
            false
        }
        fn stop(&mut self) {}
    }
    kitchen.give_voice(Box::new(Silent));
    press(&mut kitchen, "read-aloud");
    assert_eq!(title(&kitchen.view()), "No voice");
}

/// The service may take its time to start, and may not start at all: the press never waits, and it is told when it is known.
#[test]
fn a_service_that_does_not_start_is_told_later() {
    let world = World::new("voice-late");
    let socket = world.folder().join("speech.sock");
    // Nobody listens any more at a socket that is still there.
    drop(UnixListener::bind(&socket).expect("a socket"));
    let mut kitchen = world.start(Language::English);
    kitchen.give_voice(Box::new(Speech::at(socket)));
    press(&mut kitchen, "practise");
    press(&mut kitchen, "read-aloud");
    for _ in 0..200 {
        if title(&kitchen.view()) == "No voice" {
            return;
        }
        assert!(kitchen.view().waiting, "looked at each second");
        thread::sleep(Duration::from_millis(50));
        kitchen.take(&Intent::Tick);
    }
    panic!("nothing was told");
}

/// A service that never answers holds no press.
#[test]
fn a_service_that_hangs_holds_nothing() {
    let world = World::new("voice-hangs");
    let socket = world.folder().join("speech.sock");
    let _listens = UnixListener::bind(&socket).expect("a socket");
    let mut kitchen = world.start(Language::English);
    kitchen.give_voice(Box::new(Speech::at(socket)));
    press(&mut kitchen, "practise");
    let began = std::time::Instant::now();
    press(&mut kitchen, "read-aloud");
    assert!(began.elapsed() < Duration::from_millis(300));
}
