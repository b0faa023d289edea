//! Running the program, and files to run it on.

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::atomic::{AtomicU32, Ordering};

use serde_json::Value;

use crate::label;

pub const PROGRAM: &str = env!("CARGO_BIN_EXE_hearthdose");

/// What one run printed, and how it ended.
pub struct Ran {
    pub code: i32,
    pub out: String,
    pub err: String,
}

impl Ran {
    /// The one JSON document on standard output.
    pub fn json(&self) -> Value {
        serde_json::from_str(&self.out)
            .unwrap_or_else(|error| panic!("{error}\nout: {}\nerr: {}", self.out, self.err))
    }

    pub fn expect(self, code: i32) -> Ran {
        assert_eq!(self.code, code, "out: {}\nerr: {}", self.out, self.err);
        self
    }

    /// The codes of a refusal, which has exit code 3 and says so.
    pub fn refusals(self) -> Vec<String> {
        let json = self.expect(3).json();
        assert_eq!(json["outcome"], "refused");
        texts(&json["reasons"], "code")
    }
}

pub fn texts(list: &Value, field: &str) -> Vec<String> {
    let list = list.as_array().unwrap();
    list.iter()
        .map(|entry| entry[field].as_str().unwrap().to_owned())
        .collect()
}

/// One run with nothing on standard input.
pub fn hearthdose(arguments: &[&str]) -> Ran {
    hearthdose_reading(arguments, b"")
}

pub fn hearthdose_reading(arguments: &[&str], input: &[u8]) -> Ran {
    run(Command::new(PROGRAM).args(arguments), input)
}

/// One run in a folder, where files that are named without one come to lie.
pub fn hearthdose_in(folder: &Path, arguments: &[&str]) -> Ran {
    run(
        Command::new(PROGRAM).args(arguments).current_dir(folder),
        b"",
    )
}

fn run(command: &mut Command, input: &[u8]) -> Ran {
    let mut child = command
        .env_remove("DISPLAY")
        .env_remove("WAYLAND_DISPLAY")
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    // A program that stops before reading closes the pipe, which is its right.
    let _ = child.stdin.take().unwrap().write_all(input);
    let output = child.wait_with_output().unwrap();
    let ran = Ran {
        code: output.status.code().expect("ended by a signal"),
        out: String::from_utf8(output.stdout).unwrap(),
        err: String::from_utf8(output.stderr).unwrap(),
    };
    assert!(!ran.err.contains("panicked"), "{command:?}: {}", ran.err);
    for text in [&ran.out, &ran.err] {
        let words = without_codes(text);
        assert_eq!(label::faults(&words), Vec::<String>::new(), "{command:?}");
    }
    ran
}

/// The text of a code is no label: any two letters can stand in it side by side.
fn without_codes(text: &str) -> String {
    let mut out = String::new();
    let mut rest = text;
    while let Some(at) = rest.find("HD1") {
        let (before, code) = rest.split_at(at);
        out.push_str(before);
        let end = code.find(['"', '\n']).unwrap_or(code.len());
        rest = &code[end..];
    }
    without_marks(&(out + rest))
}

/// Nor is a mark: five groups of four hexadecimal digits.
fn without_marks(text: &str) -> String {
    let is_group = |word: &&str| {
        let hex = |c: char| c.is_ascii_digit() || ('a'..='f').contains(&c);
        word.len() == 4 && word.chars().all(hex)
    };
    let parts: Vec<&str> = text
        .split_inclusive(|c: char| !c.is_alphanumeric())
        .collect();
    let bare = |part: &str| {
        part.trim_end_matches(|c: char| !c.is_alphanumeric())
            .to_owned()
    };
    let mut out = String::new();
    let mut at = 0;
    while at < parts.len() {
        let five: Vec<String> = parts
            .iter()
            .skip(at)
            .take(5)
            .map(|part| bare(part))
            .collect();
        let groups = five.iter().filter(|word| is_group(&word.as_str()));
        if five.len() == 5 && groups.count() == 5 {
            at += 5;
        } else {
            out.push_str(parts[at]);
            at += 1;
        }
    }
    out
}

pub fn demo(path: &str) -> String {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../demo-data")
        .join(path)
        .to_str()
        .unwrap()
        .to_owned()
}

pub fn doxycycline() -> String {
    demo("orders/quillmere-doxy-1.toml")
}

/// A file that is gone when the test is over.
pub struct File(PathBuf);

impl File {
    pub fn with(text: impl AsRef<[u8]>) -> File {
        static COUNT: AtomicU32 = AtomicU32::new(0);
        let name = format!(
            "command-line-{}-{}.toml",
            std::process::id(),
            COUNT.fetch_add(1, Ordering::Relaxed)
        );
        let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
        std::fs::write(&path, text).unwrap();
        File(path)
    }

    /// A demonstration file with pieces of it replaced; each must be there.
    pub fn like(original: &str, changes: &[(&str, &str)]) -> File {
        let mut text = std::fs::read_to_string(demo(original)).unwrap();
        for (old, new) in changes {
            assert!(text.contains(old), "{original} has no {old:?}");
            text = text.replace(old, new);
        }
        File::with(text)
    }

    pub fn path(&self) -> &str {
        self.0.to_str().unwrap()
    }
}

impl Drop for File {
    fn drop(&mut self) {
        let _ = std::fs::remove_file(&self.0);
    }
}
