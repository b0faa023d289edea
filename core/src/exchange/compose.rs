//! From a household as it is kept to the code it shows, and back to what a dose is worked out from.
//!
//! What is private goes only into a code that is sealed. In an open one the answer is left out for everybody who was asked, whatever it was, and the outcome says to ask in private.

use std::collections::BTreeSet;

use jiff::Timestamp;
use jiff::civil::Date;

use super::household::{HouseholdCode, OrderMark};
use super::moment;
use super::person::{CodedAge, CodedAnswer, CodedWeighing, PersonCode, ScreeningOutcome, Supply};
use crate::dose::{self, Dose};
use crate::household::HouseholdId;
use crate::household::{Answer, KnownAge, Person, Weighing};
use crate::order::{CheckedOrder, IfYes, Order};
use crate::screening::{self, Reason, ReasonKind};
use crate::units::{Age, AgeSpan};

/// Parts of the keys of questions whose answers only a sealed code carries.
const PRIVATE: &[&str] = &["pregnan", "breastfeed", "breast-feed"];
const ADULT_MONTHS: u32 = 216;

/// Everything a code is made of besides the people.
#[derive(Clone, Debug)]
pub struct Making<'a> {
    pub household: HouseholdId,
    pub issue: u32,
    pub made: Timestamp,
    /// The day for which ages and the outcome are told.
    pub day: Date,
    pub order: Option<&'a CheckedOrder>,
    pub language: &'a str,
    pub interpreter: bool,
    pub adult_collects: Option<bool>,
    /// Whether the code will be sealed: only then it carries private answers.
    pub sealed: bool,
}

/// One person, and how far the course has come.
#[derive(Clone, Debug)]
pub struct Member<'a> {
    pub id: u16,
    pub person: &'a Person,
    pub nickname: Option<&'a str>,
    /// When the answers were given, where that is known.
    pub answered: Option<Date>,
    pub course_day: Option<u16>,
    pub last_dose: Option<Timestamp>,
    pub supply: Option<Supply>,
    pub left: Option<u16>,
}

impl<'a> Member<'a> {
    /// Somebody before the first dose.
    pub fn new(id: u16, person: &'a Person) -> Member<'a> {
        Member {
            id,
            person,
            nickname: None,
            answered: None,
            course_day: None,
            last_dose: None,
            supply: None,
            left: None,
        }
    }
}

/// The code of a household.
pub fn household_code(making: &Making<'_>, members: &[Member<'_>]) -> HouseholdCode {
    HouseholdCode {
        household: making.household,
        issue: making.issue,
        made: moment::minute(making.made),
        order: making.order.map(|order| OrderMark::of(order)),
        language: making.language.to_owned(),
        interpreter: making.interpreter,
        adult_collects: making.adult_collects,
        people: members.iter().map(|member| coded(making, member)).collect(),
    }
}

fn coded(making: &Making<'_>, member: &Member<'_>) -> PersonCode {
    let person = member.person;
    let (answers, food_allergies) = match making.order {
        None => (Vec::new(), Vec::new()),
        Some(order) => (
            answers(order, member, making.sealed),
            allergies(order, person),
        ),
    };
    PersonCode {
        id: member.id,
        nickname: member.nickname.map(str::to_owned),
        age: person.age_on(making.day).and_then(coded_age),
        weighing: person.weighing.as_ref().map(|weighing| CodedWeighing {
            weight: weighing.weight.clone(),
            on: weighing.on,
            manner: weighing.manner,
        }),
        swallows_tablets: person.swallows_tablets,
        born_early: person.born_early,
        screened: person.cleared,
        answers,
        outcome: outcome(making, person),
        food_allergies,
        course_day: member.course_day,
        last_dose: member.last_dose.map(moment::minute),
        supply: member.supply.clone(),
        left: member.left,
    }
}

/// Days below 90, whole months that were reached for certain, or adult; nothing for somebody not born yet.
fn coded_age(age: Age) -> Option<CodedAge> {
    if age.is_unborn() {
        return None;
    }
    let reached = |months| age.reached(AgeSpan { months, days: 0 });
    if reached(ADULT_MONTHS) {
        return Some(CodedAge::Adult);
    }
    if let Some(days) = age.days().filter(|days| *days < 90) {
        return u8::try_from(days).ok().map(CodedAge::Days);
    }
    let months = (1..ADULT_MONTHS)
        .take_while(|months| reached(*months))
        .last()?;
    u8::try_from(months).ok().map(CodedAge::Months)
}

