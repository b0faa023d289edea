//! Today: the next round, who takes what, and what stands covered.

use hearthdose_core::dose::{Dose, DoseForm};
use hearthdose_core::order::Order;
use hearthdose_core::prep::{PersonId, RoundKey};
use hearthdose_core::record::PersonRecord;
use hearthdose_core::schedule::Advice;
use hearthdose_core::screening::{Reason, ReasonKind};
use hearthdose_core::time::Now;
use hearthdose_core::today::{NoRound, Today};
use hearthdose_core::units::Lapse;

use super::make::picture;
use super::view::{BowlCard, Button, Link, LogRow, Note, Screen, StepView, TodayRow, TodayView};
use super::{Kitchen, Open};
use crate::text::Measure;

impl Kitchen {
    pub(super) fn today_screen(&self, open: &Open, now: &Now) -> Screen {
        match &open.today {
            Some(Ok(today)) => Screen::Today(self.today_view(open, today, now)),
            Some(Err(why)) => Screen::step(self.no_round_view(open, why)),
            None => Screen::step(self.no_round_view(open, &NoRound::NoHousehold)),
        }
    }

    fn today_view(&self, open: &Open, today: &Today, now: &Now) -> TodayView {
        let words = &self.words;
        let at = today.next_at().unwrap_or(now.wall);
        let pace = today.pace(soak(open));
        let key = today.next_key();
        let (bars, ticks) = self.bars(open, today);
        TodayView {
            household: open
                .state
                .household
                .as_ref()
                .map(|h| h.name.clone())
                .unwrap_or_default(),
            day: words.say_with(
                "today-day",
                &[
                    (
                        "date",
                        key.map(|k| words.date(k.day)).unwrap_or_default().into(),
                    ),
                    ("day", today.day.to_string().into()),
                    ("days", today.days.to_string().into()),
                ],
            ),
            title: words.say_with(
                "today-title",
                &[
                    ("round", words.round_name(at, &today.zone).into()),
                    ("time", words.clock(at, &today.zone).into()),
                ],
            ),
            start: self.start_line(today, pace.lead(), pace.total(), now),
            note: self.today_note(open, today, now),
            rows: self.rows_of_all(open, today),
            bowls: self.bowl_cards(open, today, now),
            main: self.begin_button(open, today, now),
            ways: [
                ("people", "shelf-people"),
                ("ahead", "shelf-ahead"),
                ("record", "shelf-record"),
                ("order", "shelf-order"),
            ]
            .iter()
            .map(|(id, key)| Link::to(id, words.say(key)))
            .chain(self.alarm_way(open, now))
            .chain(self.site_way())
            .collect(),
            bars_title: words.say(if bars.is_empty() {
                "bars-none"
            } else {
                "bars-title"
            }),
            ticks: if bars.is_empty() { Vec::new() } else { ticks },
            bars,
            log_title: words.say("log-title"),
            log: self.last_log(open, today),
        }
    }

    pub(super) fn practice_ways(&self, open: &Open) -> Option<Link> {
        (open.shelf == super::ports::Shelf::Practice)
            .then(|| Link::to("leave-practice", self.words.say("leave-practice")))
    }

    fn start_line(&self, today: &Today, lead: Lapse, total: Lapse, now: &Now) -> String {
        let words = &self.words;
        let length = words.minutes(total);
        let at = today.next_at().unwrap_or(now.wall);
        let start = at.checked_sub(lead).unwrap_or(at);
        if start <= now.wall || self.may_begin(today, now) && today.plan.rounds.is_empty() {
            return words.say_with("today-start-now", &[("length", length.into())]);
        }
        let start = words.clock_and_day(start, &today.zone, now.wall);
        words.say_with(
            "today-start",
            &[("time", start.into()), ("length", length.into())],
        )
    }

