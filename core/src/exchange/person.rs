//! One person in a household code.
//!
//! An array of thirteen in this order:
//!
//! | # | item | CBOR |
//! |---|---|---|
//! | 0 | random id, unique in the household | whole, below 65536 |
//! | 1 | nickname, or null | text |
//! | 2 | age: days below 90 as a whole number; months as −months; true for 18 years or more; null unknown | |
//! | 3 | weighing, or null: [unit and decimals, count, days before made-at, manner] | array |
//! | 4 | 1 swallows tablets + 2 × born early (0 not asked, 1 yes, 2 no, 3 unsure) + 8 × screening stated as passed | whole |
//! | 5 | answers in the order's own order, two bits each from the lowest (as in 4), no zero byte at the end | bytes |
//! | 6 | days before made-at of the answers: one number for all, an array where they differ, null where unknown | |
//! | 7 | outcome: 0 clear, 1 caution, 2 hold, 3 stop, 4 not screened, 5 ask in private | whole |
//! | 8 | food allergies that a food of the order depends on | array of text |
//! | 9 | day of the course, or null | whole |
//! | 10 | minutes from the last dose to made-at, or null | whole |
//! | 11 | product by its place in the order and lot by its place in the code, or null: [product, lot or null] | array |
//! | 12 | tablets (or bottles) left, or null | whole |

use jiff::Timestamp;
use jiff::civil::Date;

use super::cbor::{self, Fields, Value};
use super::{moment, weight, words};
use crate::household::{Answer, Manner};
use crate::units::BodyWeight;

/// An age as coarse as a chart needs it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CodedAge {
    /// Below 90 days.
    Days(u8),
    /// Below 216 months.
    Months(u8),
    /// 18 years or more.
    Adult,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CodedWeighing {
    pub weight: BodyWeight,
    pub on: Option<Date>,
    pub manner: Manner,
}

/// What screening came to when the code was made. A reader works it out again.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum ScreeningOutcome {
    Clear,
    Caution,
    Hold,
    Stop,
    NotScreened,
    /// An answer is too private for a code that anybody can read.
    AskInPrivate,
}

/// Medicine in the house for one person.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Supply {
    /// Place of the product in the order.
    pub product: u8,
    pub lot: Option<String>,
}

/// An answer and its day, where each is known.
pub type CodedAnswer = Option<(Answer, Option<Date>)>;

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PersonCode {
    pub id: u16,
    pub nickname: Option<String>,
    pub age: Option<CodedAge>,
    pub weighing: Option<CodedWeighing>,
    pub swallows_tablets: bool,
    pub born_early: Option<Answer>,
    /// Screening was passed elsewhere and is stated as done.
    pub screened: bool,
    /// By the place of the question in the order, with the day of the answer.
    pub answers: Vec<CodedAnswer>,
    pub outcome: ScreeningOutcome,
    pub food_allergies: Vec<String>,
    pub course_day: Option<u16>,
    /// To the minute.
    pub last_dose: Option<Timestamp>,
    pub supply: Option<Supply>,
    pub left: Option<u16>,
}

impl PersonCode {
    pub(super) fn lot(&self) -> Option<&str> {
        self.supply.as_ref()?.lot.as_deref()
    }

    pub(super) fn value(&self, made: Timestamp, lots: &[&str]) -> Option<Value> {
        let weighing = match &self.weighing {
            None => Value::Null,
            Some(weighing) => weighing.value(made)?,
        };
        let last_dose = match self.last_dose {
            None => Value::Null,
            Some(at) => Value::Whole(moment::minutes(made)?.checked_sub(moment::minutes(at)?)?),
        };
        let supply = match &self.supply {
            None => Value::Null,
            Some(supply) => supply.value(lots)?,
        };
        let flags = u64::from(self.swallows_tablets)
            + 2 * answer_bits(self.born_early)
            + 8 * u64::from(self.screened);
        Some(Value::List(vec![
            Value::Whole(u64::from(self.id)),
            Value::or_null(self.nickname.as_deref(), Value::text),
            Value::or_null(self.age, CodedAge::value),
            weighing,
            Value::Whole(flags),
            Value::Bytes(self.packed_answers()),
            self.answer_days(made)?,
            Value::Whole(self.outcome.number()),
            Value::List(
                self.food_allergies
                    .iter()
                    .map(|what| Value::text(what))
                    .collect(),
            ),
            Value::or_null(self.course_day, |day| Value::Whole(u64::from(day))),
            last_dose,
            supply,
            Value::or_null(self.left, |left| Value::Whole(u64::from(left))),
        ]))
    }

