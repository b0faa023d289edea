//! A household's plan as JSON.
//!
//! Instants are RFC 3339 with the zone's numeric offset; indices of rounds and bowls count from 0.

use hearthdose_core::dose::DoseForm;
use hearthdose_core::mixture::{
    CourseBowl, Need, Pace, PlannedDose, PlannedRound, shopping, suits,
};
use hearthdose_core::schedule;
use hearthdose_core::units::{Lapse, Volume};
use jiff::tz::TimeZone;
use jiff::{Timestamp, civil::Date};
use serde::Serialize;
use serde_json::Number;

use super::dose::{Amount, half_teaspoons};
use super::millilitres;
use crate::answer::Reason;
use crate::commands::advice::Question;
use crate::commands::course::Course;
use crate::commands::refusal;

#[derive(Debug, Serialize)]
pub struct Document<'a> {
    pub outcome: &'static str,
    pub signed: bool,
    pub invented: bool,
    pub order: &'a str,
    pub revision: u32,
    pub household: Option<&'a str>,
    /// Calendar days planned.
    pub days: u32,
    pub time_zone: &'a str,
    /// Edition of the time zone data.
    pub zone_data: &'static str,
    pub rounds: Vec<Round>,
    pub refused: Vec<Held<'a>>,
    /// What to ask again; no dose waits for it.
    pub questions: &'a [Question],
    pub tablets: u64,
    pub whole_tablets: u64,
    pub lower_bound: u64,
    pub proven: bool,
    pub liquid_ml: Option<String>,
    pub shopping: Vec<Need>,
    pub refill_date: Option<Date>,
    pub course_end: Date,
}

#[derive(Debug, Serialize)]
pub struct Round {
    pub at: String,
    /// When to begin, so that the doses are in time.
    pub begin_at: String,
    /// How long the round takes in all.
    pub minutes: i64,
    /// Elapsed hours since the dose before of whoever waited least; null before first doses.
    pub hours_since_last: Option<Number>,
    pub doses: Vec<Dose>,
    /// Bowls made in this round.
    pub bowls: Vec<Bowl>,
}

#[derive(Debug, Serialize)]
pub struct Dose {
    pub person: String,
    #[serde(flatten)]
    pub amount: Amount,
    /// The bowl it is measured from; null for tablets and liquids.
    pub bowl: Option<usize>,
    /// The second bowl of a dose that is split between two.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub second_bowl: Option<usize>,
    /// Food or drink that suits this person.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub food_or_drink: Vec<String>,
}

#[derive(Debug, Serialize)]
pub struct Bowl {
    pub bowl: usize,
    /// When water meets the tablets.
    pub made_at: String,
    pub discard_at: String,
    pub tablets: u32,
    pub takes: Vec<Take>,
}

#[derive(Debug, Serialize)]
pub struct Take {
    pub round: usize,
    pub person: String,
    pub half_tsp: Option<u64>,
    pub ml: String,
}

#[derive(Debug, Serialize)]
pub struct Held<'a> {
    pub person: &'a str,
    /// The first round without a dose.
    pub from_round: usize,
    /// The first round after it with one; null when there is none in these days.
    pub until_round: Option<usize>,
    pub reasons: Vec<Reason>,
}

impl<'a> Document<'a> {
    pub fn of(course: &'a Course) -> Document<'a> {
        let Course {
            order,
            file,
            table,
            plan,
            questions,
        } = course;
        let rounds = plan.rounds.iter().enumerate().map(|(index, round)| {
            let since = table.since_last.get(index).copied().flatten();
            course.round(index, round, since)
        });
        Document {
            outcome: "plan",
            signed: false,
            invented: order.invented,
            order: &order.id,
            revision: order.revision,
            household: file.name.as_deref(),
            days: table.days,
            time_zone: &file.time_zone,
            zone_data: schedule::data_version(),
            rounds: rounds.collect(),
            refused: plan
                .held
                .iter()
                .filter_map(|held| course.held(held))
                .collect(),
            questions,
            tablets: plan.tablets,
            whole_tablets: plan.whole_tablets,
            lower_bound: plan.lower_bound,
            proven: plan.proven,
            liquid_ml: (plan.liquid > Volume::ZERO).then(|| millilitres(plan.liquid)),
            shopping: shopping(order, plan, &table.seats),
            refill_date: course.refill_date(),
            course_end: table.course_end,
        }
    }
}

impl Course {
    pub fn name(&self, seat: usize) -> &str {
        self.table
            .seats
            .get(seat)
            .map_or("", |seat| seat.person.name.as_str())
    }

    /// The day on or before which more is collected, if what is handed out now does not last the course.
    pub fn refill_date(&self) -> Option<Date> {
        let medicine = &self.order.medicine;
        schedule::refill_date(self.file.start, medicine.supply_days, medicine.course_days)
    }

    /// The dose in words: a household with a syringe sees millilitres only.
    pub fn words(&self, planned: &PlannedDose) -> String {
        let syringe =
            self.file.tool.as_deref() == Some("syringe") && planned.dose.form == DoseForm::Mixture;
        if syringe {
            planned.dose.amount.to_string()
        } else {
            planned.dose.text.clone()
        }
    }

