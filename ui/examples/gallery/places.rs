//! Everything outside of the steps of a round.

use crate::parts::{choice, links, main_button, person, picture, step};
use hearthdose_ui::vm::view::{
    Block, BowlBar, BowlCard, Button, LogRow, Note, ReadingView, Spoon, StartView, StepView, Thing,
    Tick, TodayView,
};

pub fn start() -> StartView {
    StartView {
        name: "Hearthdose".into(),
        motto: "From the order to the last spoon".into(),
        question: "What do you have?".into(),
        choices: vec![
            choice(
                true,
                "cover-label",
                "Start with an order",
                "A file from your health district",
            ),
            choice(
                false,
                "show-code",
                "Receive a code",
                "From a neighbor, a helper or a site",
            ),
            choice(
                false,
                "stir",
                "Practice first",
                "With plain water. Nothing is saved.",
            ),
        ],
        note: None,
        ways: links(&["Language: English", "Larger text"]),
        footer: "This does not replace your clinician.".into(),
    }
}

pub fn today(many: bool) -> TodayView {
    let mut rows = vec![
        person(
            "Sunniva",
            "new bowl",
            "4 teaspoons (20 mL)",
            4,
            0,
            "soak-start",
        ),
        person(
            "Bram",
            "new bowl",
            "2 teaspoons (10 mL)",
            2,
            0,
            "soak-start",
        ),
        person(
            "Pim",
            "covered bowl",
            "1 teaspoon (5 mL)",
            1,
            0,
            "cover-label",
        ),
    ];
    let mut odile = person(
        "Odile",
        "swallows whole",
        "1 whole tablet",
        0,
        0,
        "whole-tablet",
    );
    odile.spoons = vec![Spoon::Tablet];
    rows.push(odile);
    if many {
        rows.push(person(
            "Lio",
            "ask a nurse first",
            "No dose yet. Call 555-0142.",
            0,
            0,
            "hold",
        ));
        rows.push(person(
            "Wren",
            "new bowl",
            "1½ teaspoons (7.5 mL)",
            1,
            1,
            "soak-start",
        ));
        rows.push(person(
            "Maria-Esperanza",
            "covered bowl",
            "3½ teaspoons (17.5 mL)",
            3,
            1,
            "cover-label",
        ));
    }
    TodayView {
        household: "Tarn household".into(),
        day: "Thursday, April 3 · day 1 of 60".into(),
        title: "Night round, 8:00 p.m.".into(),
        start: "Start at 7:35 p.m. It takes 25 minutes.".into(),
        note: many.then(|| Note {
            title: "Weigh Pim this week".into(),
            body: "Pim was weighed 15 days ago. Babies grow fast. Tonight’s dose stays as it is."
                .into(),
            picture: Some(picture("weigh-child")),
        }),
        rows,
        bowls: vec![BowlCard {
            title: "Covered bowl".into(),
            lines: vec![
                "1 teaspoon, for Pim.".into(),
                "Good until Friday, 7:48 a.m.".into(),
            ],
            picture: picture("cover-label"),
        }],
        main: Button {
            id: "main".into(),
            label: "Set the table".into(),
            ready: true,
        },
        ways: links(&["Weigh", "Show code", "Record", "Order"]),
        bars_title: "How long the bowls keep".into(),
        ticks: vec![
            Tick {
                at: 70,
                label: "8 a.m.".into(),
            },
            Tick {
                at: 500,
                label: "8 p.m.".into(),
            },
            Tick {
                at: 930,
                label: "8 a.m.".into(),
            },
        ],
        bars: vec![
            BowlBar {
                name: "Bowl 2".into(),
                words: "Pim tonight".into(),
                from: 62,
                to: 920,
                planned: false,
            },
            BowlBar {
                name: "Bowl 4".into(),
                words: "Bram, Friday morning".into(),
                from: 492,
                to: 1000,
                planned: true,
            },
        ],
        log_title: "This morning".into(),
        log: [
            ("8:02 a.m.", "Odile", "all of it"),
            ("8:04 a.m.", "Bram", "all of it"),
            ("8:06 a.m.", "Pim", "some of it"),
            ("8:11 a.m.", "Sunniva", "all of it"),
        ]
        .iter()
        .map(|(time, name, words)| LogRow {
            time: (*time).into(),
            name: (*name).into(),
            words: (*words).into(),
        })
        .collect(),
    }
}

pub fn throw() -> StepView {
    StepView {
        picture: Some(picture("throw-away")),
        eyebrow: "Bowl 2, made Thursday, 7:48 a.m.".into(),
        body: vec!["It has stood for a day and does not keep longer. Nobody may drink it.".into()],
        main: main_button("It is empty"),
        ways: Vec::new(),
        back: false,
        in_the_way: true,
        ..step(0, "Throw bowl 2 away.")
    }
}

