//! A PIN typed on an own pad: before the site is opened, before what only the lead may do, and when one is set.
//!
//! The digits are never shown, only how many there are. Tries and waits are counted by the store, before a PIN is compared.

use hearthdose_core::record::Event;
use hearthdose_core::site::{Pin, PinCheck, PinSet, PinUnfit, Role};
use hearthdose_core::time::Now;

use super::{Site, told};
use crate::text::Words;
use crate::vm::Kitchen;
use crate::vm::keep::KeepError;
use crate::vm::make::picture;
use crate::vm::typing::Typing;
use crate::vm::view::{Button, Entry, Field, Link, Note, Pad as Keys, StepView};

/// As many digits as a PIN may have.
const MOST: usize = 12;

/// What comes when the PIN is right.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Behind {
    /// The site's screens.
    Site,
    /// This press, which only the lead may do.
    Press(String),
    /// A new PIN of this role.
    Set(Role),
}

/// Which number is typed now.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Turn {
    /// The one that is set.
    Known,
    New,
    Again,
}

/// Why the last number led nowhere.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Said {
    Check(PinCheck),
    Unfit(PinUnfit),
    /// The new one was not typed the same twice.
    Differs,
    /// The other role has it.
    Same,
}

/// A PIN that is being typed.
pub(super) struct Pad {
    behind: Behind,
    turn: Turn,
    typing: Typing,
    /// Typed before, where a new PIN is set.
    lead: String,
    new: String,
    said: Option<Said>,
    /// It is compared at the next tick: that takes a moment, which is shown first.
    is_compared: bool,
}

impl Pad {
    fn before(behind: Behind, turn: Turn) -> Pad {
        Pad {
            behind,
            turn,
            typing: Typing::of(&[MOST]),
            lead: String::new(),
            new: String::new(),
            said: None,
            is_compared: false,
        }
    }

    pub(super) fn is_compared(&self) -> bool {
        self.is_compared
    }

    fn ask(&mut self, turn: Turn, said: Option<Said>) {
        self.turn = turn;
        self.said = said;
        self.typing = Typing::of(&[MOST]);
    }
}

impl Site {
    /// Where the volunteers have a PIN, nothing is seen before it was typed.
    pub(super) fn ask_who_opens(&mut self) -> Result<(), KeepError> {
        if self.store.has_pin(Role::Volunteer)? {
            self.pad = Some(Pad::before(Behind::Site, Turn::Known));
        }
        Ok(())
    }

    /// Whether nobody has said yet who works here.
    pub(super) fn is_shut(&self) -> bool {
        self.pad
            .as_ref()
            .is_some_and(|pad| pad.behind == Behind::Site)
    }
}

