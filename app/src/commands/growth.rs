//! `growth`: how a weight compares with WHO's children of the same age and sex.

use hearthdose_core::growth;
use serde::Serialize;

use crate::answer::{Answer, Exit, Reason, Stop};
use crate::arguments::Growth;
use crate::input;

#[derive(Serialize)]
struct Document {
    z: String,
    reference: &'static str,
}

pub fn run(asked: &Growth) -> Result<Answer, Stop> {
    let age = input::age(&asked.age)?;
    let weight = input::weight(&asked.weight)?;
    let days = growth::days_of_months(age.months, age.days);
    let score = growth::weight_for_age(asked.sex.into(), days, growth::body_weight(&weight))
        .map_err(|refusal| Stop::refused(vec![Reason::new(refusal.code(), refusal.to_string())]))?;
    let document = Document {
        z: score.shown(),
        reference: score.reference.name(),
    };
    let text = format!(
        "z {} by {} ({weight} at {age}). This sets no dose.\n",
        document.z, document.reference
    );
    Answer::new(Exit::Done, &document, text)
}
