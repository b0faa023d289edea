//! `dose`: what one person takes, with the trace, or every reason why not.

use hearthdose_core::dose::{self, Dose as Found, DoseForm, TraceLine};
use hearthdose_core::household::{Manner, Person, Weighing};
use hearthdose_core::order::{CheckedOrder, Order};
use jiff::civil::Date;

use super::{advice, refusal};
use crate::answer::{Answer, Exit, Stop};
use crate::arguments::Dose;
use crate::input;
use crate::json::dose::{Amount, Document};

/// Ages are told as lengths here, so the day of the dose changes nothing.
const ANY_DAY: Date = Date::constant(2000, 1, 1);

pub fn run(asked: &Dose) -> Result<Answer, Stop> {
    let person = person(asked)?;
    let order = input::order(&asked.order)?;
    let unknown = person
        .answers
        .keys()
        .find(|key| !order.questions.iter().any(|question| question.key == **key));
    if let Some(key) = unknown {
        return Err(Stop::unusable(format!(
            "answer: the order asks no question “{key}”"
        )));
    }
    let found = dose::work_out(&order, &person, ANY_DAY).map_err(|reasons| {
        let shown = refusal::reasons(&reasons, None);
        Stop::Refused(refusal::refused(&order, &reasons, shown))
    })?;
    let question = advice::weight_question(&person, ANY_DAY);
    let mut trace = found.trace.clone();
    trace.extend(question.iter().map(|question| TraceLine {
        about: question.code,
        text: question.text.clone(),
    }));
    let document = Document {
        outcome: "dose",
        amount: Amount::of(&found),
        trace: &trace,
        signed: false,
        invented: order.invented,
    };
    let mut answer = Answer::new(Exit::Done, &document, readable(&order, &found, &trace))?;
    answer.notes.extend(question.map(|question| question.text));
    Ok(answer)
}

fn person(asked: &Dose) -> Result<Person, Stop> {
    if asked.weight.is_none() && asked.age.is_none() {
        return Err(Stop::unusable(
            "say how heavy the person is (--weight \"31 lb 4 oz\"), how old (--age \"3 y 2 mo\"), or both",
        ));
    }
    let mut person = Person::named("this person");
    if let Some(text) = &asked.weight {
        let weight = input::weight(text)?;
        person.weighing = Some(Weighing {
            weight,
            on: None,
            manner: Manner::Told,
            hold_lifted: false,
        });
    }
    if let Some(text) = &asked.age {
        person.age = Some(input::known_age(text)?);
    }
    for text in &asked.answers {
        let (key, answer) = input::answer(text)?;
        if person
            .answers
            .insert(key.clone(), answer)
            .is_some_and(|before| before != answer)
        {
            return Err(Stop::unusable(format!(
                "answer: “{key}” is answered in two ways"
            )));
        }
    }
    person.sex = asked.sex.map(Into::into);
    person.swallows_tablets = asked.swallows_tablets;
    person.born_early = asked.born_early.map(Into::into);
    person.cleared = asked.clear;
    Ok(person)
}

fn readable(order: &CheckedOrder, found: &Found, trace: &[TraceLine]) -> String {
    let from = match found.form {
        DoseForm::Mixture => "of the mixture",
        DoseForm::Liquid => "from the bottle",
        DoseForm::Tablets => "swallowed with a full glass of water",
    };
    let order: &Order = order;
    let mut lines = vec![
        format!("{} {from}", found.text),
        format!("{}; line {}", order.title, found.row_text),
        String::new(),
    ];
    lines.extend(
        trace
            .iter()
            .map(|line| format!("  {:<14}{}", line.about, line.text)),
    );
    lines.push(String::new());
    lines.extend(advice::closing(order));
    lines.join("\n") + "\n"
}