impl Kitchen {
    /// Whether these may be written now; else the lead's PIN is asked for, and the press is done again behind it.
    pub(super) fn lead_may<'a>(&mut self, events: impl Iterator<Item = &'a Event>) -> bool {
        let mut roles = events.map(Role::for_event);
        let Some(site) = self.site.as_mut() else {
            return false;
        };
        if site.is_lead || !roles.any(|role| role == Role::Lead) {
            return true;
        }
        match site.store.has_pin(Role::Lead) {
            Ok(false) => true,
            Ok(true) => {
                let press = Behind::Press(site.pressed.clone());
                site.pad = Some(Pad::before(press, Turn::Known));
                false
            }
            Err(error) => {
                self.tell_error(&error.into());
                false
            }
        }
    }

    /// Begins to set the PIN of a role.
    pub(super) fn set_pin_of(&mut self, role: Role) {
        let Some(site) = self.site.as_mut() else {
            return;
        };
        match site.store.has_pin(Role::Lead) {
            Ok(false) if role == Role::Volunteer => {
                self.tell("roles-volunteer", "roles-lead-first")
            }
            Ok(is_set) => {
                let turn = if is_set { Turn::Known } else { Turn::New };
                site.pad = Some(Pad::before(Behind::Set(role), turn));
            }
            Err(error) => self.tell_error(&error.into()),
        }
    }

    pub(super) fn pin_view(&self, pad: &Pad) -> StepView {
        let words = &self.words;
        let key = match (&pad.behind, pad.turn) {
            (Behind::Site, _) => "pin-open-title",
            (_, Turn::Known) => "pin-lead-title",
            (Behind::Set(Role::Volunteer), Turn::New) => "pin-new-volunteer",
            (_, Turn::New) => "pin-new-lead",
            (_, Turn::Again) => "pin-again-title",
        };
        let mut view = StepView::titled(words.say(key));
        let key = match (&pad.behind, pad.turn) {
            (Behind::Site, _) => "pin-open-body",
            (_, Turn::Known) => "pin-lead-body",
            (_, Turn::New) => "pin-new-body",
            (_, Turn::Again) => "pin-again-body",
        };
        view.body = vec![words.say(key)];
        let digits = pad.typing.get(0).len();
        view.entry = Some(Entry {
            fields: vec![Field {
                id: "field:0".to_owned(),
                label: words.say("pin-field"),
                value: "•".repeat(digits),
                unit: String::new(),
                spoken: words.say_with("pin-spoken", &[("count", digits.into())]),
                active: true,
                text: false,
                problem: String::new(),
            }],
            pad: Some(Keys {
                point: None,
                delete: words.say("key-delete"),
            }),
            ..Entry::default()
        });
        view.note = pad.said.map(|said| {
            let title = said_words(words, said);
            Note::new(title, String::new(), None)
        });
        let label = words.say("pin-main");
        view.main = Some(match digits {
            _ if pad.is_compared => Button::waiting(words.say("pin-moment")),
            0 => Button::waiting(label),
            _ => Button::ready("pin-in", label),
        });
        if pad.behind == Behind::Site {
            view.small_picture = Some(picture("household"));
            view.ways = vec![Link::to("leave-site", words.say("site-leave"))];
            view.back = false;
        }
        view
    }

    /// A press while a PIN is asked for; false when it is for what stands behind the pad.
    pub(super) fn press_pin(&mut self, id: &str) -> bool {
        let Some(site) = self.site.as_mut() else {
            return false;
        };
        let Some(pad) = site.pad.as_mut() else {
            return false;
        };
        if pad.is_compared {
            return true;
        }
        if pad.typing.press(id) {
            pad.said = None;
            return true;
        }
        if id == "pin-in" {
            pad.said = None;
            pad.is_compared = true;
            return true;
        }
        if site.is_shut() {
            // Help and the way out stand open to everybody.
            return !["help", "leave-site", "language", "scale", "dark"].contains(&id);
        }
        site.pad = None;
        false
    }

    /// Back from a pad leads to what it stood before; false where there is none.
    pub(super) fn back_from_pad(&mut self) -> bool {
        let Some(site) = self.site.as_mut() else {
            return false;
        };
        if site.is_shut() {
            return site.spot != super::Spot::Help;
        }
        site.pad.take().is_some()
    }

    /// Compares what was typed, once that it does so is on the screen.
    pub(super) fn compare_pin(&mut self, now: &Now) {
        let pad = self.site.as_mut().and_then(|site| site.pad.as_mut());
        let Some(pad) = pad.filter(|pad| pad.is_compared) else {
            return;
        };
        pad.is_compared = false;
        if let Err(error) = self.try_pin_in(now) {
            self.tell_error(&error);
        }
    }

    fn try_pin_in(&mut self, now: &Now) -> Result<(), KeepError> {
        let Some(site) = self.site.as_mut() else {
            return Ok(());
        };
        let Some(pad) = site.pad.as_mut() else {
            return Ok(());
        };
        let typed = pad.typing.get(0).to_owned();
        match pad.turn {
            Turn::Known => {
                let wanted = match pad.behind {
                    Behind::Site => Role::Volunteer,
                    Behind::Press(_) | Behind::Set(_) => Role::Lead,
                };
                match site.store.check_pin(wanted, &typed, now)? {
                    PinCheck::Opened(_) | PinCheck::NoneSet => self.opened(typed, now),
                    other => pad.ask(Turn::Known, Some(Said::Check(other))),
                }
            }
            Turn::New => match Pin::new(&typed) {
                Ok(_) => {
                    pad.new = typed;
                    pad.ask(Turn::Again, None);
                }
                Err(unfit) => pad.ask(Turn::New, Some(Said::Unfit(unfit))),
            },
            Turn::Again if pad.new != typed => pad.ask(Turn::New, Some(Said::Differs)),
            Turn::Again => self.set_new_pin(&typed, now)?,
        }
        Ok(())
    }

    /// The PIN was right: what stands behind it is done.
    fn opened(&mut self, typed: String, now: &Now) {
        let Some(site) = self.site.as_mut() else {
            return;
        };
        let Some(mut pad) = site.pad.take() else {
            return;
        };
        match pad.behind.clone() {
            Behind::Site => {}
            Behind::Press(id) => {
                site.is_lead = true;
                self.press_at_site(&id, now);
                if let Some(site) = self.site.as_mut() {
                    site.is_lead = false;
                }
            }
            Behind::Set(_) => {
                pad.lead = typed;
                pad.ask(Turn::New, None);
                site.pad = Some(pad);
            }
        }
    }

    fn set_new_pin(&mut self, typed: &str, now: &Now) -> Result<(), KeepError> {
        let random = self.ids.random();
        let Some(salt) = random.and_then(|bytes| bytes.first_chunk().copied()) else {
            self.tell("pin-not", "pin-not-body");
            return Ok(());
        };
        let Some(site) = self.site.as_mut() else {
            return Ok(());
        };
        let Some(pad) = site.pad.as_mut() else {
            return Ok(());
        };
        let Behind::Set(role) = pad.behind else {
            return Ok(());
        };
        let new = match Pin::new(typed) {
            Ok(new) => new,
            Err(unfit) => {
                pad.ask(Turn::New, Some(Said::Unfit(unfit)));
                return Ok(());
            }
        };
        match site.store.set_pin(role, &new, &pad.lead, salt, now)? {
            PinSet::Set => {
                site.pad = None;
                let body = self.words.say("pin-set-body");
                self.telling = Some(told(&self.words, "pin-set", body));
            }
            PinSet::SameAsOther => pad.ask(Turn::New, Some(Said::Same)),
            PinSet::LeadNeeded(check) => pad.ask(Turn::Known, Some(Said::Check(check))),
            PinSet::LeadFirst => {
                site.pad = None;
                self.tell("roles-volunteer", "roles-lead-first");
            }
        }
        Ok(())
    }
}

fn said_words(words: &Words, said: Said) -> String {
    let key = match said {
        Said::Check(PinCheck::Wait { seconds }) => {
            return words.say_with("pin-wait", &[("seconds", seconds.into())]);
        }
        Said::Check(PinCheck::Wrong { left: 0, wait }) => {
            return words.say_with("pin-wrong-wait", &[("seconds", wait.into())]);
        }
        Said::Check(PinCheck::Wrong { left, .. }) => {
            return words.say_with("pin-wrong", &[("count", left.into())]);
        }
        Said::Check(PinCheck::NoneSet | PinCheck::Opened(_)) => "pin-lead-body",
        Said::Unfit(PinUnfit::TooShort | PinUnfit::TooLong | PinUnfit::NotDigits) => "pin-short",
        Said::Unfit(PinUnfit::Repeated) => "pin-repeated",
        Said::Unfit(PinUnfit::InARow) => "pin-in-a-row",
        Said::Differs => "pin-differs",
        Said::Same => "pin-same",
    };
    words.say(key)
}