    pub(super) fn read(value: &Value, made: Timestamp, lots: &[&str]) -> Option<PersonCode> {
        let mut fields = Fields::of(value)?;
        let id = fields.whole()?;
        let nickname = fields.or_null(cbor::text)?;
        if nickname.is_some_and(|name| !words::are_plain(name, 24)) {
            return None;
        }
        let age = fields.or_null(CodedAge::read)?;
        let weighing = fields.or_null(|value| CodedWeighing::read(value, made))?;
        let flags: u64 = fields.whole()?;
        let born_early = answer((flags >> 1) & 3);
        if flags > 15 {
            return None;
        }
        let packed = fields.some_bytes()?;
        let answers = read_answers(packed, fields.next()?, made)?;
        let outcome = ScreeningOutcome::read(fields.whole()?)?;
        let allergies: Option<Vec<String>> = fields
            .list()?
            .iter()
            .map(|value| {
                let what = cbor::text(value)?;
                words::are_a_key(what, 24).then(|| what.to_owned())
            })
            .collect();
        let course_day = fields.or_null(cbor::whole)?;
        let last_dose = fields.or_null(|value| {
            let before: u64 = cbor::whole(value)?;
            moment::from_minutes(moment::minutes(made)?.checked_sub(before)?)
        })?;
        let supply = fields.or_null(|value| Supply::read(value, lots))?;
        let left = fields.or_null(cbor::whole)?;
        fields.end()?;
        Some(PersonCode {
            id,
            nickname: nickname.map(str::to_owned),
            age,
            weighing,
            swallows_tablets: flags & 1 == 1,
            born_early,
            screened: flags & 8 == 8,
            answers,
            outcome,
            food_allergies: allergies?,
            course_day,
            last_dose,
            supply,
            left,
        })
    }

    fn packed_answers(&self) -> Vec<u8> {
        let mut bytes: Vec<u8> = self
            .answers
            .chunks(4)
            .map(|four| {
                let bits = four.iter().rev().fold(0, |bits, one| {
                    bits * 4 + answer_bits(one.as_ref().map(|(answer, _)| *answer))
                });
                u8::try_from(bits).unwrap_or_default()
            })
            .collect();
        while bytes.last() == Some(&0) {
            bytes.pop();
        }
        bytes
    }

    fn answer_days(&self, made: Timestamp) -> Option<Value> {
        let mut days = Vec::new();
        for (_, on) in self.answers.iter().flatten() {
            days.push(match on {
                None => Value::Null,
                Some(on) => Value::signed(moment::days_before(made, *on)?),
            });
        }
        let first = days.first().cloned().unwrap_or(Value::Null);
        let same = days.iter().all(|other| *other == first);
        Some(if same { first } else { Value::List(days) })
    }
}

fn read_answers(packed: &[u8], days: &Value, made: Timestamp) -> Option<Vec<CodedAnswer>> {
    if packed.len() > 16 || packed.last() == Some(&0) {
        return None;
    }
    let mut answers: Vec<Option<Answer>> = packed
        .iter()
        .flat_map(|byte| [0, 2, 4, 6].map(|shift| answer(u64::from(byte >> shift) & 3)))
        .collect();
    while answers.last() == Some(&None) {
        answers.pop();
    }
    let count = answers.iter().flatten().count();
    let on = |value: &Value| match value {
        Value::Null => Some(None),
        value => {
            let list = Value::List(vec![value.clone()]);
            moment::day_before(made, Fields::of(&list)?.signed()?).map(Some)
        }
    };
    let days: Option<Vec<Option<Date>>> = match days {
        Value::List(days) if days.len() == count => days.iter().map(on).collect(),
        Value::List(_) => None,
        one => on(one).map(|day| vec![day; count]),
    };
    let mut days = days?.into_iter();
    Some(
        answers
            .into_iter()
            .map(|answer| answer.map(|answer| (answer, days.next().flatten())))
            .collect(),
    )
}

