//! `queue`: Erlang's C against hand-worked cases.

use serde_json::{Value, json};

use crate::run::hearthdose;

fn queue(servers: &str, service: &str, per_hour: &str) -> Value {
    let asked = [
        "queue",
        "--servers",
        servers,
        "--service",
        service,
        "--per-hour",
        per_hour,
        "--json",
    ];
    hearthdose(&asked).expect(0).json()
}

fn near(found: &Value, wanted: f64) {
    let found = found.as_f64().unwrap();
    assert!((found - wanted).abs() < 1e-9, "{found} is not {wanted}");
}

/// One server: C is the load itself, the mean wait a·s/(1−a). Two servers at one erlang: C = 1/3.
/// Three at two erlang: a³/3!·3/(3−2) = 4 over 1 + 2 + 2 + 4, so C = 4/9. All by the textbook formula.
#[test]
fn hand_worked_lines() {
    let one = queue("1", "60 s", "30");
    assert_eq!(one["stable"], true);
    near(&one["load_erlang"], 0.5);
    near(&one["wait_probability"], 0.5);
    near(&one["mean_wait_s"], 60.0);
    near(&one["queue_length"], 0.5);
    let two = queue("2", "1 min", "60");
    near(&two["wait_probability"], 1.0 / 3.0);
    near(&two["mean_wait_s"], 20.0);
    near(&two["queue_length"], 1.0 / 3.0);
    let three = queue("3", "45 s", "160");
    near(&three["load_erlang"], 2.0);
    near(&three["wait_probability"], 4.0 / 9.0);
    near(&three["mean_wait_s"], 20.0);
    near(&three["queue_length"], 8.0 / 9.0);
}

/// Erlang's C and the mean wait in service times, worked out in exact fractions outside of this project.
#[test]
fn larger_lines() {
    for (load, servers, c, wait) in [
        (5, 6, 3125.0 / 5319.0, 0.587_516),
        (5, 7, 0.324_150, 0.162_075),
        (10, 12, 0.449_388, 0.224_694),
        (20, 25, 0.209_103, 0.041_821),
        (100, 110, 0.237_008, 0.023_701),
    ] {
        let found = queue(
            &f64::from(servers).to_string(),
            "60 s",
            &(load * 60).to_string(),
        );
        let close = |key: &str, wanted: f64| {
            let found = found[key].as_f64().unwrap();
            assert!(
                (found - wanted).abs() < 1e-6,
                "{load} {servers}: {key} {found}"
            );
        };
        close("wait_probability", c);
        let wait_s: f64 = wait * 60.0;
        let found_wait = found["mean_wait_s"].as_f64().unwrap();
        assert!(
            (found_wait - wait_s).abs() < 6e-5,
            "{load} {servers}: {found_wait}"
        );
    }
}

#[test]
fn a_line_that_never_ends_is_named_so() {
    for per_hour in ["80", "200"] {
        let found = queue("1", "45 s", per_hour);
        assert_eq!(found["stable"], false);
        assert_eq!(
            [
                &found["wait_probability"],
                &found["mean_wait_s"],
                &found["queue_length"]
            ],
            [&json!(null); 3]
        );
    }
}

#[test]
fn what_is_no_line_is_refused() {
    for (servers, service, per_hour) in [
        ("0", "45 s", "10"),
        ("1", "0 s", "10"),
        ("1", "45", "10"),
        ("1", "45 s", "many"),
        ("1", "45 s", "NaN"),
    ] {
        hearthdose(&[
            "queue",
            "--servers",
            servers,
            "--service",
            service,
            "--per-hour",
            per_hour,
        ])
        .expect(2);
    }
}