    /// Late, early and missed doses: one sentence and one clock time.
    fn today_note(&self, open: &Open, today: &Today, now: &Now) -> Option<Note> {
        let words = &self.words;
        let clock = |at| words.clock_and_day(at, &today.zone, now.wall);
        let at = today.next_at()?;
        // A bottle that must not be used comes before everything else.
        if let Some(note) = self.lot_notes(open).into_iter().next() {
            return Some(note);
        }
        if let Some(missed) = today.missed.last() {
            let body = words.say_with("missed-body", &[("time", clock(at).into())]);
            let title = words.say_with(
                "missed-title",
                &[("round", self.round_words(today, *missed).into())],
            );
            return Some(Note::new(title, body, None));
        }
        let late = at < now.wall && !open.state.doses.is_empty();
        match (today.advice, late) {
            (Advice::GiveNow { then: Some(then) }, true) => {
                let body = words.say_with("late-body", &[("time", clock(then).into())]);
                Some(Note::new(words.say("late-title"), body, None))
            }
            (Advice::GiveNow { then: None }, true) => Some(Note::new(
                words.say("late-title"),
                words.say("late-last-body"),
                None,
            )),
            (Advice::Skip { .. }, _) => Some(Note::new(
                words.say("skip-title"),
                words.say("skip-last-body"),
                None,
            )),
            _ => self.weigh_again_note(open, now),
        }
    }

    fn round_words(&self, today: &Today, key: RoundKey) -> String {
        let date = self.words.weekday(key.day);
        let _ = today;
        self.words.say_with(
            "round-of-day",
            &[
                ("day", date.into()),
                ("number", (key.index + 1).to_string().into()),
            ],
        )
    }

    /// The rows of the round, and those of other orders in the same sitting, each with its medicine.
    fn rows_of_all(&self, open: &Open, today: &Today) -> Vec<TodayRow> {
        let mut rows = self.today_rows(open, today);
        if !open.also.is_empty() {
            name_medicine(&mut rows, self.medicine_of(&open.order));
        }
        for (id, other) in &open.also {
            let name = open.others.iter().find(|order| order.id == *id);
            let mut more = self.dose_rows(open, other);
            name_medicine(&mut more, name.map_or("", |order| self.medicine_of(order)));
            rows.extend(more);
        }
        rows
    }

