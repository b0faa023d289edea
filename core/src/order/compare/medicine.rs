//! The medicine: doses, limits, times, course.

use super::{Changes, Field, Value, Wording};
use crate::order::model::{Apart, Medicine, Order, Words};

pub(super) fn compare(changes: &mut Changes, old: &Order, new: &Order) {
    let limits = (most_doses(old), most_doses(new));
    let (old, new) = (&old.medicine, &new.medicine);
    let mut tell = |field, say: &dyn Fn(&Medicine) -> Option<Value>| {
        changes.field(field, say(old), say(new));
    };
    let named = |name: &Option<String>| name.as_deref().and_then(Value::text);
    tell(Field::MedicineName, &|m| Value::text(&m.name));
    if old.name == new.name {
        changes.words(Wording::Medicine, &old.words, &new.words);
    }
    let mut tell = |field, say: &dyn Fn(&Medicine) -> Option<Value>| {
        changes.field(field, say(old), say(new));
    };
    tell(Field::AllergyClass, &|m| named(&m.allergy_class));
    tell(Field::Interval, &|m| Some(Value::Lapse(m.interval)));
    tell(Field::SupplyDays, &|m| Some(Value::Days(m.supply_days)));
    tell(Field::CourseDays, &|m| Some(Value::Days(m.course_days)));
    tell(Field::PerKg, &|m| m.per_kg.map(Value::Mass));
    tell(Field::MaxDose, &|m| m.max_dose.map(Value::Mass));
    tell(Field::Tolerance, &|m| m.tolerance.map(Value::Tolerance));
    tell(Field::Lightest, &|m| m.lightest.clone().map(Value::Weight));
    tell(Field::Youngest, &|m| m.youngest.map(Value::Age));
    tell(Field::AdultFrom, &|m| m.adult_from.map(Value::Age));
    tell(Field::LeastGap, &|m| Some(Value::Lapse(m.least_gap)));
    tell(Field::SkipIfNextWithin, &|m| {
        Some(Value::Lapse(m.skip_if_next_within))
    });
    tell(Field::FirstDose, &|m| Some(Value::FirstDose(m.first_dose)));
    tell(Field::FirstGap, &|m| Some(Value::Lapse(m.first_gap)));
    if old.most_doses != new.most_doses {
        changes.field(Field::MostDoses, limits.0, limits.1);
    }
    apart(changes, &old.apart, &new.apart);
    let mut tell = |field, say: &dyn Fn(&Medicine) -> Option<Value>| {
        changes.field(field, say(old), say(new));
    };
    tell(Field::Margin, &|m| Some(Value::Lapse(m.margin)));
    tell(Field::StaleWeight, &|m| {
        Some(Value::StaleWeight(m.stale_weight))
    });
    tell(Field::Expires, &|m| m.expires.map(Value::Date));
    tell(Field::Withdraws, &|m| named(&m.withdraws));
    tell(Field::SealingKey, &|m| {
        m.sealing_key.clone().map(Value::SealingKey)
    });
    tell(Field::HandOut, &|m| Some(Value::HandOut(m.hand_out)));
    tell(Field::Event, &|m| named(&m.event));
    tell(Field::Split, &|m| Some(Value::Split(m.split)));
    tell(Field::MissedDosesExtend, &|m| {
        Some(Value::Extend(m.missed_doses_extend))
    });
}

fn most_doses(order: &Order) -> Option<Value> {
    let most = &order.medicine.most_doses;
    let asks = order.questions.iter();
    let asks = asks.map(|question| (question.key.clone(), question.ask.clone()));
    (!most.is_empty()).then(|| Value::MostDoses {
        most: most.clone(),
        asks: asks.collect(),
    })
}

fn apart(changes: &mut Changes, old: &[Apart], new: &[Apart]) {
    let gaps = |list: &[Apart]| -> Vec<_> {
        let gaps = list.iter().map(|apart| (apart.what.clone(), apart.gap));
        gaps.collect()
    };
    if gaps(old) == gaps(new) {
        let words = |list: &[Apart]| -> Vec<Words> {
            list.iter().map(|apart| apart.words.clone()).collect()
        };
        changes.words(Wording::Apart, &words(old), &words(new));
    } else {
        let value = |list: &[Apart]| (!list.is_empty()).then(|| Value::Apart(list.to_vec()));
        changes.field(Field::Apart, value(old), value(new));
    }
}
