//! `package read`.

use serde_json::{Value, json};

use crate::run::{demo, hearthdose, texts};

fn read(text: &str, code: i32) -> Value {
    hearthdose(&["package", "read", text, "--json"])
        .expect(code)
        .json()
}

#[test]
fn the_contract_example() {
    let expected = json!({
        "gtin": "09501101530003", "gtin_valid": true, "lot": "ABC123", "expiry": "2026-12-31",
        "serial": "S1", "problems": []
    });
    let text = "010950110153000317261200\
                10ABC123\u{1d}21S1";
    assert_eq!(read(text, 0), expected);
    assert_eq!(read(&format!("]d2{text}"), 0), expected);
    let words = hearthdose(&["package", "read", text]).expect(0);
    assert!(words.out.contains("ABC123") && words.out.contains("2026-12-31"));
}

#[test]
fn problems_are_listed_and_end_with_four() {
    let found = read("010950110153000417261301", 4);
    assert_eq!(found["gtin"], "09501101530004");
    assert_eq!(found["gtin_valid"], false);
    assert!(found["expiry"].is_null() && found["lot"].is_null() && found["serial"].is_null());
    assert_eq!(
        texts(&found["problems"], "code"),
        ["gtin-check-digit", "date-invalid"]
    );
    for text in texts(&found["problems"], "text") {
        assert!(text.len() > 10);
    }
    let found = read("", 4);
    assert_eq!(texts(&found["problems"], "code"), ["empty"]);
    assert!(found["gtin_valid"].is_null());
    read("--weight", 4);
    read("10A\u{1b}[31m", 4);
    hearthdose(&["package", "read"]).expect(2);
}

#[test]
fn pictures() {
    // A picture without any code.
    let found = read(&demo("pictures/window.png"), 4);
    assert_eq!(texts(&found["problems"], "code"), ["nothing-read"]);
    hearthdose(&["package", "read", "missing.png", "--json"]).expect(2);
    hearthdose(&[
        "package",
        "read",
        &demo("orders/quillmere-doxy-1.toml"),
        "--json",
    ])
    .expect(2);
}
