//! What the rules of a site say, in words of the screen.

use hearthdose_core::exchange::CodedAge;
use hearthdose_core::order::Form;
use hearthdose_core::site::{ForLead, PassedOver, Remark, Why};
use hearthdose_core::units::AgeSpan;
use jiff::civil::Date;

use super::Found;
use crate::vm::Kitchen;

impl Kitchen {
    pub(super) fn for_lead_words(&self, why: &ForLead) -> String {
        let words = &self.words;
        let zone = self
            .site
            .as_ref()
            .map_or(jiff::tz::TimeZone::UTC, |site| self.site_zone(site));
        let day = |at: &jiff::Timestamp| words.date(zone.to_datetime(*at).date());
        match why {
            ForLead::ServedBefore {
                at,
                until: Some(until),
            } => words.say_with(
                "lead-served-until",
                &[
                    ("day", day(at).into()),
                    ("until", words.date(*until).into()),
                ],
            ),
            ForLead::ServedBefore { at, until: None } => {
                words.say_with("lead-served", &[("day", day(at).into())])
            }
            ForLead::SamePeople { at, .. } => {
                words.say_with("lead-same-people", &[("day", day(at).into())])
            }
            ForLead::CodeConflicting => words.say("lead-conflicting"),
            ForLead::OtherOrder => words.say("lead-other-order"),
            ForLead::OrderStopped { .. } => words.say("lead-stopped"),
            ForLead::Short { packs, .. } => {
                words.say_with("lead-short", &[("packs", (*packs).into())])
            }
            ForLead::ExpiresInCourse { .. } => words.say("lead-expires"),
            ForLead::Collector => words.say("lead-collector"),
            ForLead::TooManyPeople { most } => {
                words.say_with("lead-too-many", &[("most", (*most).into())])
            }
            ForLead::NotToday => words.say("lead-not-today"),
        }
    }

    pub(super) fn remark_words(&self, remark: &Remark, found: &Found) -> String {
        let words = &self.words;
        match remark {
            Remark::OldCode { hours } => {
                words.say_with("remark-old", &[("hours", (*hours).into())])
            }
            Remark::AskAgain => words.say("remark-ask-again"),
            Remark::Interpreter { language } => {
                let language = match language.as_str() {
                    "en" => words.say("language-en"),
                    "es" => words.say("language-es"),
                    _ => words.say("language-other"),
                };
                words.say_with("remark-interpreter", &[("language", language.into())])
            }
            Remark::Extended { lot, until } => words.say_with(
                "remark-extended",
                &[
                    ("lot", lot.as_str().into()),
                    ("until", words.date(*until).into()),
                ],
            ),
            Remark::AtHome { lot } => {
                words.say_with("remark-at-home", &[("lot", lot.as_str().into())])
            }
            Remark::CourseOver { person } => words.say_with(
                "remark-over",
                &[("name", self.named(found, *person).into())],
            ),
        }
    }

    pub(super) fn passed_words(&self, passed: &PassedOver) -> String {
        let words = &self.words;
        let why = match passed.why {
            Why::Recalled => words.say("passed-recalled"),
            Why::SetAside => words.say("passed-set-aside"),
            Why::Expired { on } => {
                words.say_with("passed-expired", &[("day", words.long_date(on).into())])
            }
            Why::Empty => words.say("passed-empty"),
            Why::Unknown => words.say("passed-unknown"),
        };
        words.say_with(
            "passed-lot",
            &[("lot", passed.lot.lot.as_str().into()), ("why", why.into())],
        )
    }

    /// "2 packs of 20 tablets".
    pub(super) fn packs_words(&self, packs: u32, each: u32, product: &str) -> String {
        let order = self.site.as_ref().and_then(|site| site.order.as_ref());
        let form = order
            .and_then(|order| order.product(product))
            .map(|product| product.form);
        let values = [("packs", packs.into()), ("each", each.into())];
        let key = match form {
            Some(Form::Liquid) => "packs-bottles",
            _ => "packs-tablets",
        };
        self.words.say_with(key, &values)
    }

    pub(super) fn coded_age_words(&self, age: Option<CodedAge>) -> String {
        match age {
            None => self.words.say("desk-age-unknown"),
            Some(CodedAge::Adult) => self.words.say("desk-adult"),
            Some(CodedAge::Days(days)) => self.words.age(AgeSpan::days(u32::from(days))),
            Some(CodedAge::Months(months)) => self.words.age(AgeSpan {
                months: u32::from(months),
                days: 0,
            }),
        }
    }
}

/// A day as 2032-05-31; a month alone, as 2032-05, stands for its last day, as it does on packages.
pub(super) fn day_or_month(text: &str) -> Option<Date> {
    let shape: Vec<usize> = text.split('-').map(str::len).collect();
    match shape.as_slice() {
        [4, 2, 2] => text.parse().ok(),
        [4, 2] => format!("{text}-01")
            .parse::<Date>()
            .ok()
            .map(Date::last_of_month),
        _ => None,
    }
}
