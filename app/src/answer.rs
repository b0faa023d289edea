//! What a command found out, once for machines and once for people, and how it leaves the program.
//!
//! With `--json` exactly one document goes to standard output; everything else goes to standard error.
//! A reader that has gone away is no error, and nothing here panics on a closed stream.

use std::io::{self, Write};
use std::process::ExitCode;

use hearthdose_ui::machine::device::DeviceError;
use serde::Serialize;

/// How a command ended, as its exit code.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Exit {
    Done,
    Unusable,
    Refused,
    ProblemsFound,
}

impl Exit {
    fn code(self) -> u8 {
        match self {
            Exit::Done => 0,
            Exit::Unusable => 2,
            Exit::Refused => 3,
            Exit::ProblemsFound => 4,
        }
    }
}

/// The result of a command that came to an end of its own.
#[derive(Debug)]
pub struct Answer {
    pub exit: Exit,
    /// One JSON document.
    pub json: String,
    /// The same for a person to read.
    pub text: String,
    /// Remarks for standard error.
    pub notes: Vec<String>,
}

/// Why a command came to no result.
#[derive(Debug)]
pub enum Stop {
    /// Wrong usage, or input that cannot be read: sentences for standard error.
    Unusable(Vec<String>),
    /// The rules say no.
    Refused(Refused),
}

/// A refusal: reasons with codes, and lines of advice for a person.
#[derive(Debug, Default)]
pub struct Refused {
    pub reasons: Vec<Reason>,
    pub advice: Vec<String>,
}

/// One reason of a refusal.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Reason {
    pub code: String,
    /// One sentence in English.
    pub text: String,
    /// Whom it is about, where more than one person was asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub person: Option<String>,
    /// The place in the order, where the order is at fault.
    #[serde(rename = "where", skip_serializing_if = "Option::is_none")]
    pub place: Option<String>,
    /// The order that serves this person instead.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub instead: Option<String>,
}

impl Reason {
    pub fn new(code: &str, text: impl Into<String>) -> Reason {
        Reason {
            code: code.to_owned(),
            text: text.into(),
            ..Reason::default()
        }
    }
}

impl Stop {
    pub fn unusable(sentence: impl Into<String>) -> Stop {
        Stop::Unusable(vec![sentence.into()])
    }

    pub fn refused(reasons: Vec<Reason>) -> Stop {
        Stop::Refused(Refused {
            reasons,
            advice: Vec::new(),
        })
    }
}

impl From<DeviceError> for Stop {
    fn from(error: DeviceError) -> Stop {
        match error.code() {
            Some(code) => Stop::refused(vec![Reason::new(code, error.to_string())]),
            None => Stop::unusable(error.to_string()),
        }
    }
}

impl Answer {
    /// A result; `document` is what `--json` prints.
    ///
    /// # Errors
    /// A document that JSON cannot hold.
    pub fn new(exit: Exit, document: &impl Serialize, text: String) -> Result<Answer, Stop> {
        let json = serde_json::to_string(document).map_err(|error| {
            Stop::unusable(format!("the result cannot be written as JSON: {error}"))
        })?;
        Ok(Answer {
            exit,
            json,
            text,
            notes: Vec::new(),
        })
    }

    fn of_refusal(refused: &Refused) -> Result<Answer, Stop> {
        #[derive(Serialize)]
        struct Document<'a> {
            outcome: &'static str,
            reasons: &'a [Reason],
        }
        let mut text = String::from("Refused:\n");
        for reason in &refused.reasons {
            let whom = reason
                .person
                .as_ref()
                .map(|name| format!("{name}: "))
                .unwrap_or_default();
            let place = reason
                .place
                .as_ref()
                .map(|place| format!(", {place}"))
                .unwrap_or_default();
            text.push_str(&format!(
                "  {whom}{} ({}{place})\n",
                reason.text, reason.code
            ));
        }
        for line in &refused.advice {
            text.push_str(line);
            text.push('\n');
        }
        Answer::new(
            Exit::Refused,
            &Document {
                outcome: "refused",
                reasons: &refused.reasons,
            },
            text,
        )
    }
}

/// Prints the end of a command and gives the program's exit code.
pub fn finish(result: Result<Answer, Stop>, json: bool) -> ExitCode {
    let result = match result {
        Err(Stop::Refused(refused)) => Answer::of_refusal(&refused),
        other => other,
    };
    match result {
        Ok(answer) => {
            answer.notes.iter().for_each(|note| say(note));
            let out = if json {
                format!("{}\n", answer.json)
            } else {
                answer.text
            };
            match print(&out) {
                Ok(()) => ExitCode::from(answer.exit.code()),
                Err(error) => {
                    say(&format!("cannot write the result: {error}"));
                    ExitCode::from(Exit::Unusable.code())
                }
            }
        }
        Err(Stop::Unusable(sentences)) => {
            sentences.iter().for_each(|sentence| say(sentence));
            ExitCode::from(Exit::Unusable.code())
        }
        Err(Stop::Refused(_)) => ExitCode::from(Exit::Refused.code()),
    }
}

/// One line on standard error.
pub fn say(line: &str) {
    // Nobody listening is no reason to stop.
    let _ = writeln!(io::stderr().lock(), "hearthdose: {line}");
}

fn print(text: &str) -> io::Result<()> {
    let mut out = io::stdout().lock();
    match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
        Err(error) if error.kind() == io::ErrorKind::BrokenPipe => Ok(()),
        other => other,
    }
}
