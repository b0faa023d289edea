//! Reading aloud: what a screen says, to a speech service of the test's own behind a real socket.

use std::io::{BufRead, BufReader, Write};
use std::os::unix::net::{UnixListener, UnixStream};
use std::path::PathBuf;
use std::sync::mpsc::{Receiver, channel};
use std::thread;
use std::time::Duration;

use hearthdose_tests::kitchen::{World, go_on_to, press, pressable, title};
use hearthdose_ui::machine::speech::Speech;
use hearthdose_ui::text::Language;
use hearthdose_ui::vm::ports::Voice;
use hearthdose_ui::vm::view::Intent;

/// Where the service listens, and the lines it was sent.
fn service(world: &World) -> (PathBuf, Receiver<String>) {
    let socket = world.folder().join("speech.sock");
    let listener = UnixListener::bind(&socket).expect("a socket");
    let (sent, heard) = channel();
    thread::spawn(move || {
        for stream in listener.incoming() {
            answer(stream.expect("a client"), |line| sent.send(line).is_ok());
        }
    });
    (socket, heard)
}

/// Answers as the protocol has it: one answer a command, none within a text.
fn answer(mut stream: UnixStream, mut heard: impl FnMut(String) -> bool) {
    let lines = BufReader::new(stream.try_clone().expect("the same stream")).lines();
    let mut text = false;
    for line in lines.map_while(Result::ok) {
        let reply = match (text, line.as_str()) {
            (true, ".") => "225-17\r\n225 OK MESSAGE QUEUED\r\n",
            (true, _) => "",
            (false, "SPEAK") => "230 OK RECEIVING DATA\r\n",
            (false, "CANCEL SELF") => "210 OK CANCELED\r\n",
            (false, _) => "208 OK SET\r\n",
        };
        text = (text || line == "SPEAK") && line != ".";
        if !heard(line) || stream.write_all(reply.as_bytes()).is_err() {
            return;
        }
    }
}

/// The lines up to the end of a text.
fn one_text(heard: &Receiver<String>) -> Vec<String> {
    let mut lines = Vec::new();
    while lines.last().is_none_or(|line| line != ".") {
        let line = heard.recv_timeout(Duration::from_secs(5));
        lines.push(line.expect("the text goes on"));
    }
    lines
}

#[test]
fn a_screen_is_read_only_when_asked_and_stops_at_the_next_press() {
    let world = World::new("voice-asked");
    let (socket, heard) = service(&world);
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
    let (socket, heard) = service(&world);
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
    let (socket, heard) = service(&world);
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
