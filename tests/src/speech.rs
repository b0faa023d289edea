//! A speech service of the tests' own behind a real socket.

use std::io::{BufRead, BufReader, Write};
use std::os::unix::net::{UnixListener, UnixStream};
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, channel};
use std::thread;
use std::time::Duration;

/// Where the service listens, and the lines it was sent.
pub fn service(folder: &Path) -> (PathBuf, Receiver<String>) {
    let socket = folder.join("speech.sock");
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
pub fn one_text(heard: &Receiver<String>) -> Vec<String> {
    let mut lines = Vec::new();
    while lines.last().is_none_or(|line| line != ".") {
        let line = heard.recv_timeout(Duration::from_secs(20));
        lines.push(line.expect("the text goes on"));
    }
    lines
}
