//! Speaking through the desktop's speech service, over its own socket; nothing is linked.
//!
//! The service answers every command with lines of three digits, and takes a text up to a line with one dot.

use std::env;
use std::io::{self, BufRead, BufReader, Write};
use std::os::unix::net::UnixStream;
use std::path::PathBuf;
use std::process::{Command, Stdio};
use std::sync::mpsc::{Receiver, Sender, channel};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread;
use std::time::Duration;

use crate::text::Language;
use crate::vm::ports::Voice;

/// Longest wait for one answer.
const PATIENCE: Duration = Duration::from_millis(800);
const PROGRAM: &str = "speech-dispatcher";

/// The speech service of this desktop.
///
/// It may have to be started first, so a thread of its own talks with it and no press waits.
pub struct Speech {
    socket: Option<PathBuf>,
    wishes: Option<Sender<Wish>>,
    /// Whether the text that was asked for last is being said; none while that is not known.
    said: Arc<Mutex<Option<bool>>>,
}

enum Wish {
    Say(String, Language),
    Stop,
}

impl Speech {
    /// The service where this session says it is.
    pub fn of_session() -> Speech {
        let set = |name: &str| env::var(name).ok().filter(|value| !value.is_empty());
        Speech::of(place(set("SPEECHD_ADDRESS"), set("XDG_RUNTIME_DIR")))
    }

    /// The service behind this socket.
    pub fn at(socket: PathBuf) -> Speech {
        Speech::of(Some(socket))
    }

    fn of(socket: Option<PathBuf>) -> Speech {
        Speech {
            socket,
            wishes: None,
            said: Arc::default(),
        }
    }

    /// Begins the thread, where it does not run yet.
    fn begin(&mut self) -> Option<&Sender<Wish>> {
        if self.wishes.is_none() {
            let (sender, wishes) = channel();
            let line = Line {
                socket: self.socket.clone(),
                line: None,
            };
            let said = Arc::clone(&self.said);
            let named = thread::Builder::new().name("speech".to_owned());
            named.spawn(move || line.work(&wishes, &said)).ok()?;
            self.wishes = Some(sender);
        }
        self.wishes.as_ref()
    }

    fn know(&self, said: Option<bool>) {
        *self.said.lock().unwrap_or_else(PoisonError::into_inner) = said;
    }
}

/// The connection to the service.
struct Line {
    socket: Option<PathBuf>,
    /// Kept between texts, because only who said a text can stop it.
    line: Option<BufReader<UnixStream>>,
}

impl Line {
    /// Does one wish after the other until nobody can wish any more; of texts that wait only the newest is said.
    fn work(mut self, wishes: &Receiver<Wish>, told: &Mutex<Option<bool>>) {
        while let Ok(first) = wishes.recv() {
            match wishes.try_iter().last().unwrap_or(first) {
                Wish::Say(words, language) => {
                    let said = self.say(&words, language);
                    *told.lock().unwrap_or_else(PoisonError::into_inner) = Some(said);
                }
                Wish::Stop => self.stop(),
            }
        }
    }

    fn connect(&mut self) -> io::Result<()> {
        let socket = self.socket.as_ref().ok_or(io::ErrorKind::NotFound)?;
        let stream = UnixStream::connect(socket).or_else(|_| {
            // It starts by itself, and comes back once it listens.
            Command::new(PROGRAM)
                .arg("--spawn")
                .stdin(Stdio::null())
                .stdout(Stdio::null())
                .stderr(Stdio::null())
                .status()?;
            UnixStream::connect(socket)
        })?;
        stream.set_read_timeout(Some(PATIENCE))?;
        stream.set_write_timeout(Some(PATIENCE))?;
        self.line = Some(BufReader::new(stream));
        self.command("SET SELF CLIENT_NAME user:hearthdose:table")
    }

