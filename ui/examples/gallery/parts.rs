//! Small pieces that several samples are made of.

use hearthdose_ui::vm::view::{
    Amount, AmountPart, Button, Choice, Link, Picture, Spoon, StepView, Stitch, TodayRow,
};

pub fn link(label: &str) -> Link {
    Link {
        id: label.to_lowercase().replace(' ', "-"),
        label: label.into(),
        here: false,
    }
}

pub fn links(labels: &[&str]) -> Vec<Link> {
    labels.iter().map(|label| link(label)).collect()
}

pub fn main_button(label: &str) -> Option<Button> {
    Some(Button {
        id: "main".into(),
        label: label.into(),
        ready: true,
    })
}

pub fn picture(name: &str) -> Picture {
    Picture(name.into())
}

pub fn choice(main: bool, name: &str, title: &str, detail: &str) -> Choice {
    Choice {
        id: title.to_lowercase().replace(' ', "-"),
        title: title.into(),
        detail: detail.into(),
        picture: picture(name),
        main,
        chosen: false,
    }
}

pub fn step(now: usize, title: &str) -> StepView {
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

pub fn amount(words: &str, full: usize, half: usize, hint: &str) -> Option<Amount> {
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

pub fn person(
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
