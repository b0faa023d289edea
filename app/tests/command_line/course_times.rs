//! `plan`: clock changes, first doses at odd times, people who begin on other days.
//!
//! In Chicago clocks go forward on 9 March 2031 and back on 2 November 2031, both at 02:00.

use serde_json::Value;

use crate::households::{amount, list, plan_of, verify};
use crate::run::{File, doxycycline};

fn household(changes: &[(&str, &str)]) -> File {
    File::like(
        "households/alder-1.toml",
        &[&[("swallows-tablets = true\n", "")], changes].concat(),
    )
}

fn plan(household: &File, days: &str) -> Value {
    let plan = plan_of(&doxycycline(), household.path(), &["--days", days])
        .expect(0)
        .json();
    verify(&plan);
    plan
}

/// When, and the hours since the dose before.
fn times(plan: &Value) -> Vec<(String, Option<f64>)> {
    let time = |round: &Value| {
        (
            round["at"].as_str().unwrap().to_owned(),
            round["hours_since_last"].as_f64(),
        )
    };
    list(plan, "rounds").iter().map(time).collect()
}

fn expected(times: &[(&str, Option<f64>)]) -> Vec<(String, Option<f64>)> {
    times
        .iter()
        .map(|(at, hours)| ((*at).to_owned(), *hours))
        .collect()
}

#[test]
fn wall_clock_times_hold_when_clocks_go_forward() {
    let found = times(&plan(&household(&[("2031-04-03", "2031-03-08")]), "2"));
    let wanted = [
        ("2031-03-08T08:00:00-06:00", None),
        ("2031-03-08T20:00:00-06:00", Some(12.0)),
        ("2031-03-09T08:00:00-05:00", Some(11.0)),
        ("2031-03-09T20:00:00-05:00", Some(12.0)),
    ];
    assert_eq!(found, expected(&wanted));
}

#[test]
fn wall_clock_times_hold_when_clocks_go_back() {
    let found = times(&plan(&household(&[("2031-04-03", "2031-11-01")]), "2"));
    let wanted = [
        ("2031-11-01T08:00:00-05:00", None),
        ("2031-11-01T20:00:00-05:00", Some(12.0)),
        ("2031-11-02T08:00:00-06:00", Some(13.0)),
        ("2031-11-02T20:00:00-06:00", Some(12.0)),
    ];
    assert_eq!(found, expected(&wanted));
}

#[test]
fn hours_are_whole_numbers_where_they_are_whole() {
    let chicago = household(&[("2031-04-03", "2031-03-08")]);
    let out = plan_of(&doxycycline(), chicago.path(), &["--days", "2"])
        .expect(0)
        .out;
    assert!(
        out.contains("\"hours_since_last\":11,") && out.contains("\"hours_since_last\":12,"),
        "{out}"
    );
    // Lord Howe Island moves its clocks by half an hour, back on 6 April 2031.
    let island = household(&[
        ("2031-04-03", "2031-04-05"),
        ("America/Chicago", "Australia/Lord_Howe"),
    ]);
    let hours: Vec<Option<f64>> = times(&plan(&island, "2"))
        .into_iter()
        .map(|(_, hours)| hours)
        .collect();
    assert_eq!(hours, [None, Some(12.0), Some(12.5), Some(12.0)]);
}

/// The iodide order as the district would renew it for a week: never closer than 24 hours.
#[test]
fn iodide_keeps_its_24_hours_when_clocks_go_forward() {
    let order = File::like(
        "orders/quillmere-iodide-1.toml",
        &[
            ("course-days = 1", "course-days = 7"),
            ("supply-days = 1", "supply-days = 7"),
        ],
    );
    let household = household(&[
        ("2031-04-03", "2031-03-08"),
        ("[\"08:00\", \"20:00\"]", "[\"08:00\"]"),
        ("1989-11-20", "2021-11-20"),
        ("176 lb", "66 lb"),
    ]);
    let plan = plan_of(order.path(), household.path(), &["--days", "3"])
        .expect(0)
        .json();
    let wanted = [
        ("2031-03-08T08:00:00-06:00", None),
        ("2031-03-09T09:00:00-05:00", Some(24.0)),
        ("2031-03-10T09:00:00-05:00", Some(24.0)),
    ];
    assert_eq!(times(&plan), expected(&wanted));
    // Nine years old: 4 teaspoons of 16.25 mg.
    let dose = &list(&plan, "rounds")[0]["doses"][0];
    assert_eq!((&dose["half_tsp"], &dose["mg"]), (&8.into(), &"65".into()));
    // In autumn the wall clock has room.
    let household = File::like(
        "households/alder-1.toml",
        &[
            ("2031-04-03", "2031-11-01"),
            ("[\"08:00\", \"20:00\"]", "[\"08:00\"]"),
        ],
    );
    let autumn = plan_of(order.path(), household.path(), &["--days", "2"])
        .expect(0)
        .json();
    assert_eq!(
        times(&autumn),
        expected(&[
            ("2031-11-01T08:00:00-05:00", None),
            ("2031-11-02T08:00:00-06:00", Some(25.0))
        ])
    );
}

