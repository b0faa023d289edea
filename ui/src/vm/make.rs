//! Short ways to write views.

use super::view::{Block, Button, Choice, Link, Note, Picture, ReadingView, StepView};

pub(super) fn picture(name: &str) -> Picture {
    Picture(name.to_owned())
}

impl Link {
    pub(super) fn to(id: &str, label: String) -> Link {
        Link {
            id: id.to_owned(),
            label,
            here: false,
        }
    }
}

impl Button {
    pub(super) fn ready(id: &str, label: String) -> Button {
        Button {
            id: id.to_owned(),
            label,
            ready: true,
        }
    }

    pub(super) fn waiting(label: String) -> Button {
        Button {
            id: "wait".to_owned(),
            label,
            ready: false,
        }
    }
}

impl Choice {
    pub(super) fn new(id: &str, title: String, detail: String, drawing: &str) -> Choice {
        Choice {
            id: id.to_owned(),
            title,
            detail,
            picture: picture(drawing),
            main: false,
            chosen: false,
        }
    }

    pub(super) fn usual(mut self) -> Choice {
        self.main = true;
        self
    }
}

impl Note {
    pub(super) fn new(title: String, body: String, drawing: Option<&str>) -> Note {
        Note {
            title,
            body,
            picture: drawing.map(picture),
        }
    }
}

impl StepView {
    pub(super) fn titled(title: String) -> StepView {
        StepView {
            place: String::new(),
            hem: Vec::new(),
            picture: None,
            seen: None,
            small_picture: None,
            eyebrow: String::new(),
            title,
            large: String::new(),
            body: Vec::new(),
            amount: None,
            after: String::new(),
            note: None,
            choices: Vec::new(),
            things: Vec::new(),
            entry: None,
            next: None,
            main: None,
            ways: Vec::new(),
            asides: Vec::new(),
            back: true,
            in_the_way: false,
        }
    }
}

impl ReadingView {
    pub(super) fn titled(title: String) -> ReadingView {
        ReadingView {
            title,
            lead: String::new(),
            picture: None,
            blocks: Vec::new(),
            main: None,
            ways: Vec::new(),
            back: true,
        }
    }
}

/// A line with a second one below it.
pub(super) fn item(words: String, detail: String) -> Block {
    Block::Item {
        mark: String::new(),
        words,
        detail,
    }
}

pub(super) fn heading(words: String) -> Block {
    Block::Heading { words }
}

pub(super) fn paragraph(words: String) -> Block {
    Block::Words { words }
}

/// A number of the pad as a line of the screen.
pub(super) fn number_field(
    index: usize,
    label: String,
    typing: &super::typing::Typing,
    unit: String,
) -> super::view::Field {
    let value = typing.get(index).to_owned();
    let parts = [label.as_str(), value.as_str(), unit.as_str()];
    let spoken: Vec<&str> = parts.into_iter().filter(|part| !part.is_empty()).collect();
    super::view::Field {
        id: format!("field:{index}"),
        spoken: spoken.join(" "),
        active: typing.is_active(index),
        text: false,
        problem: String::new(),
        label,
        value,
        unit,
    }
}
