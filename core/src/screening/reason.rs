//! Why somebody may not have a dose now, as values.

use crate::household::Answer;
use crate::order::{Question, Words};
use crate::units::{AgeSpan, BodyWeight};

#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum ReasonKind {
    /// Something is missing that the person or caregiver can supply.
    Missing,
    /// Only a clinician may lift it.
    Hold,
    /// Not this medicine for this person.
    Stop,
}

/// One reason: a stable code, an English sentence for the command line, and what a screen needs to say it in its own words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Reason {
    pub kind: ReasonKind,
    pub code: &'static str,
    pub text: String,
    /// Key of the question, where an answer is the reason.
    pub question: Option<String>,
    /// The order that serves this person instead.
    pub instead: Option<String>,
    /// The order's own words for this case, by language.
    pub then: Words,
}

impl Reason {
    pub(crate) fn new(kind: ReasonKind, code: &'static str, text: String) -> Reason {
        Reason {
            kind,
            code,
            text,
            question: None,
            instead: None,
            then: Words::new(),
        }
    }

    pub(super) fn answered(
        question: &Question,
        name: &str,
        kind: ReasonKind,
        answer: Answer,
    ) -> Reason {
        let key = &question.key;
        let (code, text) = match (kind, answer) {
            (ReasonKind::Stop, _) => (
                "screening-stop",
                format!(
                    "“{key}” was answered yes: not this medicine; ask the nurse line what to take instead"
                ),
            ),
            (_, Answer::Unsure) => (
                "screening-unsure",
                format!("“{key}” was answered “unsure”: ask a nurse first"),
            ),
            _ => (
                "screening-hold",
                format!("“{key}” was answered yes: ask a nurse first"),
            ),
        };
        Reason {
            question: Some(key.clone()),
            instead: question.instead.clone(),
            then: question.then_for(name),
            ..Reason::new(kind, code, text)
        }
    }

    pub(super) fn not_screened(name: &str, missing: &[&str]) -> Reason {
        let text = if missing.is_empty() {
            format!("the screening of {name} is not complete")
        } else {
            format!(
                "the screening of {name} is not complete: no answer yet to {}",
                missing.join(", ")
            )
        };
        Reason::new(ReasonKind::Missing, "screening-not-done", text)
    }

    pub(crate) fn same_event(name: &str, other: &str) -> Reason {
        let text = format!(
            "{name} takes {other} for the same event: never both; ask a nurse which one is right"
        );
        Reason::new(ReasonKind::Stop, "same-event", text)
    }

    pub(super) fn unborn(name: &str) -> Reason {
        Reason::new(
            ReasonKind::Missing,
            "born-after-dose",
            format!("{name} would be born after the day of the dose; check the date"),
        )
    }

    pub(super) fn below_youngest(name: &str, youngest: AgeSpan) -> Reason {
        let text = format!(
            "{name} is younger than {youngest}: this chart is not for newborns; ask a nurse first"
        );
        Reason::new(ReasonKind::Hold, "below-youngest", text)
    }

    pub(super) fn born_early(name: &str) -> Reason {
        let text = format!(
            "{name} was or may have been born early and is under three months: ask a nurse first"
        );
        Reason::new(ReasonKind::Hold, "born-early", text)
    }

    pub(super) fn below_lightest(name: &str, lightest: Option<&BodyWeight>) -> Reason {
        let limit = lightest.map(ToString::to_string).unwrap_or_default();
        let text = format!(
            "{name} weighs less than {limit}, the lightest person of this chart: ask a nurse first"
        );
        Reason::new(ReasonKind::Hold, "below-lightest", text)
    }

    pub(super) fn implausible(name: &str, weight: &BodyWeight) -> Reason {
        let text = format!(
            "{weight} is far outside what people of this age weigh; weigh {name} again, then a nurse or lead can lift this hold"
        );
        Reason::new(ReasonKind::Hold, "implausible-weight", text)
    }
}
