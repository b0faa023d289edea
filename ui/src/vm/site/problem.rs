//! What is wrong with a line stands above it, and the keyboard goes there.

use super::Site;
use crate::vm::Kitchen;
use crate::vm::view::StepView;

/// The line that a message is about; none where it is about the whole screen.
pub(super) fn field_of(said: &str) -> Option<&'static str> {
    Some(match said {
        "family-name-missing" => "name",
        "family-age-missing" | "family-age-unread" => "age",
        "family-weight-unread" => "weight",
        "receive-packs-product" | "receive-packs-check" | "receive-packs-differs" => "package",
        "receive-packs-no-lot" | "receive-packs-recalled" => "lot",
        "receive-packs-no-expiry" | "receive-packs-past" | "lot-read-unread" => "expiry",
        "receive-packs-no-count" => "packs",
        "count-unread" => "counted",
        "list-time-unread" | "list-ahead" => "time",
        "list-day-unread" => "day",
        "list-no-reason" => "reason",
        _ => return None,
    })
}

impl Kitchen {
    /// Moves what is said to its line, and the keyboard to the line where it is needed.
    pub(super) fn show_problem(&self, site: &Site, view: &mut StepView) {
        let Some(entry) = view.entry.as_mut().filter(|entry| entry.pad.is_none()) else {
            return;
        };
        let here = site.at.as_deref();
        let there = entry.fields.iter().any(|field| here == Some(&field.id));
        for (number, field) in entry.fields.iter_mut().enumerate() {
            field.active = match there {
                true => here == Some(&field.id),
                false => number == 0,
            };
            let wrong = site.said.filter(|said| field_of(said) == Some(&field.id));
            if let Some(said) = wrong {
                field.problem = self.words.say(said);
                view.note = None;
            }
        }
        if let (Some(said), None) = (site.said, &view.note)
            && entry.fields.iter().all(|field| field.problem.is_empty())
        {
            let note = crate::vm::view::Note::new(self.words.say(said), String::new(), None);
            view.note = Some(note);
        }
    }
}
