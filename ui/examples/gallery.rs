//! Draws sample views of every kind into a directory: `cargo run -p hearthdose-ui --example gallery -- DIR`.
//!
//! All names, places and numbers are invented. The samples only show how a screen looks; no rule made them.

use hearthdose_ui::headless::{Headless, HeadlessError};
use hearthdose_ui::vm::view::{
    Amount, AmountPart, Block, BowlBar, BowlCard, Button, Choice, Link, LogRow, Next, Note,
    Picture, ReadingView, Screen, Spoon, StartView, StepView, Stitch, Thing, Tick, TodayRow,
    TodayView, View,
};
use std::path::PathBuf;

fn main() -> Result<(), HeadlessError> {
    let dir = PathBuf::from(
        std::env::args()
            .nth(1)
            .unwrap_or_else(|| "gallery".to_owned()),
    );
    let only = std::env::args().nth(2).unwrap_or_default();
    std::fs::create_dir_all(&dir).map_err(image_error)?;
    let headless = Headless::new()?;
    let save = |name: &str, view: &View, width: u32, height: u32| -> Result<(), HeadlessError> {
        if !name.contains(&only) {
            return Ok(());
        }
        headless
            .render(view, width, height)
            .save_png(&dir.join(format!("{name}.png")))
    };
    for (name, screen) in screens() {
        let view = view(screen);
        save(&format!("{name}-390"), &view, 390, 844)?;
        save(&format!("{name}-360"), &view, 360, 640)?;
        save(&format!("{name}-1180"), &view, 1180, 820)?;
        let mut dark = view.clone();
        dark.dark = true;
        save(&format!("{name}-dark"), &dark, 390, 844)?;
        save(&format!("{name}-dark-1180"), &dark, 1180, 820)?;
        let mut big = view.clone();
        big.scale = 200;
        save(&format!("{name}-200"), &big, 390, 844)?;
        save(&format!("{name}-200-all"), &big, 390, 2600)?;
        save(&format!("{name}-200-360"), &big, 360, 640)?;
        save(&format!("{name}-200-1180"), &big, 1180, 820)?;
        let mut middle = view.clone();
        middle.scale = 140;
        save(&format!("{name}-140"), &middle, 390, 844)?;
        save(&format!("{name}-tablet"), &view, 768, 1024)?;
    }
    Ok(())
}

fn image_error(error: std::io::Error) -> HeadlessError {
    HeadlessError::Write(error.into())
}

fn view(screen: Screen) -> View {
    View {
        strip: Some("Invented order. Practice only.".into()),
        shelf: [
            "Today",
            "People",
            "Bowls",
            "Order",
            "Record",
            "Show code",
            "Be careful",
        ]
        .iter()
        .map(|word| Link {
            here: *word == "Today",
            ..link(word)
        })
        .collect(),
        household: "Tarn household\n4 people".into(),
        back_word: "Back".into(),
        help: Some(link("Help")),
        dark: false,
        scale: 100,
        screen,
    }
}

fn link(label: &str) -> Link {
    Link {
        id: label.to_lowercase().replace(' ', "-"),
        label: label.into(),
        here: false,
    }
}

fn links(labels: &[&str]) -> Vec<Link> {
    labels.iter().map(|label| link(label)).collect()
}

fn main_button(label: &str) -> Option<Button> {
    Some(Button {
        id: "main".into(),
        label: label.into(),
        ready: true,
    })
}

fn picture(name: &str) -> Picture {
    Picture(name.into())
}

fn choice(main: bool, name: &str, title: &str, detail: &str) -> Choice {
    Choice {
        id: title.to_lowercase().replace(' ', "-"),
        title: title.into(),
        detail: detail.into(),
        picture: picture(name),
        main,
        chosen: false,
    }
}

fn step(now: usize, title: &str) -> StepView {
    StepView {
        place: if now == 0 {
            String::new()
        } else {
            format!("Step {now} of 9")
        },
        hem: (1..10)
            .filter(|_| now > 0)
            .map(|at| match at.cmp(&now) {
                std::cmp::Ordering::Less => Stitch::Done,
                std::cmp::Ordering::Equal => Stitch::Now,
                std::cmp::Ordering::Greater => Stitch::ToCome,
            })
            .collect(),
        picture: None,
        small_picture: None,
        eyebrow: String::new(),
        title: title.into(),
        large: String::new(),
        body: Vec::new(),
        amount: None,
        note: None,
        choices: Vec::new(),
        things: Vec::new(),
        next: None,
        main: None,
        ways: links(&["Something went wrong"]),
        asides: Vec::new(),
        back: true,
        in_the_way: false,
    }
}

