//! Codes between this program and others: written here and read by a decoder that is not ours, and the other way round.
//!
//! Needs zbarimg, zint, and Python with cbor2 and cryptography; something missing is a failure.
#![cfg(feature = "system")]
#![allow(clippy::unwrap_used, reason = "a test ends where something is missing")]

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use serde_json::Value;

/// A folder that is gone when the test is over.
struct Folder(PathBuf);

impl Folder {
    fn new(name: &str) -> Folder {
        let path = std::env::temp_dir().join(format!("hearthdose-{name}-{}", std::process::id()));
        std::fs::create_dir_all(&path).unwrap();
        Folder(path)
    }

    fn at(&self, name: &str) -> String {
        self.0.join(name).to_str().unwrap().to_owned()
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

fn demo(path: &str) -> String {
    root()
        .join("demo-data")
        .join(path)
        .to_str()
        .unwrap()
        .to_owned()
}

fn program() -> PathBuf {
    let named = std::env::var_os("HEARTHDOSE_PROGRAM").map(PathBuf::from);
    named.unwrap_or_else(|| {
        let own = std::env::current_exe().unwrap();
        own.ancestors().nth(2).unwrap().join("hearthdose")
    })
}

/// Standard output of a program that must succeed.
fn run(program: &Path, arguments: &[&str], input: &str) -> String {
    let mut child = Command::new(program)
        .args(arguments)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap_or_else(|error| panic!("{}: {error}", program.display()));
    child
        .stdin
        .take()
        .unwrap()
        .write_all(input.as_bytes())
        .unwrap();
    let output = child.wait_with_output().unwrap();
    let said = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{program:?} {arguments:?}: {said}");
    String::from_utf8(output.stdout).unwrap()
}

fn json(arguments: &[&str]) -> Value {
    serde_json::from_str(&run(&program(), arguments, "")).unwrap()
}

fn judge(arguments: &[&str], input: &str) -> String {
    let script = root().join("tests/tests/exchange/judge.py");
    let all = [&["-B", script.to_str().unwrap()], arguments].concat();
    run(Path::new("/usr/bin/python3"), &all, input)
}

/// Twelve invented people, as a household file.
fn twelve(folder: &Folder) -> String {
    let mut text = String::from(
        "time-zone = \"America/Chicago\"\nstart = \"2031-04-03\"\nrounds = [\"08:00\", \"20:00\"]\n",
    );
    for number in 1..=12 {
        text.push_str(&format!(
            "[[person]]\nname = \"Person {number}\"\nborn = \"20{number:02}-03-0{}\"\nweight = \"{} lb {} oz\"\nweighed = \"2031-04-02\"\n",
            number % 9 + 1,
            150 - number * 9,
            number
        ));
        text.push_str("[person.answers]\nallergy-tetracycline = \"no\"\npregnant = \"no\"\nbreastfeeding = \"no\"\nkidney-or-liver = \"unsure\"\ncurrent-medicines = \"no\"\n");
    }
    let path = folder.at("twelve.toml");
    std::fs::write(&path, text).unwrap();
    path
}

#[test]
fn another_decoder_reads_and_another_library_verifies_what_is_written() {
    let folder = Folder::new("written");
    let (order, data) = (demo("orders/quillmere-doxy-1.toml"), folder.at("data"));
    let twelve = twelve(&folder);
    let households = [
        (demo("households/alder-1.toml"), 1, 10),
        (demo("households/tarn-4.toml"), 4, 13),
        (demo("households/ferrow-9.toml"), 9, 20),
        (twelve, 12, 20),
    ];
    for (household, people, version) in households {
        let out = folder.at(&format!("{people}.png"));
        let written = json(&[
            "code",
            "write",
            "--household",
            &household,
            "--order",
            &order,
            "--out",
            &out,
            "--data",
            &data,
            "--at",
            "2031-04-03T07:30:00-05:00",
            "--json",
        ]);
        assert!(written["version"].as_i64().unwrap() <= version, "{written}");
        let zbar = run(Path::new("zbarimg"), &["--quiet", "--raw", &out], "");
        let text = zbar.strip_suffix('\n').unwrap();
        assert_eq!(text, written["text"].as_str().unwrap());
        let judged: Value = serde_json::from_str(&judge(&["read"], &zbar)).unwrap();
        assert_eq!(judged["signed"], true, "{judged}");
        assert_eq!(judged["one_spelling"], true);
        assert_eq!(judged["key_id"], true);
        assert_eq!(
            (judged["tag"].as_i64(), judged["kind"].as_i64()),
            (Some(18), Some(1))
        );
        assert_eq!(judged["unprotected"], 0);
        assert_eq!(judged["people"], people);
        assert_eq!(judged["order"], "quillmere-doxy");
        let read = json(&["code", "read", &out, "--data", &data, "--json"]);
        assert_eq!(read["codes"][0]["text"], text);
    }
}

#[test]
fn the_golden_files_are_what_the_format_says() {
    let folder = root().join("tests/tests/exchange/golden");
    judge(&["golden", folder.to_str().unwrap()], "");
}

#[test]
fn codes_of_another_writer_are_read() {
    let folder = Folder::new("read");
    let texts = [
        "https://example.org/a?b=c",
        "HELLO 45 $%*+-./:",
        "Grüße aus Quillmere",
        "0123456789",
        "HD1NOT OURSZ",
    ];
    let mut arguments = vec!["code".to_owned(), "read".to_owned(), "--json".to_owned()];
    for (number, text) in texts.iter().enumerate() {
        let out = folder.at(&format!("{number}.png"));
        let zint = [
            "--barcode=58",
            "--secure=2",
            "--scale=3",
            "--quietzones",
            "-o",
            &out,
            "-d",
            text,
        ];
        run(Path::new("zint"), &zint, "");
        arguments.push(out);
    }
    let arguments: Vec<&str> = arguments.iter().map(String::as_str).collect();
    let read = json(&arguments);
    for (number, text) in texts.iter().enumerate() {
        let code = &read["codes"][number];
        assert_eq!(code["text"], *text);
        let expected = if text.starts_with("HD1") {
            "damaged"
        } else {
            "foreign"
        };
        assert_eq!(code["outcome"], expected, "{text}");
    }
}

#[test]
fn packages_in_pictures() {
    let folder = Folder::new("package");
    let elements = "[01]09501101530003[17]261200[10]ABC123[21]S1";
    // 71 is DataMatrix, 58 is QR.
    for (kind, name) in [("71", "matrix.png"), ("58", "qr.png")] {
        let out = folder.at(name);
        let kind = format!("--barcode={kind}");
        let zint = [
            &kind,
            "--gs1",
            "--scale=4",
            "--quietzones",
            "-o",
            &out,
            "-d",
            elements,
        ];
        run(Path::new("zint"), &zint, "");
        let read = json(&["package", "read", &out, "--json"]);
        assert_eq!(read["gtin"], "09501101530003", "{read}");
        assert_eq!(read["gtin_valid"], true);
        assert_eq!(read["lot"], "ABC123");
        assert_eq!(read["expiry"], "2026-12-31");
        assert_eq!(read["serial"], "S1");
        assert_eq!(read["problems"].as_array().map(Vec::len), Some(0));
    }
}
