//! `walk`, and the program without a command where there is no display.

use std::path::{Path, PathBuf};

use crate::run::{hearthdose, hearthdose_in};

fn folder(name: &str) -> PathBuf {
    let folder =
        Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("walk-{name}-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    folder
}

#[test]
fn without_a_display_a_round_is_drawn() {
    let folder = folder("no-display");
    let ran = hearthdose_in(&folder, &["--json"]).expect(0);
    assert!(ran.err.contains("there is no display"), "{}", ran.err);
    let steps = ran.json()["steps"].as_array().unwrap().clone();
    // Four people, each measured for or handed a tablet, asked about, and what comes before and after.
    assert!(steps.len() > 12, "{} steps", steps.len());
    for step in &steps {
        let picture = std::fs::read(
            folder
                .join("hearthdose-walk")
                .join(step["picture"].as_str().unwrap()),
        )
        .unwrap();
        assert_eq!(picture.get(..8), Some(&b"\x89PNG\r\n\x1a\n"[..]));
    }
    let report = std::fs::read(folder.join("hearthdose-walk/walk.json")).unwrap();
    let report: serde_json::Value = serde_json::from_slice(&report).unwrap();
    assert_eq!(report, ran.json(), "the report on disk is what is printed");
    // Fluent's isolates stay on screen.
    assert!(!ran.out.contains(['\u{2068}', '\u{2069}', '\u{2066}']));
    std::fs::remove_dir_all(folder).unwrap();
}

#[test]
fn wishes_that_cannot_be_met_are_said() {
    let folder = folder("wishes");
    let out = folder.to_str().unwrap();
    for (more, about) in [
        (&["--language", "xx"][..], "language"),
        (&["--text-scale", "9"], "text-scale"),
        (&["--text-scale", "0"], "text-scale"),
    ] {
        let ran = hearthdose(&[&["walk", "--out", out], more].concat()).expect(2);
        assert!(ran.out.is_empty() && ran.err.contains(about), "{}", ran.err);
    }
    // A file where the folder should be.
    let file = folder.join("file");
    std::fs::write(&file, "").unwrap();
    hearthdose(&["walk", "--out", file.to_str().unwrap()]).expect(2);
    std::fs::remove_dir_all(folder).unwrap();
}
