//! Reading what is handed out: package numbers, how much, and the sealing key.

use super::section::Section;
use crate::order::supply::{Gtin, HandOut, Ndc, SealingKey};

/// The accepted package numbers under `gtin`, one or a list.
pub(super) fn gtins(at: &mut Section<'_>) -> Vec<Gtin> {
    let mut read = Vec::new();
    for text in at.texts("gtin") {
        match Gtin::parse(&text) {
            Some(gtin) => read.push(gtin),
            None => {
                let text = format!(
                    "“{text}” is no package number: it needs 8, 12, 13 or 14 digits, and the last must check the others."
                );
                at.error("gtin-wrong", "gtin", text);
            }
        }
    }
    read
}

/// The accepted drug codes under `ndc`, one or a list.
pub(super) fn ndcs(at: &mut Section<'_>) -> Vec<Ndc> {
    let mut read = Vec::new();
    for text in at.texts("ndc") {
        match Ndc::parse(&text) {
            Some(ndc) => read.push(ndc),
            None => {
                let text = format!(
                    "“{text}” is no drug code: write it with its hyphens, such as 99999-101-20."
                );
                at.error("ndc-wrong", "ndc", text);
            }
        }
    }
    read
}

#[derive(Clone, Copy)]
enum Rule {
    PerPerson,
    Plan,
}

/// `hand-out` and `spare`; without either, what the plan needs and nothing more.
pub(super) fn hand_out(at: &mut Section<'_>) -> HandOut {
    let choices = [
        ("per-person", Rule::PerPerson),
        ("plan + spare", Rule::Plan),
    ];
    let rule = at.optional_choice("hand-out", &choices);
    let spare = at.optional_whole("spare");
    match (rule, spare) {
        (Some(Rule::PerPerson), None) => HandOut::PerPerson,
        (Some(Rule::PerPerson), Some(_)) => {
            let text = "“spare” belongs to “plan + spare”; who gets packs of their own has the rest of them to spare.";
            at.error("spare-without-plan", "spare", text);
            HandOut::PerPerson
        }
        (Some(Rule::Plan), None) => {
            at.require("spare");
            HandOut::PlanAndSpare { spare: 0 }
        }
        (_, spare) => HandOut::PlanAndSpare {
            spare: spare.unwrap_or(0),
        },
    }
}

/// `sealing-key`, of the medicine or at the top.
pub(super) fn sealing_key(at: &mut Section<'_>, top: &mut Section<'_>) -> Option<SealingKey> {
    let of = |section: &mut Section<'_>| {
        let mut table = section.optional_table("sealing-key")?;
        let id = table.text("id");
        let hex = table.text("x25519");
        let key = match (id, hex) {
            (Some(id), Some(hex)) => {
                let key = SealingKey::parse(&id, &hex);
                if key.is_none() {
                    let text = "“x25519” must be 64 hexadecimal digits of a public key, and none of the few keys that anybody could unseal.";
                    table.error("sealing-key-wrong", "x25519", text);
                }
                key
            }
            _ => None,
        };
        section.absorb(table);
        key
    };
    of(at).or_else(|| of(top))
}
