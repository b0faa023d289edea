//! `plan --order --household`: rounds, doses and bowls of a household's course.
//!
//! The plan begins on the household's start date; whoever began earlier is in the midst of a course, whoever begins later joins then.
//! Nobody's course is planned beyond the order's own length.

mod readable;
mod table;

use std::path::Path;

use hearthdose_core::household::HouseholdFile;
use hearthdose_core::mixture::{self, CoursePlan, Wish};
use hearthdose_core::order::CheckedOrder;

use super::{advice, refusal};
use crate::answer::{Answer, Exit, Reason, Refused, Stop};
use crate::input;
use crate::json::course::Document;
use crate::progress::Progress;
use table::Table;

/// A household's plan with all it was made from.
pub struct Course {
    pub order: CheckedOrder,
    pub file: HouseholdFile,
    pub table: Table,
    pub plan: CoursePlan,
    pub questions: Vec<advice::Question>,
}

pub fn run(order: &Path, household: &Path, days: Option<u32>, fresh: bool) -> Result<Answer, Stop> {
    let course = work_out(order, household, days, fresh)?;
    let mut answer = Answer::new(Exit::Done, &Document::of(&course), readable::page(&course))?;
    answer.notes = course.remarks();
    Ok(answer)
}

impl Course {
    /// What a person should hear beside the plan.
    pub fn remarks(&self) -> Vec<String> {
        let mut remarks = notes(&self.order, &self.file, &self.table);
        remarks.extend(
            self.questions
                .iter()
                .map(|question| format!("{}: {}", question.person, question.text)),
        );
        remarks
    }
}

/// The plan of a household file under an order file.
///
/// # Errors
/// Files that cannot be read, and whatever keeps the whole household from a plan.
pub fn work_out(
    order: &Path,
    household: &Path,
    days: Option<u32>,
    fresh: bool,
) -> Result<Course, Stop> {
    let file = input::household(household)?;
    let fresh = fresh || wants_fresh(&file)?;
    let order = input::order(order)?;
    let table = Table::lay(&order, &file, days)?;
    let mut progress = Progress::start("rounds");
    let wish = Wish {
        order: &order,
        seats: &table.seats,
        rounds: &table.rounds,
        standing: &[],
        fresh,
    };
    let plan = mixture::plan(&wish, &mut |done, of| progress.tell(done, of))
        .map_err(|refusal| Stop::refused(vec![Reason::new(refusal.code, refusal.text)]))?;
    if plan.rounds.iter().all(|round| round.doses.is_empty()) {
        return Err(Stop::Refused(nobody(&order, &table, &plan)));
    }
    let questions = file
        .people
        .iter()
        .filter_map(|person| advice::weight_question(person, file.start))
        .collect();
    Ok(Course {
        order,
        file,
        table,
        plan,
        questions,
    })
}

fn wants_fresh(file: &HouseholdFile) -> Result<bool, Stop> {
    match file.tool.as_deref() {
        None | Some("spoon" | "syringe") => {}
        Some(other) => {
            return Err(Stop::unusable(format!(
                "tool: “{other}”: write spoon or syringe"
            )));
        }
    }
    match file.bowls.as_deref() {
        None | Some("fewest") => Ok(false),
        Some("fresh every round") => Ok(true),
        Some(other) => Err(Stop::unusable(format!(
            "bowls: “{other}”: write fewest or fresh every round"
        ))),
    }
}

fn nobody(order: &CheckedOrder, table: &Table, plan: &CoursePlan) -> Refused {
    let mut all = Vec::new();
    let mut reasons = Vec::new();
    for (seat, _, found) in &plan.held {
        reasons.extend(refusal::reasons(
            found,
            table.seats.get(*seat).map(|seat| seat.person.name.as_str()),
        ));
        all.extend(found.iter().cloned());
    }
    if reasons.is_empty() {
        reasons.push(Reason::new(
            "no-dose-left",
            "no dose of this order is left for anybody in these days",
        ));
    }
    refusal::refused(order, &all, reasons)
}

fn notes(order: &CheckedOrder, file: &HouseholdFile, table: &Table) -> Vec<String> {
    let mut notes = Vec::new();
    for person in &file.people {
        for key in person
            .answers
            .keys()
            .filter(|key| !order.questions.iter().any(|question| question.key == **key))
        {
            notes.push(format!(
                "{}: this order asks no question “{key}”; the answer is not used",
                person.name
            ));
        }
    }
    notes.extend(table.cut_short.clone());
    notes
}
