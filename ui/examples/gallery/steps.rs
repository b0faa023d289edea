//! The steps of a round.

use crate::parts::{amount, choice, links, main_button, picture, step};
use hearthdose_ui::vm::view::{Button, Choice, Next, StepView, Stitch, Thing};

pub fn gather() -> StepView {
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

pub fn soak() -> StepView {
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

pub fn crush() -> StepView {
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

pub fn smooth() -> StepView {
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

pub fn stir() -> StepView {
    StepView {
        picture: Some(picture("stir")),
        eyebrow: "Bowl 3".into(),
        body: vec!["The medicine sinks. Stir again before each spoon.".into()],
        main: main_button("Stirred"),
        ..step(5, "Stir well.")
    }
}

pub fn measure() -> StepView {
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

pub fn measure_four() -> StepView {
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

pub fn measure_long() -> StepView {
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

pub fn food() -> StepView {
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

pub fn give() -> StepView {
    StepView {
        picture: Some(picture("give")),
        eyebrow: "The whole bowl, right away".into(),
        body: vec!["Small spoons. A sip of water after.".into()],
        main: main_button("Wren has had it"),
        ..step(8, "Give it to Wren.")
    }
}

pub fn outcome() -> StepView {
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

pub fn cover() -> StepView {
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