fn amount(words: &str, full: usize, half: usize, hint: &str) -> Option<Amount> {
    let mut spoons = vec![Spoon::Full; full];
    spoons.extend(vec![Spoon::Half; half]);
    let mut parts = Vec::new();
    if full > 0 {
        parts.push(AmountPart {
            spoon: Spoon::Full,
            words: format!("{full} full"),
        });
    }
    if half > 0 {
        parts.push(AmountPart {
            spoon: Spoon::Half,
            words: format!("{half} half"),
        });
    }
    Some(Amount {
        words: words.into(),
        spoons,
        parts,
        hint: hint.into(),
    })
}

fn person(
    name: &str,
    from: &str,
    amount: &str,
    full: usize,
    half: usize,
    drawing: &str,
) -> TodayRow {
    let mut spoons = vec![Spoon::Full; full];
    spoons.extend(vec![Spoon::Half; half]);
    TodayRow {
        id: name.to_lowercase(),
        name: name.into(),
        from: from.into(),
        amount: amount.into(),
        spoons,
        held: drawing == "hold",
        picture: picture(drawing),
    }
}

fn screens() -> Vec<(&'static str, Screen)> {
    vec![
        ("a-start", Screen::Start(start())),
        ("b-today", Screen::Today(today(false))),
        ("b-today-many", Screen::Today(today(true))),
        ("c-gather", Screen::Step(gather())),
        ("d-soak", Screen::Step(soak())),
        ("e-crush", Screen::Step(crush())),
        ("f-smooth", Screen::Step(smooth())),
        ("g-stir", Screen::Step(stir())),
        ("h-measure", Screen::Step(measure())),
        ("h-measure-four", Screen::Step(measure_four())),
        ("h-measure-long", Screen::Step(measure_long())),
        ("i-food", Screen::Step(food())),
        ("j-give", Screen::Step(give())),
        ("k-outcome", Screen::Step(outcome())),
        ("l-cover", Screen::Step(cover())),
        ("m-throw", Screen::Step(throw())),
        ("n-hold", Screen::Step(hold())),
        ("o-wrong", Screen::Step(wrong())),
        ("p-cautions", Screen::Reading(cautions())),
        ("q-contacts", Screen::Reading(contacts())),
        ("r-order", Screen::Reading(order())),
    ]
}

