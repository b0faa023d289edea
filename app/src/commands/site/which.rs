//! Which home of the record is meant: by its id, its code, or words that find no other.

use hearthdose_core::exchange::{Message, Scan};
use hearthdose_core::household::HouseholdId;

use super::refused;
use crate::answer::Stop;
use crate::arguments::site::Which;
use crate::site::record::SiteRecord;

/// The one home that is meant.
pub fn home(asked: &Which, record: &SiteRecord) -> Result<HouseholdId, Stop> {
    if let Some(id) = &asked.home {
        return of_id(id);
    }
    if let Some(text) = &asked.code {
        let text = text.trim_matches(['\r', '\n', '\t']);
        if let Scan::Message(scanned) = Scan::read(text)
            && let Message::Household(code) = scanned.message
        {
            return Ok(code.household);
        }
        let text = "this is no open household code; name the home with --home or --find";
        return Err(refused("not-a-household-code", text));
    }
    let words = asked.find.as_deref().unwrap_or_default();
    let found = record.find(words, 9)?;
    match found.as_slice() {
        [one] => Ok(one.home),
        [] => Err(refused(
            "home-unknown",
            "no home here is found by these words",
        )),
        several => {
            let names = several.iter().map(|line| {
                let words = line.words.as_deref().unwrap_or_default();
                format!("{} {words}", line.home)
            });
            let names = names.collect::<Vec<_>>().join("; ");
            let text = format!("more than one home is found by these words: {names}");
            Err(refused("several-homes", text))
        }
    }
}

fn of_id(text: &str) -> Result<HouseholdId, Stop> {
    HouseholdId::parse(text.trim()).ok_or_else(|| {
        Stop::unusable(format!(
            "“{text}” is no id of a home: 16 hexadecimal digits"
        ))
    })
}