    /// How long a round takes, with bowls or without.
    pub fn pace(&self, round: &PlannedRound) -> Pace {
        let soak = self
            .order
            .recipe
            .as_ref()
            .map_or(Lapse::ZERO, |recipe| recipe.soak);
        let whole = round
            .doses
            .iter()
            .filter(|planned| planned.dose.form == DoseForm::Tablets)
            .count();
        Pace::of(
            soak,
            !round.makes.is_empty(),
            round.doses.len() - whole,
            whole,
        )
    }

    /// Bowls from which this seat takes in this round.
    pub fn bowls_of(&self, round: usize, seat: usize) -> Vec<usize> {
        let bowls = self.plan.bowls.iter().enumerate();
        let takes = |bowl: &CourseBowl| {
            bowl.takes
                .iter()
                .any(|take| (take.0, take.1) == (round, seat))
        };
        bowls
            .filter(|(_, bowl)| takes(bowl))
            .map(|(index, _)| index)
            .collect()
    }

    fn round(&self, index: usize, round: &PlannedRound, since: Option<Lapse>) -> Round {
        let zone = &self.table.zone;
        let pace = self.pace(round);
        Round {
            at: instant(round.at, zone),
            begin_at: instant(round.at.checked_sub(pace.lead()).unwrap_or(round.at), zone),
            minutes: pace.total().as_mins(),
            hours_since_last: since.and_then(hours),
            doses: round
                .doses
                .iter()
                .map(|planned| self.dose(index, round.day, planned))
                .collect(),
            bowls: round
                .makes
                .iter()
                .filter_map(|bowl| self.bowl(*bowl))
                .collect(),
        }
    }

    fn dose(&self, round: usize, day: Date, planned: &PlannedDose) -> Dose {
        let bowls = if planned.dose.form == DoseForm::Mixture {
            self.bowls_of(round, planned.seat)
        } else {
            Vec::new()
        };
        Dose {
            person: self.name(planned.seat).to_owned(),
            amount: Amount {
                text: self.words(planned),
                ..Amount::of(&planned.dose)
            },
            bowl: bowls.first().copied(),
            second_bowl: bowls.get(1).copied(),
            food_or_drink: self.food_or_drink(day, planned),
        }
    }

    /// Names of what hides the taste and suits this person on this day.
    pub fn food_or_drink(&self, day: Date, planned: &PlannedDose) -> Vec<String> {
        let (Some(recipe), Some(seat), DoseForm::Mixture) = (
            &self.order.recipe,
            self.table.seats.get(planned.seat),
            planned.dose.form,
        ) else {
            return Vec::new();
        };
        let person = &seat.person;
        let suitable = recipe
            .vehicles
            .iter()
            .filter(|vehicle| suits(vehicle, person.age_on(day), &person.food_allergies));
        suitable.map(|vehicle| vehicle.name.clone()).collect()
    }

    fn bowl(&self, index: usize) -> Option<Bowl> {
        let bowl = self.plan.bowls.get(index)?;
        let take = |(round, seat, amount): &(usize, usize, Volume)| Take {
            round: *round,
            person: self.name(*seat).to_owned(),
            half_tsp: half_teaspoons(DoseForm::Mixture, *amount),
            ml: millilitres(*amount),
        };
        Some(Bowl {
            bowl: index,
            made_at: instant(bowl.made_at, &self.table.zone),
            discard_at: instant(bowl.discard_at, &self.table.zone),
            tablets: bowl.tablets,
            takes: bowl.takes.iter().map(take).collect(),
        })
    }

    fn held<'a>(
        &'a self,
        held: &'a (usize, usize, Vec<hearthdose_core::screening::Reason>),
    ) -> Option<Held<'a>> {
        let (seat, from_round, reasons) = held;
        let has_dose =
            |round: &PlannedRound| round.doses.iter().any(|planned| planned.seat == *seat);
        let later = self.plan.rounds.iter().enumerate().skip(*from_round);
        Some(Held {
            person: &self.table.seats.get(*seat)?.person.name,
            from_round: *from_round,
            until_round: later
                .filter(|(_, round)| has_dose(round))
                .map(|(index, _)| index)
                .next(),
            reasons: refusal::reasons(reasons, None),
        })
    }
}

/// `2031-04-03T08:00:00-05:00`
fn instant(at: Timestamp, zone: &TimeZone) -> String {
    at.to_zoned_datetime(zone.clone())
        .strftime("%Y-%m-%dT%H:%M:%S%:z")
        .to_string()
}

/// Hours as a number: 12, 11, 12.5.
fn hours(lapse: Lapse) -> Option<Number> {
    const HOUR: i64 = 3_600;
    let seconds = lapse.as_secs();
    if seconds % HOUR == 0 {
        Some(Number::from(seconds / HOUR))
    } else {
        Number::from_f64(lapse.as_secs_f64() / 3_600.0)
    }
}