fn answer_bits(answer: Option<Answer>) -> u64 {
    match answer {
        None => 0,
        Some(Answer::Yes) => 1,
        Some(Answer::No) => 2,
        Some(Answer::Unsure) => 3,
    }
}

fn answer(bits: u64) -> Option<Answer> {
    match bits {
        1 => Some(Answer::Yes),
        2 => Some(Answer::No),
        3 => Some(Answer::Unsure),
        _ => None,
    }
}

impl CodedAge {
    fn value(self) -> Value {
        match self {
            CodedAge::Days(days) => Value::Whole(u64::from(days)),
            CodedAge::Months(months) => Value::signed(-i64::from(months)),
            CodedAge::Adult => Value::Bool(true),
        }
    }

    fn read(value: &Value) -> Option<CodedAge> {
        match value {
            Value::Whole(days) if *days < 90 => u8::try_from(*days).ok().map(CodedAge::Days),
            Value::Minus(less) if *less < 215 => {
                let months = u8::try_from(*less).ok()?.checked_add(1)?;
                Some(CodedAge::Months(months))
            }
            Value::Bool(true) => Some(CodedAge::Adult),
            _ => None,
        }
    }
}

impl CodedWeighing {
    fn value(&self, made: Timestamp) -> Option<Value> {
        let (form, count) = weight::numbers(&self.weight)?;
        let on = match self.on {
            None => Value::Null,
            Some(on) => Value::signed(moment::days_before(made, on)?),
        };
        let manner = match self.manner {
            Manner::Alone => 0,
            Manner::Together => 1,
            Manner::Site => 2,
            Manner::Clinic => 3,
            Manner::Told => 4,
        };
        Some(Value::List(vec![
            Value::Whole(form),
            Value::Whole(count),
            on,
            Value::Whole(manner),
        ]))
    }

    fn read(value: &Value, made: Timestamp) -> Option<CodedWeighing> {
        let mut fields = Fields::of(value)?;
        let weight = weight::weight(fields.whole()?, fields.whole()?)?;
        let on = fields.or_null(|value| {
            let list = Value::List(vec![value.clone()]);
            moment::day_before(made, Fields::of(&list)?.signed()?)
        })?;
        let manner = match fields.whole::<u64>()? {
            0 => Manner::Alone,
            1 => Manner::Together,
            2 => Manner::Site,
            3 => Manner::Clinic,
            4 => Manner::Told,
            _ => return None,
        };
        fields.end()?;
        Some(CodedWeighing { weight, on, manner })
    }
}

impl Supply {
    fn value(&self, lots: &[&str]) -> Option<Value> {
        let lot = match &self.lot {
            None => Value::Null,
            Some(lot) => {
                let at = lots.iter().position(|other| other == lot)?;
                Value::Whole(u64::try_from(at).ok()?)
            }
        };
        Some(Value::List(vec![
            Value::Whole(u64::from(self.product)),
            lot,
        ]))
    }

    fn read(value: &Value, lots: &[&str]) -> Option<Supply> {
        let mut fields = Fields::of(value)?;
        let product = fields.whole()?;
        let lot = fields.or_null(|value| {
            let lot = lots.get(cbor::whole::<usize>(value)?)?;
            words::are_a_lot(lot).then(|| (*lot).to_owned())
        })?;
        fields.end()?;
        Some(Supply { product, lot })
    }
}

impl ScreeningOutcome {
    fn number(self) -> u64 {
        match self {
            ScreeningOutcome::Clear => 0,
            ScreeningOutcome::Caution => 1,
            ScreeningOutcome::Hold => 2,
            ScreeningOutcome::Stop => 3,
            ScreeningOutcome::NotScreened => 4,
            ScreeningOutcome::AskInPrivate => 5,
        }
    }

    fn read(number: u64) -> Option<ScreeningOutcome> {
        Some(match number {
            0 => ScreeningOutcome::Clear,
            1 => ScreeningOutcome::Caution,
            2 => ScreeningOutcome::Hold,
            3 => ScreeningOutcome::Stop,
            4 => ScreeningOutcome::NotScreened,
            5 => ScreeningOutcome::AskInPrivate,
            _ => return None,
        })
    }
}