fn start() -> StartView {
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

fn today(many: bool) -> TodayView {
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

fn gather() -> StepView {
    StepView {
        picture: Some(picture("gather")),
        body: vec!["Wash your hands and wipe the table.".into()],
        things: vec![
            Thing {
                words: "The bottle of tablets".into(),
                detail: "It says: doxycycline, 100 mg, tablet".into(),
            },
            Thing {
                words: "A mixing bowl and a clay bowl for each person".into(),
                detail: String::new(),
            },
            Thing {
                words: "A metal spoon and a measuring teaspoon".into(),
                detail: "5 mL".into(),
            },
            Thing {
                words: "Clean drinking water".into(),
                detail: "8 teaspoons".into(),
            },
        ],
        main: main_button("Everything is here"),
        ways: links(&["The label says something else"]),
        ..step(1, "Set the table.")
    }
}

fn soak() -> StepView {
    StepView {
        picture: Some(picture("soak:53")),
        eyebrow: "Bowls 3 and 4 soak together".into(),
        large: "4 min 40 s left".into(),
        body: vec!["Soft at 7:48 p.m. You can put the phone away. It will ring.".into()],
        next: Some(Next {
            eyebrow: "Next".into(),
            title: "Crush with the back of a spoon".into(),
            picture: picture("crush"),
        }),
        main: Some(Button {
            id: "main".into(),
            label: "Crush at 7:48 p.m.".into(),
            ready: false,
        }),
        ways: links(&["A bowl spilled"]),
        ..step(2, "Let the tablets soften.")
    }
}

fn crush() -> StepView {
    StepView {
        picture: Some(picture("crush")),
        eyebrow: "Bowls 3 and 4".into(),
        body: vec![
            "Press with the back of the spoon.".into(),
            "Go on until you see no pieces.".into(),
        ],
        main: main_button("I have crushed it"),
        ..step(3, "Crush the soft tablets.")
    }
}

fn smooth() -> StepView {
    StepView {
        picture: Some(picture("stir")),
        body: vec!["Look into bowls 3 and 4.".into()],
        choices: vec![
            choice(true, "smooth", "No pieces left", "It is smooth"),
            choice(false, "lumps", "I still see pieces", "Crush once more"),
        ],
        ..step(4, "Is the mixture smooth?")
    }
}

fn stir() -> StepView {
    StepView {
        picture: Some(picture("stir")),
        eyebrow: "Bowl 3".into(),
        body: vec!["The medicine sinks. Stir again before each spoon.".into()],
        main: main_button("Stirred"),
        ..step(5, "Stir well.")
    }
}

fn measure() -> StepView {
    StepView {
        picture: Some(picture("measure")),
        eyebrow: "From bowl 3 into Wren’s bowl".into(),
        amount: amount(
            "1½ teaspoons (7.5 mL)",
            1,
            1,
            "With a dose syringe: fill it to 7.5.",
        ),
        main: main_button("It is in Wren’s bowl"),
        asides: links(&["Why this much?"]),
        ..step(6, "Measure for Wren.")
    }
}

fn measure_four() -> StepView {
    StepView {
        eyebrow: "From bowl 3 into Sunniva’s bowl".into(),
        amount: amount("4 teaspoons (20 mL)", 4, 0, ""),
        main: main_button("It is in Sunniva’s bowl"),
        ..StepView {
            title: "Measure for Sunniva.".into(),
            ..measure()
        }
    }
}

fn measure_long() -> StepView {
    let mut long = step(6, "Measure for Bartholomew-Maximilian.");
    long.place = "Step 31 of 42".into();
    long.hem = (1..43)
        .map(|at| {
            if at < 31 {
                Stitch::Done
            } else if at == 31 {
                Stitch::Now
            } else {
                Stitch::ToCome
            }
        })
        .collect();
    StepView {
        picture: Some(picture("measure")),
        eyebrow: "From bowl 11 into Bartholomew-Maximilian’s bowl".into(),
        amount: amount(
            "3½ teaspoons (17.5 mL)",
            3,
            1,
            "With a dose syringe: fill it to 17.5.",
        ),
        main: main_button("It is in Bartholomew-Maximilian’s bowl"),
        asides: links(&["Why this much?"]),
        ways: links(&["Something went wrong", "This bowl ran short"]),
        ..long
    }
}

fn food() -> StepView {
    StepView {
        small_picture: Some(picture("add-milk")),
        body: vec!["One of these hides the taste. Wren must not have nuts.".into()],
        choices: vec![
            choice(true, "add-milk", "Milk", "3 teaspoons or more"),
            choice(
                false,
                "add-sugar",
                "Apple juice",
                "3 teaspoons, with 4 of sugar",
            ),
            Choice {
                chosen: true,
                ..choice(false, "add-pudding", "Pudding", "3 teaspoons or more")
            },
        ],
        ways: links(&["Nothing, just as it is"]),
        ..step(7, "What goes into Wren’s bowl?")
    }
}

fn give() -> StepView {
    StepView {
        picture: Some(picture("give")),
        eyebrow: "The whole bowl, right away".into(),
        body: vec!["Small spoons. A sip of water after.".into()],
        main: main_button("Wren has had it"),
        ..step(8, "Give it to Wren.")
    }
}

fn outcome() -> StepView {
    StepView {
        small_picture: Some(picture("give")),
        body: vec!["Every answer is fine. We write it down and tell you what to do.".into()],
        choices: vec![
            choice(true, "all-of-it", "All of it", "The bowl is empty"),
            choice(
                false,
                "some-of-it",
                "Some of it",
                "Part was left or spilled",
            ),
            choice(
                false,
                "came-back-up",
                "It came back up",
                "All or part was vomited",
            ),
            choice(
                false,
                "would-not-take",
                "Would not take it",
                "Spat out or refused",
            ),
        ],
        ways: links(&["I will answer later"]),
        ..step(8, "Did Bram get all of it?")
    }
}

fn cover() -> StepView {
    StepView {
        picture: Some(picture("cover-label")),
        eyebrow: "Bowl 4".into(),
        body: vec![
            "Write on the tag: for Bram, 2 teaspoons.".into(),
            "Good until Friday, 7:48 p.m. Keep it on a high shelf.".into(),
        ],
        main: main_button("It is covered"),
        ..step(9, "Cover it and label it.")
    }
}

fn throw() -> StepView {
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

fn hold() -> StepView {
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

fn wrong() -> StepView {
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

fn cautions() -> ReadingView {
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

fn contacts() -> ReadingView {
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

fn order() -> ReadingView {
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