    /// The name of an order's medicine in the language of the screen.
    pub(super) fn medicine_of<'a>(&self, order: &'a Order) -> &'a str {
        self.words.medicine(order)
    }

    fn dose_rows(&self, open: &Open, today: &Today) -> Vec<TodayRow> {
        let doses = today.plan.rounds.first().map(|round| &round.doses);
        doses
            .into_iter()
            .flatten()
            .filter_map(|planned| {
                let (id, seat) = today.seats.get(planned.seat)?;
                Some(self.dose_row(
                    *id,
                    &seat.person.name,
                    &planned.dose,
                    source_of(open, today, planned.seat),
                ))
            })
            .collect()
    }

    fn today_rows(&self, open: &Open, today: &Today) -> Vec<TodayRow> {
        let mut rows = self.dose_rows(open, today);
        for (seat, round, reasons) in &today.plan.held {
            if let Some((id, place)) = today.seats.get(*seat).filter(|_| *round == 0) {
                rows.push(self.held_row(open, *id, &place.person.name, reasons));
            }
        }
        // Two doses in a row came back up: at nobody's table until a nurse has been asked.
        for (id, record) in open.state.people().filter(|(_, p)| !p.is_stopped()) {
            if open.state.hold_after(id) {
                rows.push(self.held_row(open, id, &record.person.name, &[]));
            }
        }
        for (id, record) in open.state.people().filter(|(_, p)| p.is_stopped()) {
            rows.push(self.stopped_row(open, id, record));
        }
        rows
    }

    fn dose_row(&self, id: PersonId, name: &str, dose: &Dose, source: Option<Source>) -> TodayRow {
        let (from, drawing, number) = match (dose.form, source) {
            (DoseForm::Tablets, _) => ("row-whole", "whole-tablet", 0),
            (DoseForm::Liquid, _) => ("row-liquid", "liquid-bottle", 0),
            (DoseForm::Mixture, Some(Source::Covered(number))) => {
                ("row-covered", "cover-label", number)
            }
            (DoseForm::Mixture, Some(Source::New(number))) => ("row-new", "soak-start", number),
            (DoseForm::Mixture, None) => ("row-new", "soak-start", 0),
        };
        let amount = self
            .words
            .amount(dose.form, dose.amount, dose.tablets, Measure::Spoon);
        TodayRow {
            id: id.0.to_string(),
            name: name.to_owned(),
            from: self
                .words
                .say_with(from, &[("number", number.to_string().into())]),
            amount: amount.words,
            spoons: amount.spoons,
            held: false,
            picture: picture(drawing),
        }
    }

    fn held_row(&self, open: &Open, id: PersonId, name: &str, reasons: &[Reason]) -> TodayRow {
        let kind = reasons
            .iter()
            .map(|r| r.kind)
            .max()
            .unwrap_or(ReasonKind::Hold);
        let (from, amount, drawing) = match kind {
            ReasonKind::Stop => ("row-stop", "row-stop-amount", "allergy-stop"),
            ReasonKind::Hold => ("row-hold", "row-hold-amount", "hold"),
            ReasonKind::Missing => ("row-missing", "row-missing-amount", "weigh-child"),
        };
        let phone = self.phone(open);
        TodayRow {
            id: id.0.to_string(),
            name: name.to_owned(),
            from: self.words.say(from),
            amount: self.words.say_with(amount, &[("phone", phone.into())]),
            spoons: Vec::new(),
            held: true,
            picture: picture(drawing),
        }
    }

    fn stopped_row(&self, open: &Open, id: PersonId, record: &PersonRecord) -> TodayRow {
        let phone = self.phone(open);
        TodayRow {
            id: id.0.to_string(),
            name: record.person.name.clone(),
            from: self.stop_words(record),
            amount: self
                .words
                .say_with("row-stop-amount", &[("phone", phone.into())]),
            spoons: Vec::new(),
            held: true,
            picture: picture("allergy-stop"),
        }
    }

    fn bowl_cards(&self, open: &Open, today: &Today, now: &Now) -> Vec<BowlCard> {
        let words = &self.words;
        open.state
            .covered()
            .iter()
            .map(|record| {
                let bowl = &record.bowl;
                let mut lines = Vec::new();
                for later in &bowl.later {
                    let amount = words.volume(
                        later.amount,
                        bowl.tool.map_or(Measure::Spoon, Measure::from),
                    );
                    lines.push(words.say_with(
                        "bowl-for",
                        &[
                            ("amount", amount.into()),
                            ("name", later.name.as_str().into()),
                        ],
                    ));
                }
                if let Some(water) = &bowl.water_at {
                    let until = water.wall.checked_add(bowl.keep).unwrap_or(water.wall);
                    let until = words.clock_and_day(until, &today.zone, now.wall);
                    lines.push(words.say_with("bowl-until", &[("time", until.into())]));
                }
                let title = words.say_with(
                    "bowl-covered",
                    &[("number", bowl.number.to_string().into())],
                );
                BowlCard {
                    title,
                    lines,
                    picture: picture(if bowl.refrigerated {
                        "fridge"
                    } else {
                        "cover-label"
                    }),
                }
            })
            .collect()
    }

    /// Whether the next round may begin at this moment.
    pub(super) fn may_begin(&self, today: &Today, now: &Now) -> bool {
        let pace = today.pace(Lapse::ZERO);
        let begin = today
            .next_at()
            .and_then(|at| at.checked_sub(pace.total().max(EARLY)).ok());
        let in_time = begin.is_some_and(|begin| begin <= now.wall);
        match today.advice {
            Advice::GiveNow { .. } => true,
            Advice::Wait { until } => {
                in_time
                    && until
                        .checked_sub(pace.total().max(EARLY))
                        .is_ok_and(|begin| begin <= now.wall)
            }
            Advice::Skip { .. } => false,
        }
    }

    fn begin_button(&self, open: &Open, today: &Today, now: &Now) -> Button {
        let words = &self.words;
        let under_way = open.round().is_some_and(|round| !round.prep.is_done(now));
        if under_way {
            return Button::ready("go-on", words.say("go-on"));
        }
        let someone = today
            .plan
            .rounds
            .first()
            .is_some_and(|round| !round.doses.is_empty());
        if someone && self.may_begin(today, now) {
            return Button::ready("begin", words.say("set-the-table"));
        }
        if !someone {
            return Button::waiting(words.say("nobody-today"));
        }
        let at = today.next_at().unwrap_or(now.wall);
        let start = at.checked_sub(today.pace(soak(open)).lead()).unwrap_or(at);
        let time = words.clock_and_day(start, &today.zone, now.wall);
        Button::waiting(words.say_with("set-the-table-at", &[("time", time.into())]))
    }

    fn last_log(&self, open: &Open, today: &Today) -> Vec<LogRow> {
        let last = open.state.doses.last().map(|dose| dose.round);
        let of_last = open
            .state
            .doses
            .iter()
            .filter(|dose| Some(dose.round) == last);
        of_last
            .map(|dose| LogRow {
                time: self.words.clock(dose.at, &today.zone),
                name: self.name_of(open, dose.person),
                words: self.outcome_words(dose.outcome, dose.short),
            })
            .collect()
    }

    fn no_round_view(&self, open: &Open, why: &NoRound) -> StepView {
        let words = &self.words;
        let (title, body) = match why {
            NoRound::CourseOver => ("course-over", words.say("course-over-body")),
            NoRound::Nobody => {
                let body =
                    words.say_with("nobody-left-body", &[("phone", self.phone(open).into())]);
                ("nobody-left", body)
            }
            NoRound::Stopped { notice } => {
                let text = words.of_order(&notice.text).to_owned();
                ("notice-stop", text)
            }
            NoRound::NoHousehold => ("no-round", words.say("no-household-body")),
            NoRound::Times { text, .. } => ("no-round", words.only_in("en", text).to_owned()),
            NoRound::Plan(refusal) => ("no-round", words.only_in("en", &refusal.text).to_owned()),
        };
        let mut view = StepView::titled(words.say(title));
        view.small_picture = Some(picture("table-clean"));
        view.body = vec![body];
        view.ways = self
            .practice_ways(open)
            .into_iter()
            .chain(self.site_way())
            .collect();
        view.asides = vec![
            Link::to("record", words.say("shelf-record")),
            Link::to("order", words.say("shelf-order")),
        ];
        view.back = false;
        view
    }
}