pub fn hold() -> StepView {
    StepView {
        place: "Questions for Lio".into(),
        picture: Some(picture("hold")),
        body: vec![
            "Lio is 3 weeks old. For babies under one month, a clinician chooses the dose.".into(),
        ],
        note: Some(Note {
            title: "No dose for Lio yet".into(),
            body: "Call the Quillmere nurse line, day or night: 555-0142.".into(),
            picture: None,
        }),
        things: vec![
            Thing {
                words: "Say: “Baby, 3 weeks, 8 lb 2 oz.”".into(),
                detail: "Doxycycline order, revision 1".into(),
            },
            Thing {
                words: "Marit and Wren can go on tonight.".into(),
                detail: String::new(),
            },
        ],
        main: main_button("Call 555-0142"),
        ways: links(&["Go on with the others", "I have an answer"]),
        ..step(0, "Wait with Lio’s bowl.")
    }
}

pub fn wrong() -> StepView {
    StepView {
        place: "Step 5 of 9".into(),
        body: vec!["Nothing is lost. Say what it was.".into()],
        choices: vec![
            choice(
                false,
                "spilled-bowl",
                "A bowl spilled",
                "All of it or a part",
            ),
            choice(false, "dropped-dose", "A tablet broke or fell", ""),
            choice(
                false,
                "measure",
                "It ran short",
                "There was not enough for the last person",
            ),
            choice(
                false,
                "allergy-stop",
                "Somebody feels sick",
                "A rash, swelling, trouble breathing",
            ),
        ],
        ways: links(&["Nothing, go back"]),
        ..step(0, "What went wrong?")
    }
}

pub fn cautions() -> ReadingView {
    let item = |mark: &str, words: &str, detail: &str| Block::Item {
        mark: mark.into(),
        words: words.into(),
        detail: detail.into(),
    };
    ReadingView {
        title: "Be careful".into(),
        lead: "From the Quillmere order, revision 1".into(),
        picture: Some(picture("sun-caution")),
        blocks: vec![
            Block::Note(Note {
                title: "Call 555-0111 right away".into(),
                body: "Hard to breathe, swollen face or lips, hives all over. Give no more.".into(),
                picture: Some(picture("allergy-stop")),
            }),
            item("1", "Sun burns faster.", "Hat, long sleeves, shade."),
            item(
                "2",
                "Drink a full glass with a whole tablet.",
                "Then sit or stand for 30 minutes.",
            ),
            item(
                "3",
                "Milk is fine.",
                "Keep iron and stomach tablets 2 hours apart.",
            ),
            Block::Words {
                words: "This does not replace your clinician.".into(),
            },
        ],
        main: main_button("Call 555-0142"),
        ways: Vec::new(),
        back: true,
    }
}

pub fn contacts() -> ReadingView {
    let action = |id: &str, label: &str, detail: &str| Block::Action {
        id: id.into(),
        label: label.into(),
        detail: detail.into(),
    };
    ReadingView {
        title: "Who to call".into(),
        lead: String::new(),
        picture: Some(picture("ask-clinician")),
        blocks: vec![
            action(
                "emergency",
                "Emergency: 555-0111",
                "Hard to breathe, swollen face",
            ),
            action("poison", "Poison help: 555-0123", "Somebody took too much"),
            action(
                "questions",
                "Quillmere nurse line: 555-0142",
                "Day and night",
            ),
            action(
                "refill",
                "More tablets: 555-0150",
                "Market Hall, 9 a.m. to 6 p.m.",
            ),
            Block::Heading {
                words: "Before you call".into(),
            },
            Block::Words {
                words: "Have the name, the weight and the time of the last dose at hand.".into(),
            },
        ],
        main: None,
        ways: links(&["Be careful", "How to make a bowl"]),
        back: true,
    }
}

pub fn order() -> ReadingView {
    let row = |left: &str, middle: &str, right: &str| Block::Row {
        left: left.into(),
        middle: middle.into(),
        right: right.into(),
    };
    ReadingView {
        title: "Doxycycline after the Quillmere release".into(),
        lead: "Quillmere Health District, April 2. Revision 1.".into(),
        picture: Some(picture("code:QUILLMERE-DOXY 1 6F2A 90C4 11DE 7B35 E8A0")),
        blocks: vec![
            Block::Words {
                words: "Twice a day for 60 days. Tablets for 10 days are handed out now.".into(),
            },
            Block::Heading {
                words: "How much".into(),
            },
            row("up to 12 lb", "", "½ teaspoon (2.5 mL)"),
            row("13 lb to 25 lb", "", "1 teaspoon (5 mL)"),
            row("26 lb to 38 lb", "", "1½ teaspoons (7.5 mL)"),
            row("39 lb to 50 lb", "", "2 teaspoons (10 mL)"),
            row("51 lb to 63 lb", "", "2½ teaspoons (12.5 mL)"),
            row(
                "89 lb and more, adults",
                "",
                "4 teaspoons (20 mL) or 1 tablet",
            ),
            Block::Heading {
                words: "Record".into(),
            },
            row("8:02 a.m.", "Odile", "all of it"),
            row("8:06 a.m.", "Pim", "some of it"),
        ],
        main: main_button("Print this"),
        ways: links(&["Compare with the last one", "Check the fingerprint"]),
        back: true,
    }
}
