//! What a screen shows: plain values, no widget in them.
//!
//! A view is everything a screen needs and nothing it may decide.
//! Numbers that mean something arrive as finished words; ids go back unchanged with what a person did.

use serde::Serialize;

use super::ports::Mirrored;

/// One whole window.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct View {
    /// Words on the strip at the top, for invented or untrusted orders.
    pub strip: Option<String>,
    /// The shelf of a wide window; the entry of the present place is marked.
    pub shelf: Vec<Link>,
    /// Name of the household under the shelf, empty when there is none yet.
    pub household: String,
    /// The word that leads back, "Back", in the language of the screen.
    pub back_word: String,
    /// Where help, cautions and numbers are; at the head of a phone, at the foot of the shelf.
    pub help: Option<Link>,
    pub dark: bool,
    /// Size of text in percent, 100 to 200.
    pub scale: u16,
    /// Pure ink on plain ground.
    pub contrast: bool,
    /// Nothing moves by itself.
    pub still: bool,
    /// A wait that is over, and the way to its page.
    pub banner: Option<Link>,
    /// The window flashes slowly, because a wait is over.
    pub flash: bool,
    /// Something that ends elsewhere is to be noticed within a second.
    pub waiting: bool,
    /// Something is seen through a camera: to be looked at again in a moment.
    pub looking: bool,
    pub screen: Screen,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum Screen {
    Start(StartView),
    Today(TodayView),
    Step(Box<StepView>),
    Reading(ReadingView),
}

impl Screen {
    pub fn step(view: StepView) -> Screen {
        Screen::Step(Box::new(view))
    }
}

/// Underlined words that lead somewhere.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Link {
    pub id: String,
    pub label: String,
    /// The place one is at (shelf only).
    pub here: bool,
}

/// The one main button of a screen.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Button {
    pub id: String,
    pub label: String,
    /// False while something must be waited for: broken outline, no fill, not pressable.
    pub ready: bool,
}

/// One of several answers, large enough for a wet thumb.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Choice {
    pub id: String,
    pub title: String,
    pub detail: String,
    pub picture: Picture,
    /// The usual answer, on ochre.
    pub main: bool,
    /// An answer already chosen (for questions with more than one field).
    pub chosen: bool,
}

/// A drawing by name: a file of `ui/drawings` without its ending, or `soak:NN` with NN percent softened.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Picture(pub String);

/// One spoon (or tablet) of a drawn amount.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Spoon {
    Full,
    Half,
    Quarter,
    ThreeQuarters,
    Tablet,
    Syringe,
}

/// An amount, always in words and drawn.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Amount {
    /// "1½ teaspoons (7.5 mL)".
    pub words: String,
    pub spoons: Vec<Spoon>,
    /// What the spoons say in words, "1 full" / "1 half"; one entry for each kind of spoon.
    pub parts: Vec<AmountPart>,
    /// A further line, such as the mark of a dose syringe; may be empty.
    pub hint: String,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct AmountPart {
    pub spoon: Spoon,
    pub words: String,
}

/// Where one is in a round.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Stitch {
    Done,
    Now,
    ToCome,
}

/// A calm warning: bar, picture, what it is, what to do next.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Note {
    pub title: String,
    pub body: String,
    pub picture: Option<Picture>,
}

/// A glance at the step that follows a wait.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Next {
    pub eyebrow: String,
    pub title: String,
    pub picture: Picture,
}

/// The first screen.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct StartView {
    pub name: String,
    pub motto: String,
    pub question: String,
    pub choices: Vec<Choice>,
    pub note: Option<Note>,
    pub ways: Vec<Link>,
    pub footer: String,
}

