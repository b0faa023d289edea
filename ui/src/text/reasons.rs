//! Why somebody has no dose, in kitchen words: the order's own where it has them.

use hearthdose_core::screening::{Reason, ReasonKind};

use super::Words;

impl Words {
    /// All reasons of one person, each once.
    pub fn reasons(&self, name: &str, reasons: &[Reason]) -> String {
        let mut sentences: Vec<String> = Vec::new();
        for reason in reasons {
            // The order's words are for a yes; who is not sure asks.
            let unsure = reason.code == "screening-unsure";
            let sentence = if unsure || reason.then.is_empty() {
                self.reason_short(reason)
            } else {
                self.of_order_about(&reason.then, name)
            };
            if !sentences.contains(&sentence) {
                sentences.push(sentence);
            }
        }
        sentences.join(" ")
    }

    /// One reason in a few words.
    pub fn reason_short(&self, reason: &Reason) -> String {
        self.say(match (reason.code, reason.kind) {
            ("weight-needed", _) => "reason-weight",
            ("screening-not-done", _) => "reason-questions",
            ("below-youngest" | "below-lightest" | "born-early", _) => "reason-young",
            ("implausible-weight", _) => "reason-implausible",
            ("same-event", _) => "reason-same-event",
            (_, ReasonKind::Stop) => "reason-stop",
            _ => "reason-other",
        })
    }
}
