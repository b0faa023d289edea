//! `code write` and `code read`.

use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU32, Ordering};

use image::{GrayImage, Luma};
use serde_json::json;

use crate::run::{File, Ran, demo, doxycycline, hearthdose, texts};

/// A folder that is gone when the test is over.
struct Folder(PathBuf);

impl Folder {
    fn new() -> Folder {
        static COUNT: AtomicU32 = AtomicU32::new(0);
        let name = format!(
            "codes-{}-{}",
            std::process::id(),
            COUNT.fetch_add(1, Ordering::Relaxed)
        );
        let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
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

fn write(folder: &Folder, data: &str, household: &str, out: &str, more: &[&str]) -> Ran {
    let (household, order) = (demo(household), doxycycline());
    let (out, data) = (folder.at(out), folder.at(data));
    let mut arguments = vec![
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
        "--json",
    ];
    arguments.extend(more);
    hearthdose(&arguments)
}

fn read(folder: &Folder, data: &str, names: &[&str]) -> Ran {
    let data = folder.at(data);
    let images: Vec<String> = names.iter().map(|name| folder.at(name)).collect();
    let mut arguments = vec!["code", "read", "--json", "--data", &data];
    arguments.extend(images.iter().map(String::as_str));
    hearthdose(&arguments)
}

#[test]
fn a_household_is_written_and_read() {
    let folder = Folder::new();
    let written = write(&folder, "a", "households/tarn-4.toml", "tarn.png", &[])
        .expect(0)
        .json();
    assert_eq!(written["outcome"], "written");
    assert_eq!(
        (written["issue"].clone(), written["people"].clone()),
        (json!(1), json!(4))
    );
    // Four people fit version 13 at level M.
    assert!(written["version"].as_i64().unwrap() <= 13, "{written}");

    let found = read(&folder, "a", &["tarn.png"]).expect(0).json();
    let codes = found["codes"].as_array().unwrap();
    assert_eq!(codes.len(), 1);
    assert_eq!(codes[0]["text"], written["text"]);
    assert_eq!(codes[0]["file"], json!(folder.at("tarn.png")));
    assert!(codes[0]["ms"].as_f64().unwrap() > 0.0);
    // Its own device is known, another's is not; that is no alarm.
    assert_eq!(codes[0]["outcome"], "new");
    let found = read(&folder, "b", &["tarn.png"]).expect(0).json();
    assert_eq!(found["codes"][0]["outcome"], "signature-unknown");
    // Reading makes no key.
    assert!(!Path::new(&folder.at("b")).exists());
}

#[test]
fn each_code_has_the_next_number_and_the_same_household() {
    let folder = Folder::new();
    let one = write(&folder, "a", "households/alder-1.toml", "1.png", &[])
        .expect(0)
        .json();
    let two = write(&folder, "a", "households/alder-1.toml", "2.png", &[])
        .expect(0)
        .json();
    let other = write(&folder, "a", "households/tarn-4.toml", "3.png", &[])
        .expect(0)
        .json();
    let elsewhere = write(&folder, "b", "households/alder-1.toml", "4.png", &[])
        .expect(0)
        .json();
    assert_eq!(
        (one["issue"].clone(), two["issue"].clone()),
        (json!(1), json!(2))
    );
    assert_eq!(
        (other["issue"].clone(), elsewhere["issue"].clone()),
        (json!(1), json!(1))
    );
    assert_eq!(one["household"], two["household"]);
    assert_ne!(one["household"], other["household"]);
    assert_ne!(one["household"], elsewhere["household"]);
    // One person fits version 10.
    assert!(one["version"].as_i64().unwrap() <= 10);
}

#[test]
fn the_same_moment_gives_the_same_code() {
    let folder = Folder::new();
    let at = ["--at", "2031-04-02T15:00:00-05:00"];
    let one = write(&folder, "a", "households/ferrow-9.toml", "1.png", &at)
        .expect(0)
        .json();
    std::fs::remove_file(folder.at("a/issued-codes.json")).unwrap();
    let two = write(&folder, "a", "households/ferrow-9.toml", "2.png", &at)
        .expect(0)
        .json();
    assert_eq!(one["text"], two["text"]);
    let pictures = ["1.png", "2.png"].map(|name| std::fs::read(folder.at(name)).unwrap());
    assert_eq!(pictures[0], pictures[1]);
}

#[cfg(unix)]
#[test]
fn the_key_is_its_owners_alone() {
    use std::os::unix::fs::PermissionsExt;
    let folder = Folder::new();
    let alder = "households/alder-1.toml";
    write(&folder, "a", alder, "1.png", &[]).expect(0);
    let key = folder.at("a/device.key");
    let mode = |path: &str| std::fs::metadata(path).unwrap().permissions().mode() & 0o777;
    assert_eq!(mode(&key), 0o600);
    for open in [0o640, 0o604, 0o660, 0o644] {
        std::fs::set_permissions(&key, std::fs::Permissions::from_mode(open)).unwrap();
        let refused = write(&folder, "a", alder, "2.png", &[]).refusals();
        assert_eq!(refused, ["device-key-exposed"]);
        assert!(!Path::new(&folder.at("2.png")).exists());
        // Reading goes on without it.
        let found = read(&folder, "a", &["1.png"]).expect(0).json();
        assert_eq!(found["codes"][0]["outcome"], "signature-unknown");
    }
    std::fs::set_permissions(&key, std::fs::Permissions::from_mode(0o600)).unwrap();
    std::fs::write(&key, "not a key\n").unwrap();
    let refused = write(&folder, "a", alder, "2.png", &[]).refusals();
    assert_eq!(refused, ["device-key-damaged"]);
}

#[test]
fn names_are_in_only_when_asked_for() {
    let folder = Folder::new();
    let without = write(&folder, "a", "households/tarn-4.toml", "1.png", &[])
        .expect(0)
        .json();
    let with = write(
        &folder,
        "a",
        "households/tarn-4.toml",
        "2.png",
        &["--names"],
    )
    .expect(0)
    .json();
    let length = |document: &serde_json::Value| document["text"].as_str().unwrap().len();
    // Odile, Sunniva, Bram and Pim have 19 letters; three characters of text carry two bytes.
    assert!(length(&with) >= length(&without) + 28, "{with}");
}

#[test]
fn without_an_order_and_with_one_that_seals() {
    let folder = Folder::new();
    let (household, out, data) = (
        demo("households/alder-1.toml"),
        folder.at("bare.png"),
        folder.at("a"),
    );
    let bare = [
        "code",
        "write",
        "--household",
        &household,
        "--out",
        &out,
        "--data",
        &data,
    ];
    let ran = hearthdose(&bare).expect(0);
    assert!(ran.out.contains("QR version"), "{}", ran.out);
    hearthdose(&[&bare[..], &["--seal"]].concat()).expect(2);

    // The key that the demonstration order names.
    let key = "092d1a1954f18bcc948579aab5e63078b4f2fe5b531a3da35f7d7f21dbb4ff5d";
    let line = format!("sealing-key = {{ id = \"quillmere-demo\", x25519 = \"{key}\" }}");
    let order = "orders/quillmere-doxy-1.toml";
    let sealing = |other: &str| File::like(order, &[(key, other)]);
    let seal = |order: &File| {
        let sealed = folder.at("s.png");
        hearthdose(&[
            "code",
            "write",
            "--household",
            &household,
            "--order",
            order.path(),
            "--out",
            &sealed,
            "--data",
            &data,
            "--seal",
            "--json",
        ])
    };
    let without = File::like(order, &[(&line, "")]);
    assert_eq!(seal(&without).refusals(), ["no-sealing-key"]);
    // The public key of RFC 9180, appendix A.2.1.
    let order = sealing("4310ee97d88cc1f088a5576c77ab0cf5c3ac797f3d95139c6c84b5429c59662a");
    seal(&order).expect(0);
    let found = read(&folder, "a", &["s.png"]).expect(0).json();
    assert_eq!(found["codes"][0]["outcome"], "sealed");
    for wrong in ["key", "00", &"0".repeat(64)] {
        assert_eq!(
            seal(&sealing(wrong)).refusals(),
            ["sealing-key-wrong"],
            "{wrong}"
        );
    }
}

#[test]
fn what_cannot_be_written_is_said() {
    let folder = Folder::new();
    let order = doxycycline();
    let household = demo("households/alder-1.toml");
    let out = folder.at("no/such/folder.png");
    let data = folder.at("a");
    hearthdose(&[
        "code",
        "write",
        "--household",
        &household,
        "--out",
        &out,
        "--data",
        &data,
    ])
    .expect(2);
    hearthdose(&[
        "code",
        "write",
        "--household",
        &order,
        "--out",
        "x.png",
        "--data",
        &data,
    ])
    .expect(2);
    write(
        &folder,
        "a",
        "households/alder-1.toml",
        "x.png",
        &["--at", "tomorrow"],
    )
    .expect(2);
    std::fs::write(folder.at("file"), "").unwrap();
    write(&folder, "file", "households/alder-1.toml", "x.png", &[]).expect(2);
    std::fs::create_dir_all(folder.at("b")).unwrap();
    std::fs::write(folder.at("b/issued-codes.json"), "[]").unwrap();
    let refused = write(&folder, "b", "households/alder-1.toml", "x.png", &[]).refusals();
    assert_eq!(refused, ["issued-codes-damaged"]);
}

/// Light and dark changed, turned, in a photograph's format: one entry for each picture, in the order asked for.
#[test]
fn many_pictures_at_once() {
    let folder = Folder::new();
    write(&folder, "a", "households/tarn-4.toml", "plain.png", &[]).expect(0);
    let plain = image::open(folder.at("plain.png")).unwrap().into_luma8();
    let mut inverted = plain.clone();
    for pixel in inverted.pixels_mut() {
        pixel.0 = [255 - pixel.0[0]];
    }
    inverted.save(folder.at("inverted.png")).unwrap();
    image::imageops::rotate90(&plain)
        .save(folder.at("turned.png"))
        .unwrap();
    plain.save(folder.at("photo.jpg")).unwrap();
    let mut weak = plain.clone();
    for pixel in weak.pixels_mut() {
        pixel.0 = [100 + pixel.0[0] / 16];
    }
    weak.save(folder.at("weak.png")).unwrap();
    // Black modules on nothing.
    let mut clear = image::GrayAlphaImage::new(plain.width(), plain.height());
    for (target, source) in clear.pixels_mut().zip(plain.pixels()) {
        target.0 = [0, 255 - source.0[0]];
    }
    clear.save(folder.at("clear.png")).unwrap();
    GrayImage::from_pixel(320, 240, Luma([200]))
        .save(folder.at("empty.png"))
        .unwrap();

    let names = [
        "inverted.png",
        "turned.png",
        "photo.jpg",
        "weak.png",
        "clear.png",
        "empty.png",
        "plain.png",
    ];
    let found = read(&folder, "b", &names).expect(0).json();
    assert_eq!(
        texts(&found["codes"], "file"),
        names.map(|name| folder.at(name))
    );
    let outcomes = texts(&found["codes"], "outcome");
    for (name, outcome) in names.iter().zip(&outcomes) {
        let expected = if *name == "empty.png" {
            "nothing-read"
        } else {
            "signature-unknown"
        };
        assert_eq!(outcome, expected, "{name}");
    }
    assert!(found["codes"][5]["text"].is_null());

    // A file that is no picture is named, and the others are read all the same.
    std::fs::write(folder.at("words.png"), "no picture").unwrap();
    let ran = read(&folder, "b", &["words.png", "plain.png", "missing.png"]).expect(2);
    let outcomes = texts(&ran.json()["codes"], "outcome");
    assert_eq!(outcomes, ["unreadable", "signature-unknown", "unreadable"]);
    assert!(ran.err.contains("words.png") && ran.err.contains("missing.png"));
    hearthdose(&["code", "read"]).expect(2);
}

/// The demonstration order as codes, in a folder.
fn order_in_codes(folder: &Folder, order: &str, out: &str) -> serde_json::Value {
    let out = folder.at(out);
    let wish = ["code", "write", "--order", order, "--out", &out, "--json"];
    hearthdose(&wish).expect(0).json()
}

#[test]
fn an_order_travels_in_codes_and_its_bytes_stay() {
    let folder = Folder::new();
    let order = doxycycline();
    let bytes = std::fs::read(&order).unwrap();
    let written = order_in_codes(&folder, &order, "parts");
    let files = written["files"].as_array().unwrap();
    // One part carries 512 bytes, and a quarter more than needed are made.
    let needed = bytes.len().div_ceil(512);
    assert_eq!(written["needed"], json!(needed));
    assert_eq!(files.len(), needed + needed / 4 + 2);
    assert!(written["order"] == "quillmere-doxy" && written["revision"] == 1);

    // The first parts were missed; the spare ones make up for them, in any order.
    let names: Vec<&str> = files
        .iter()
        .rev()
        .map(|file| file.as_str().unwrap())
        .collect();
    let kept = folder.at("kept.toml");
    let wish = [
        &["code", "read", "--json", "--out", &kept],
        &names[..needed + 2],
    ]
    .concat();
    let read = hearthdose(&wish).expect(0).json();
    assert_eq!(std::fs::read(&kept).unwrap(), bytes);
    let codes = read["codes"].as_array().unwrap();
    assert!(codes.iter().all(|code| code["outcome"] == "part"));
    let file = &read["files"][0];
    assert_eq!(
        (&file["outcome"], &file["order"], &file["revision"]),
        (&json!("order"), &json!("quillmere-doxy"), &json!(1))
    );
    assert_eq!(
        (&file["short"], &file["file"]),
        (&written["short"], &json!(kept))
    );
    // What is there is not written over, by whatever codes.
    hearthdose(&wish).expect(2);
    let plain = [&["code", "read"], &names[..]].concat();
    let plain = hearthdose(&plain).expect(0);
    assert!(
        plain.out.contains("revision 1, fingerprint"),
        "{}",
        plain.out
    );
}

#[test]
fn parts_that_are_not_enough_are_said_and_not_kept() {
    let folder = Folder::new();
    let written = order_in_codes(&folder, &doxycycline(), "one");
    let other = order_in_codes(&folder, &demo("orders/quillmere-doxy-2.toml"), "two");
    let names = |written: &serde_json::Value| -> Vec<String> {
        let files = written["files"].as_array().unwrap();
        files
            .iter()
            .map(|file| file.as_str().unwrap().to_owned())
            .collect()
    };
    let (one, two) = (names(&written), names(&other));
    let kept = folder.at("kept.toml");
    let read = |images: &[&String], out: bool| {
        let mut wish = vec!["code", "read", "--json"];
        wish.extend(images.iter().map(|name| name.as_str()));
        if out {
            wish.extend(["--out", &kept]);
        }
        hearthdose(&wish)
    };
    // The same part twice counts once, and parts of two files stay apart.
    let some = [&one[0], &one[1], &one[1], &two[0]];
    let found = read(&some, false).expect(0).json();
    let files = found["files"].as_array().unwrap();
    let mut have: Vec<_> = files.iter().map(|file| file["have"].as_u64()).collect();
    have.sort();
    assert_eq!(have, [Some(1), Some(2)]);
    assert!(files.iter().all(|file| file["outcome"] == "incomplete"));
    assert_eq!(read(&some[..2], true).refusals(), ["file-incomplete"]);
    let both: Vec<&String> = one.iter().chain(&two).collect();
    assert_eq!(read(&both, true).refusals(), ["several-files"]);
    assert!(!Path::new(&kept).exists());

    write(&folder, "a", "households/alder-1.toml", "alder.png", &[]).expect(0);
    let alder = folder.at("alder.png");
    assert_eq!(read(&[&alder], true).refusals(), ["no-file"]);
    let plain = read(&[&alder], false).expect(0).json();
    assert_eq!(plain.as_object().unwrap().len(), 1);

    // Neither an order nor a household, and what belongs to a household only.
    let (order, out) = (doxycycline(), folder.at("out"));
    hearthdose(&["code", "write", "--out", &out]).expect(2);
    for more in ["--names", "--seal"] {
        hearthdose(&["code", "write", "--order", &order, "--out", &out, more]).expect(2);
    }
    let damaged = File::like("orders/quillmere-doxy-1.toml", &[("supply-days = 10", "")]);
    let wish = [
        "code",
        "write",
        "--order",
        damaged.path(),
        "--out",
        &out,
        "--json",
    ];
    assert!(!hearthdose(&wish).refusals().is_empty());
}