    /// One command; an answer other than "done" is an error.
    fn command(&mut self, text: &str) -> io::Result<()> {
        let line = self.line.as_mut().ok_or(io::ErrorKind::NotConnected)?;
        line.get_mut().write_all(format!("{text}\r\n").as_bytes())?;
        loop {
            let mut answer = String::new();
            if line.read_line(&mut answer)? == 0 {
                return Err(io::ErrorKind::UnexpectedEof.into());
            }
            // A dash after the digits: more lines follow.
            if answer.as_bytes().get(3) == Some(&b'-') {
                continue;
            }
            return match answer.starts_with('2') {
                true => Ok(()),
                false => Err(io::Error::other(answer)),
            };
        }
    }

    fn speak(&mut self, words: &str, language: Language) -> io::Result<()> {
        if self.line.is_none() {
            self.connect()?;
        }
        self.command("CANCEL SELF")?;
        self.command(&format!("SET SELF LANGUAGE {}", language.code()))?;
        self.command("SPEAK")?;
        self.command(&format!("{}\r\n.", stuffed(words)))
    }

    fn say(&mut self, words: &str, language: Language) -> bool {
        let kept = self.line.is_some();
        let mut said = self.speak(words, language);
        if said.is_err() && kept {
            // The service was started anew meanwhile.
            self.line = None;
            said = self.speak(words, language);
        }
        if said.is_err() {
            self.line = None;
        }
        said.is_ok()
    }

    fn stop(&mut self) {
        if self.line.is_some() && self.command("CANCEL SELF").is_err() {
            self.line = None;
        }
    }
}

impl Voice for Speech {
    fn is_there(&self) -> bool {
        let path = env::var_os("PATH").unwrap_or_default();
        let listens = self.socket.as_ref().is_some_and(|socket| socket.exists());
        let starts = || env::split_paths(&path).any(|folder| folder.join(PROGRAM).is_file());
        listens || self.socket.is_some() && starts()
    }

    fn say(&mut self, words: &str, language: Language) -> bool {
        self.know(None);
        let wish = Wish::Say(words.to_owned(), language);
        self.is_there() && self.begin().is_some_and(|wishes| wishes.send(wish).is_ok())
    }

    fn said(&self) -> Option<bool> {
        *self.said.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn stop(&mut self) {
        if let Some(wishes) = &self.wishes {
            let _ = wishes.send(Wish::Stop);
        }
    }
}

/// The socket that the session names, or the usual one; none where it names another kind.
fn place(address: Option<String>, runtime: Option<String>) -> Option<PathBuf> {
    let usual = || Some(PathBuf::from(runtime?).join("speech-dispatcher/speechd.sock"));
    match address {
        Some(address) => match address.split_once(':') {
            Some(("unix_socket", path)) => Some(PathBuf::from(path)),
            None if address == "unix_socket" => usual(),
            _ => None,
        },
        None => usual(),
    }
}

/// The text with one more dot on lines that begin with one, so that none of them ends it.
fn stuffed(words: &str) -> String {
    let lines: Vec<String> = words
        .lines()
        .map(|line| match line.starts_with('.') {
            true => format!(".{line}"),
            false => line.to_owned(),
        })
        .collect();
    lines.join("\r\n")
}

#[cfg(test)]
mod tests {
    use super::{place, stuffed};
    use std::path::Path;

    #[test]
    fn no_line_of_a_text_ends_it() {
        assert_eq!(
            stuffed("One.\n.\n..two\nthree"),
            "One.\r\n..\r\n...two\r\nthree"
        );
    }

    #[test]
    fn the_session_names_the_socket() {
        let set = |text: &str| Some(text.to_owned());
        assert_eq!(
            place(set("unix_socket:/tmp/a.sock"), set("/run/1")).as_deref(),
            Some(Path::new("/tmp/a.sock"))
        );
        let usual = Path::new("/run/1/speech-dispatcher/speechd.sock");
        assert_eq!(place(None, set("/run/1")).as_deref(), Some(usual));
        assert_eq!(
            place(set("unix_socket"), set("/run/1")).as_deref(),
            Some(usual)
        );
        assert_eq!(place(set("inet_socket:host:6560"), set("/run/1")), None);
        assert_eq!(place(None, None), None);
    }
}
