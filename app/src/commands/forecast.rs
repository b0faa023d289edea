//! `forecast`: what a population takes, before anybody has come.

use hearthdose_core::forecast::{self, Population, Range};
use hearthdose_core::order::{Form, Order};
use hearthdose_core::units::show;

use super::advice;
use crate::answer::{Answer, Exit, Reason, Stop};
use crate::arguments::Forecast;
use crate::input;
use crate::json::forecast::Document;
use crate::progress::Progress;

pub fn run(asked: &Forecast) -> Result<Answer, Stop> {
    let population = population(asked)?;
    let order = input::order(&asked.order)?;
    let mut progress = Progress::start("draws");
    let found = forecast::forecast(&order, &population, asked.days, &mut |done, of| {
        progress.tell(done, of);
    })
    .map_err(|refusal| Stop::refused(vec![Reason::new(refusal.code(), refusal.to_string())]))?;
    let document = Document::of(&order, &found);
    let mut answer = Answer::new(Exit::Done, &document, readable(&order, &found))?;
    if found.people == 0 {
        let file = asked.population.display();
        answer.notes.push(format!("{file} has nobody in it"));
    }
    Ok(answer)
}

fn population(asked: &Forecast) -> Result<Population, Stop> {
    let path = asked.population.display();
    let bytes = input::bytes(&asked.population)?;
    forecast::read(&bytes).map_err(|problems| {
        let sentences = problems.iter().map(|problem| format!("{path}: {problem}"));
        Stop::Unusable(sentences.collect())
    })
}

fn readable(order: &Order, found: &forecast::Forecast) -> String {
    let is_tablet = order
        .main_product()
        .is_some_and(|product| product.form == Form::Tablet);
    let mut lines = vec![
        format!(
            "{}, revision {}: people {}, days {}, doses for each {}",
            order.title,
            order.revision,
            whole(found.people),
            found.days,
            found.rounds
        ),
        String::new(),
    ];
    let mut row = |name: &str, range: &Range| {
        let Range {
            expected,
            low,
            high,
        } = range;
        let [expected, low, high] = [expected, low, high].map(|number| whole(*number));
        lines.push(format!("  {name:<16}{expected:>12}   ({low} to {high})"));
    };
    row("homes", &found.homes);
    if is_tablet {
        row("tablets", &found.tablets);
        row("handed out", &found.handed_out);
    }
    if let Some(liquid) = &found.liquid_ml {
        row("mL of liquid", liquid);
    }
    if let Some(packs) = &found.packs {
        row("packs", packs);
    }
    if is_tablet {
        let naive = whole(found.one_tablet_per_dose);
        lines.push(format!("  {:<16}{naive:>12}", "one for a dose"));
    }
    lines.push(String::new());
    lines.push(format!(
        "Of {} draws of homes and weights, nine in ten lie between the numbers in brackets.",
        found.draws
    ));
    for (code, people) in &found.held {
        lines.push(format!(
            "{} people get no dose from the chart ({code}): plan for them apart.",
            whole(*people)
        ));
    }
    if !found.proven {
        let text = "Some homes have a plan that may not be the best: fewer tablets may do.";
        lines.push(text.to_owned());
    }
    lines.push(String::new());
    lines.push("Taken for granted:".to_owned());
    let assumptions = found.assumptions.iter();
    lines.extend(assumptions.map(|assumption| format!("  {}", assumption.text)));
    lines.push(String::new());
    if order.invented {
        lines.push("Invented order, for practice only: never for a real person.".to_owned());
    }
    lines.push(advice::NOT_A_CLINICIAN.to_owned());
    lines.join("\n") + "\n"
}

/// With commas, as people read it.
fn whole(number: u64) -> String {
    show::decimal(number, 0)
}