/// The next round, who takes what, and the bowls that stand covered.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct TodayView {
    pub household: String,
    /// "Thursday, April 3 · day 1 of 60".
    pub day: String,
    /// "Night round, 8:00 p.m."
    pub title: String,
    /// "Start at 7:35 p.m. It takes 25 minutes."
    pub start: String,
    pub note: Option<Note>,
    pub rows: Vec<TodayRow>,
    pub bowls: Vec<BowlCard>,
    pub main: Button,
    pub ways: Vec<Link>,
    /// Wide windows only: how long the bowls keep.
    pub bars_title: String,
    pub ticks: Vec<Tick>,
    pub bars: Vec<BowlBar>,
    /// Wide windows only: what was logged last.
    pub log_title: String,
    pub log: Vec<LogRow>,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct TodayRow {
    pub id: String,
    pub name: String,
    /// "new bowl", "covered bowl", "swallows whole", "ask a nurse first".
    pub from: String,
    pub amount: String,
    pub spoons: Vec<Spoon>,
    /// Held or stopped: shown with the upturned bowl, no amount.
    pub held: bool,
    pub picture: Picture,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct BowlCard {
    pub title: String,
    pub lines: Vec<String>,
    pub picture: Picture,
}

/// Position along the bar picture in thousandths of its width.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Tick {
    pub at: u16,
    pub label: String,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct BowlBar {
    pub name: String,
    pub words: String,
    /// Start and end in thousandths of the picture's width.
    pub from: u16,
    pub to: u16,
    pub planned: bool,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct LogRow {
    pub time: String,
    pub name: String,
    pub words: String,
}

/// One step of a round, or one question with its answers.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct StepView {
    /// "Step 2 of 9"; empty outside a round.
    pub place: String,
    pub hem: Vec<Stitch>,
    /// The stage; none where the choices carry the pictures.
    pub picture: Option<Picture>,
    /// What the camera sees, in place of the stage.
    #[serde(skip)]
    pub seen: Option<Mirrored>,
    /// A small picture beside the title instead of a stage.
    pub small_picture: Option<Picture>,
    pub eyebrow: String,
    pub title: String,
    /// Large line, such as "4 min 40 s left"; may be empty.
    pub large: String,
    pub body: Vec<String>,
    pub amount: Option<Amount>,
    /// One sentence below the amount; may be empty.
    pub after: String,
    pub note: Option<Note>,
    pub choices: Vec<Choice>,
    /// A list of things, as on the gather step: one line each.
    pub things: Vec<Thing>,
    /// Something to be typed.
    pub entry: Option<Entry>,
    pub next: Option<Next>,
    pub main: Option<Button>,
    /// Other ways out, underlined, under the main button.
    pub ways: Vec<Link>,
    /// Ways inside the body, such as "Why this much?".
    pub asides: Vec<Link>,
    pub back: bool,
    /// The screen may not be left until it is answered.
    pub in_the_way: bool,
}

/// What is typed on a screen: words from a keyboard, or numbers on the screen's own pad.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Entry {
    /// The units to choose from; `here` marks the chosen one.
    pub units: Vec<Link>,
    pub fields: Vec<Field>,
    pub pad: Option<Pad>,
    /// What the numbers come to.
    pub result: Option<Note>,
}

/// One line to type into.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Field {
    pub id: String,
    pub label: String,
    /// As typed so far.
    pub value: String,
    pub unit: String,
    /// Label, value and unit as they are read out.
    pub spoken: String,
    /// Where the next key goes.
    pub active: bool,
    /// Words from a keyboard; else a number from the pad.
    pub text: bool,
    /// What is wrong with it, said above it; empty where nothing is.
    pub problem: String,
}

/// The number pad: what its odd keys are called.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Pad {
    /// None where only whole numbers make sense.
    pub point: Option<String>,
    pub delete: String,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Thing {
    pub words: String,
    pub detail: String,
}

/// Words to read: cautions, contacts, the order, the record.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ReadingView {
    pub title: String,
    pub lead: String,
    pub picture: Option<Picture>,
    pub blocks: Vec<Block>,
    pub main: Option<Button>,
    pub ways: Vec<Link>,
    pub back: bool,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum Block {
    Heading {
        words: String,
    },
    Words {
        words: String,
    },
    Note(Note),
    /// Lettered or numbered line.
    Item {
        mark: String,
        words: String,
        detail: String,
    },
    /// A line of a list with words at both ends.
    Row {
        left: String,
        middle: String,
        right: String,
    },
    /// One of a few, side by side; the chosen one is marked.
    Choice {
        label: String,
        options: Vec<Link>,
    },
    /// Bowls over time, with a line at each round.
    Bars {
        bars: Vec<BowlBar>,
        ticks: Vec<Tick>,
    },
    Action {
        id: String,
        label: String,
        detail: String,
    },
    /// Somebody with the dose in words and drawn, or why there is none; and what else there is to know.
    Person {
        row: TodayRow,
        detail: String,
    },
}

/// What a person did. Ids are those of the view.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum Intent {
    /// Pressed the main button, a choice, a link or an action.
    Press {
        id: String,
    },
    Back,
    /// Words in a field, whole, after each letter.
    Type {
        id: String,
        text: String,
    },
    /// Enter in a field: the main button, when it is ready.
    Accept,
    /// Time passed, or the window came to the front.
    Tick,
}