#[test]
fn iodide_is_one_dose_unless_the_order_says_more() {
    let household = household(&[("[\"08:00\", \"20:00\"]", "[\"08:00\"]")]);
    let order = crate::run::demo("orders/quillmere-iodide-1.toml");
    let ran = plan_of(&order, household.path(), &["--days", "7"]).expect(0);
    assert_eq!(list(&ran.json(), "rounds").len(), 1);
    assert!(
        ran.err
            .contains("the course of this order ends on 2031-04-03"),
        "{}",
        ran.err
    );
}

#[test]
fn a_first_dose_does_not_wait_for_a_round() {
    let starting = |time: &str| {
        household(&[(
            "rounds = [",
            &format!("first-dose-at = \"{time}\"\nrounds = ["),
        )])
    };
    // From 15:00 to 20:00 are 5 hours, less than the order's 8: the next is in the morning.
    let found = times(&plan(&starting("15:00"), "2"));
    let wanted = [
        ("2031-04-03T15:00:00-05:00", None),
        ("2031-04-04T08:00:00-05:00", Some(17.0)),
        ("2031-04-04T20:00:00-05:00", Some(12.0)),
    ];
    assert_eq!(found, expected(&wanted));
    // From noon to 20:00 are exactly 8.
    let found = times(&plan(&starting("12:00"), "1"));
    assert_eq!(
        found,
        expected(&[
            ("2031-04-03T12:00:00-05:00", None),
            ("2031-04-03T20:00:00-05:00", Some(8.0))
        ])
    );
    // Before the first round, on it, and after the last.
    assert_eq!(times(&plan(&starting("08:00"), "1")).len(), 2);
    assert_eq!(
        times(&plan(&starting("06:30"), "1"))[1],
        ("2031-04-03T20:00:00-05:00".to_owned(), Some(13.5))
    );
    assert_eq!(
        times(&plan(&starting("23:00"), "2"))[1],
        ("2031-04-04T08:00:00-05:00".to_owned(), Some(9.0))
    );
}

#[test]
fn whoever_begins_on_another_day_has_the_own_course() {
    let person = |name: &str, starts: &str| {
        format!(
            "[[person]]\nname = \"{name}\"\nweight = \"31 lb 4 oz\"\ncleared = true\nstarts = \"{starts}\"\n"
        )
    };
    let head = "time-zone = \"America/Chicago\"\nstart = \"2031-04-03\"\nrounds = [\"08:00\", \"20:00\"]\n";
    let file = File::with(
        [
            head,
            &person("Ana", "2031-04-01"),
            &person("Ben", "2031-04-03"),
            &person("Cleo", "2031-04-04"),
        ]
        .concat(),
    );
    let plan = plan_of(&doxycycline(), file.path(), &[]).expect(0).json();
    verify(&plan);
    // Ana's sixtieth day is 30 May, Ben's 1 June, Cleo's 2 June; the plan begins on 3 April.
    assert_eq!(
        (&plan["days"], &plan["course_end"]),
        (&61.into(), &"2031-06-02".into())
    );
    let rounds = list(&plan, "rounds");
    assert_eq!(rounds.len(), 122);
    let taking = |name: &str| {
        (0..rounds.len())
            .filter(|round| amount(&plan, *round, name).is_some())
            .collect::<Vec<_>>()
    };
    assert_eq!(
        (
            taking("Ana").len(),
            taking("Ben").len(),
            taking("Cleo").len()
        ),
        (116, 120, 120)
    );
    assert_eq!(
        (taking("Ana")[0], taking("Ben")[0], taking("Cleo")[0]),
        (0, 0, 2)
    );
    assert_eq!(rounds[115]["at"], "2031-05-30T20:00:00-05:00");
    // Ana has had a dose twelve hours before the plan begins.
    assert_eq!(rounds[0]["hours_since_last"], 12);
    let over = File::with([head, &person("Ana", "2031-01-01")].concat());
    assert_eq!(
        plan_of(&doxycycline(), over.path(), &[]).refusals(),
        ["course-over"]
    );
}