fn name_medicine(rows: &mut [TodayRow], medicine: &str) {
    for row in rows {
        row.from = format!("{medicine} · {}", row.from);
    }
}

/// A table may be set this long before it needs to be.
const EARLY: Lapse = Lapse::from_mins(45);

pub(super) fn soak(open: &Open) -> Lapse {
    open.order
        .recipe
        .as_ref()
        .map_or(Lapse::ZERO, |recipe| recipe.soak)
}

/// The bowl a dose comes from, by the number a household knows it by.
#[derive(Clone, Copy)]
enum Source {
    New(u32),
    Covered(u32),
}

fn source_of(open: &Open, today: &Today, seat: usize) -> Option<Source> {
    let standing = today
        .plan
        .from_standing
        .iter()
        .find(|(_, round, who, _)| *round == 0 && *who == seat);
    if let Some((bowl, _, _, _)) = standing {
        let record = today
            .standing
            .get(*bowl)
            .and_then(|id| open.state.bowls.get(id))?;
        return Some(Source::Covered(record.bowl.number));
    }
    let makes = &today.plan.rounds.first()?.makes;
    let offset = makes.iter().position(|index| {
        let bowl = today.plan.bowls.get(*index);
        bowl.is_some_and(|bowl| {
            bowl.takes
                .iter()
                .any(|(round, who, _)| *round == 0 && *who == seat)
        })
    })?;
    Some(Source::New(
        open.state
            .last_bowl
            .saturating_add(u32::try_from(offset).ok()?)
            .saturating_add(1),
    ))
}
