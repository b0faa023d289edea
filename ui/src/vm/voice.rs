//! Reading a screen aloud, for those who cannot read it; nothing is read before somebody asks.

use super::Kitchen;
use super::ports::Voice;
use super::view::{Intent, Link, Note, Screen, StepView, TodayView};
use hearthdose_core::time::Now;

/// The id of the way that reads a screen aloud.
const READ: &str = "read-aloud";

impl Kitchen {
    /// Names what speaks on this device.
    pub fn give_voice(&mut self, voice: Box<dyn Voice>) {
        self.voice = Some(voice);
    }

    /// The same screen, with the way to hear it where something speaks.
    pub(super) fn with_reading_aloud(&self, mut screen: Screen) -> Screen {
        if self.voice.is_some() {
            let way = Link::to(READ, self.words.say(READ));
            match &mut screen {
                Screen::Step(step) => step.ways.push(way),
                // First, where it is seen without scrolling.
                Screen::Today(today) => today.ways.insert(0, way),
                Screen::Start(_) | Screen::Reading(_) => {}
            }
        }
        screen
    }

    /// Takes the wish to hear this screen; anything else that is done ends what is being said.
    pub(super) fn takes_voice(&mut self, intent: &Intent, now: &Now) -> bool {
        let asked = matches!(intent, Intent::Press { id } if id == READ);
        if *intent == Intent::Tick {
            self.hear_whether_said();
        }
        if asked {
            self.read_aloud(now);
        } else if *intent != Intent::Tick
            && let Some(voice) = &mut self.voice
        {
            voice.stop();
            self.voicing = false;
        }
        asked
    }

    fn read_aloud(&mut self, now: &Now) {
        let words = match self.screen(now) {
            Screen::Step(step) => step_words(&step),
            Screen::Today(today) => today_words(&today),
            Screen::Start(_) | Screen::Reading(_) => return,
        };
        let language = self.words.language();
        let said = match &mut self.voice {
            Some(voice) => voice.say(&words, language),
            None => return,
        };
        self.voicing = said;
        if !said {
            self.tell_of_no_voice();
        }
    }

    /// The voice may have to be started first; that it cannot be is told when it is known.
    fn hear_whether_said(&mut self) {
        let said = self.voice.as_ref().map(|voice| voice.said());
        if let (true, Some(Some(said))) = (self.voicing, said) {
            self.voicing = false;
            if !said {
                self.tell_of_no_voice();
            }
        }
    }

    fn tell_of_no_voice(&mut self) {
        // What has to be read first stays in front.
        if self.telling.is_none() {
            self.tell("told-no-voice", "told-no-voice-body");
        }
    }
}

/// A step from top to bottom: what to do, how much, what to mind, the answers.
fn step_words(step: &StepView) -> String {
    let mut said = vec![&step.eyebrow, &step.title, &step.large];
    said.extend(&step.body);
    if let Some(amount) = &step.amount {
        said.push(&amount.words);
        said.extend(amount.parts.iter().map(|part| &part.words));
        said.push(&amount.hint);
    }
    said.push(&step.after);
    said.extend(step.note.iter().flat_map(note_words));
    for thing in &step.things {
        said.extend([&thing.words, &thing.detail]);
    }
    for choice in &step.choices {
        said.extend([&choice.title, &choice.detail]);
    }
    lines(&said)
}

/// The next round, and who takes how much.
fn today_words(today: &TodayView) -> String {
    let mut said = vec![&today.day, &today.title, &today.start];
    said.extend(today.note.iter().flat_map(note_words));
    let mut text = lines(&said);
    for row in &today.rows {
        text.push('\n');
        text.push_str(
            &[&row.name, &row.from, &row.amount]
                .map(String::as_str)
                .join(", "),
        );
    }
    text
}

fn note_words(note: &Note) -> [&String; 2] {
    [&note.title, &note.body]
}

/// One line for each thing said, so that the voice pauses between them.
fn lines(said: &[&String]) -> String {
    let filled = said.iter().filter(|words| !words.is_empty());
    filled
        .map(|words| words.as_str())
        .collect::<Vec<_>>()
        .join("\n")
}
