//! Who is at the command line: where the lead has a PIN, what is the lead's to do asks for it.
//!
//! A PIN is read from standard input or a file, never from the arguments, which others on the machine can see.
//! Waits are counted by the machine's own clock, whatever moment a command is for.

use std::io::{self, BufRead, IsTerminal, Read};

use hearthdose_core::site::{Pin, PinCheck, PinSet, Role};
use hearthdose_ui::machine::clock::SystemClock;
use hearthdose_ui::machine::files;

use super::record::SiteRecord;
use crate::answer::{self, Reason, Stop};
use crate::arguments::site::PinSource;
use crate::input;

/// Far more than any PIN has.
const MOST_BYTES: u64 = 256;

/// Lets a lead pass, and nobody else where the lead has a PIN.
///
/// # Errors
/// Another PIN, none, or a wait that is not over; the disk's.
pub fn as_lead(record: &mut SiteRecord, source: &PinSource) -> Result<(), Stop> {
    if !record.has_pin(Role::Lead)? {
        answer::say(
            "no PIN guards what is the lead's here: anybody may say that they are; set one with site pin --role lead",
        );
        return Ok(());
    }
    let typed = Typed::from(source)?.next("the lead's PIN")?;
    match record.check_pin(Role::Lead, &typed, &SystemClock::new().read())? {
        PinCheck::Opened(_) | PinCheck::NoneSet => Ok(()),
        other => Err(closed(other)),
    }
}

/// Sets the PIN of a role; where the lead has one, that is read first.
///
/// # Errors
/// As [`as_lead`], and a PIN that may not be one.
pub fn set(record: &mut SiteRecord, role: Role, source: &PinSource) -> Result<(), Stop> {
    let mut typed = Typed::from(source)?;
    let lead = if record.has_pin(Role::Lead)? {
        typed.next("the lead's PIN, as it is now")?
    } else {
        String::new()
    };
    let new = Pin::new(&typed.next("the new PIN")?)
        .map_err(|unfit| refused(unfit.code(), unfit.to_string()))?;
    let salt = files::salt().ok_or_else(|| Stop::unusable("the system gives no random bytes"))?;
    let now = SystemClock::new().read();
    match record.set_pin(role, &new, &lead, salt, &now)? {
        PinSet::Set => Ok(()),
        PinSet::LeadNeeded(check) => Err(closed(check)),
        PinSet::LeadFirst => Err(refused(
            "pin-lead-first",
            "set the lead's PIN first: site pin --role lead",
        )),
        PinSet::SameAsOther => Err(refused(
            "pin-same",
            "the other role has this PIN; then nobody could tell who it is",
        )),
    }
}

fn closed(check: PinCheck) -> Stop {
    match check {
        PinCheck::Wait { seconds } => refused(
            "pin-wait",
            format!("too many PINs were wrong: wait {seconds} seconds, then try again"),
        ),
        PinCheck::Wrong { left: 0, wait } => refused(
            "pin-wrong",
            format!("this is not the lead's PIN; the next try is in {wait} seconds"),
        ),
        PinCheck::Wrong { left, .. } => refused(
            "pin-wrong",
            format!("this is not the lead's PIN; {left} more tries before a wait"),
        ),
        PinCheck::NoneSet | PinCheck::Opened(_) => {
            refused("pin-needed", "this takes the lead's PIN")
        }
    }
}

fn refused(code: &str, text: impl Into<String>) -> Stop {
    Stop::refused(vec![Reason::new(code, text)])
}

/// Lines of a file, or of standard input as somebody types them.
enum Typed {
    Lines(std::vec::IntoIter<String>),
    Terminal,
}

impl Typed {
    fn from(source: &PinSource) -> Result<Typed, Stop> {
        let text = match &source.pin_file {
            Some(path) => String::from_utf8(input::bytes(path)?)
                .map_err(|_| Stop::unusable(format!("{} is not UTF-8 text", path.display())))?,
            None if io::stdin().is_terminal() => return Ok(Typed::Terminal),
            None => {
                let mut text = String::new();
                io::stdin()
                    .lock()
                    .take(MOST_BYTES)
                    .read_to_string(&mut text)
                    .map_err(|error| cannot_read(&error))?;
                text
            }
        };
        let lines: Vec<String> = text.lines().map(str::to_owned).collect();
        Ok(Typed::Lines(lines.into_iter()))
    }

    /// The next PIN; none is no try.
    fn next(&mut self, what: &str) -> Result<String, Stop> {
        let line = match self {
            Typed::Lines(lines) => lines.next().unwrap_or_default(),
            Typed::Terminal => {
                answer::say(&format!("{what}:"));
                let mut line = String::new();
                let mut from = io::stdin().lock().take(MOST_BYTES);
                from.read_line(&mut line)
                    .map_err(|error| cannot_read(&error))?;
                line
            }
        };
        let line = line.trim().to_owned();
        if line.is_empty() {
            let text = format!("give {what} on standard input or with --pin-file");
            return Err(refused("pin-needed", text));
        }
        Ok(line)
    }
}

fn cannot_read(error: &io::Error) -> Stop {
    Stop::unusable(format!("cannot read standard input: {error}"))
}