/// Whether an answer to this question belongs into sealed codes only.
pub fn is_private(question: &str) -> bool {
    PRIVATE.iter().any(|part| question.contains(part))
}

fn answers(order: &Order, member: &Member<'_>, sealed: bool) -> Vec<CodedAnswer> {
    let mut answers: Vec<_> = order
        .questions
        .iter()
        .map(|question| {
            let answer = member.person.answers.get(&question.key)?;
            (sealed || !is_private(&question.key)).then_some((*answer, member.answered))
        })
        .collect();
    while answers.last() == Some(&None) {
        answers.pop();
    }
    answers
}

/// Those that some food of the order depends on.
fn allergies(order: &Order, person: &Person) -> Vec<String> {
    let recipe = order.recipe.iter();
    let contained: BTreeSet<&String> = recipe
        .flat_map(|recipe| {
            let foods = recipe.vehicles.iter().flat_map(|food| &food.contains);
            foods.chain(recipe.second_fluid.iter().flat_map(|fluid| &fluid.contains))
        })
        .collect();
    let all = person.food_allergies.iter();
    all.filter(|what| contained.contains(what))
        .cloned()
        .collect()
}

fn outcome(making: &Making<'_>, person: &Person) -> ScreeningOutcome {
    let Some(order) = making.order else {
        return ScreeningOutcome::NotScreened;
    };
    if making.sealed {
        return evaluated(order, person, making.day);
    }
    // As if every private answer had been no: nothing of them shows in what comes out.
    let mut shown = person.clone();
    let mut asked = false;
    for (key, answer) in &mut shown.answers {
        if is_private(key) && order.questions.iter().any(|question| question.key == *key) {
            *answer = Answer::No;
            asked = true;
        }
    }
    match evaluated(order, &shown, making.day) {
        ScreeningOutcome::Clear | ScreeningOutcome::Caution if asked => {
            ScreeningOutcome::AskInPrivate
        }
        other => other,
    }
}

fn evaluated(order: &CheckedOrder, person: &Person, day: Date) -> ScreeningOutcome {
    match screening::evaluate(order, person, day) {
        Ok(_) => {
            let caution = order.questions.iter().any(|question| {
                question.if_yes == IfYes::Caution
                    && person.answers.get(&question.key) == Some(&Answer::Yes)
            });
            if caution {
                ScreeningOutcome::Caution
            } else {
                ScreeningOutcome::Clear
            }
        }
        Err(reasons) => worst(&reasons),
    }
}

fn worst(reasons: &[Reason]) -> ScreeningOutcome {
    let any = |kind| reasons.iter().any(|reason| reason.kind == kind);
    if any(ReasonKind::Stop) {
        ScreeningOutcome::Stop
    } else if any(ReasonKind::Hold) {
        ScreeningOutcome::Hold
    } else {
        ScreeningOutcome::NotScreened
    }
}

impl PersonCode {
    /// What the code says of this person, as the rules take it. Ages count from the day the code was made and do not grow.
    pub fn person(&self, order: &Order) -> Person {
        let mut person = Person::named(self.nickname.as_deref().unwrap_or_default());
        person.age = self.age.map(|age| match age {
            CodedAge::Days(days) => KnownAge::Told(AgeSpan::days(u32::from(days))),
            CodedAge::Months(months) => KnownAge::Told(AgeSpan {
                months: u32::from(months),
                days: 0,
            }),
            CodedAge::Adult => KnownAge::Adult,
        });
        person.weighing = self.weighing.as_ref().map(|weighing| Weighing {
            weight: weighing.weight.clone(),
            on: weighing.on,
            manner: weighing.manner,
            hold_lifted: false,
        });
        person.swallows_tablets = self.swallows_tablets;
        person.born_early = self.born_early;
        person.food_allergies = self.food_allergies.iter().cloned().collect();
        person.cleared = self.screened;
        person.answers = order
            .questions
            .iter()
            .zip(&self.answers)
            .filter_map(|(question, answer)| {
                let (answer, _) = answer.as_ref()?;
                Some((question.key.clone(), *answer))
            })
            .collect();
        person
    }

    /// The dose worked out anew from what was scanned; the outcome in the code is never taken for it.
    ///
    /// # Errors
    /// As [`dose::work_out`].
    pub fn dose(&self, order: &CheckedOrder, day: Date) -> Result<Dose, Vec<Reason>> {
        dose::work_out(order, &self.person(order), day)
    }
}
