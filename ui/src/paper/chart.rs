//! The chart of the course: every round with the bowls to make, and for each person a box to tick with the number of the bowl.
//!
//! A chart has at most five people, so that names and boxes stay large; where anybody's dose changes, a new chart begins.

use hearthdose_core::dose::DoseForm;
use hearthdose_core::mixture::PlannedRound;
use hearthdose_core::order::ContactKind;

use super::document::Place;
use super::flow::{SMALL, SMALL_STRONG, STRONG};
use super::home::{Sheet, Stretch};

const MOST_PEOPLE: usize = 5;
const WHEN: f32 = 112.0;
const BOWLS: f32 = 138.0;
const ROW: f32 = 35.0;
const BOX: f32 = 17.0;

/// The people of one chart, and what each takes when it begins.
struct Columns {
    seats: Vec<usize>,
    width: f32,
}

impl Sheet<'_> {
    pub(super) fn chart(&mut self) {
        let words = self.words;
        let everyone: Vec<Vec<Stretch>> = (0..self.home.seats.len())
            .map(|seat| self.stretches(seat))
            .collect();
        let rounds: Vec<usize> = self.rounds().map(|(index, _)| index).collect();
        let blocks = self.home.seats.len().div_ceil(MOST_PEOPLE).max(1);
        let share = self.home.seats.len().div_ceil(blocks).max(1);
        let seats: Vec<usize> = (0..self.home.seats.len()).collect();
        for group in seats.chunks(share) {
            self.flow.new_page();
            self.flow.section(&words.say("paper-chart"), 100.0);
            self.flow.paragraph(SMALL, &words.say("paper-chart-how"));
            self.flow.gap(6.0);
            let count = f32::from(u16::try_from(group.len()).unwrap_or(1));
            let columns = Columns {
                seats: group.to_vec(),
                width: ((self.flow.width() - WHEN - BOWLS) / count).min(130.0),
            };
            for (place, index) in rounds.iter().enumerate() {
                let changes = group.iter().any(|seat| {
                    let own = everyone.get(*seat).map(Vec::as_slice).unwrap_or_default();
                    own.iter().any(|stretch| stretch.from == *index)
                });
                if place == 0 || changes {
                    if place > 0 {
                        self.flow.gap(14.0);
                    }
                    self.head(&columns, &everyone, *index);
                }
                if self.flow.y + ROW > self.flow.bottom() {
                    self.flow.new_page();
                    self.head(&columns, &everyone, *index);
                }
                if let Some(round) = self.home.plan.rounds.get(*index) {
                    self.round(&columns, *index, round);
                }
            }
        }
    }

    /// Names and amounts over the columns.
    fn head(&mut self, columns: &Columns, everyone: &[Vec<Stretch>], round: usize) {
        let words = self.words;
        let phone = self.phone(ContactKind::Questions);
        let inside = columns.width - 8.0;
        let texts: Vec<(String, String)> = columns
            .seats
            .iter()
            .map(|seat| {
                let own = everyone.get(*seat).map(Vec::as_slice).unwrap_or_default();
                let now = own.iter().rfind(|stretch| stretch.from <= round);
                let amount = match now.and_then(|stretch| stretch.dose.as_ref()) {
                    Some(dose) => self.amount(dose),
                    None => words.say_with("paper-no-dose", &[("phone", phone.as_str().into())]),
                };
                (self.seat_name(*seat), amount)
            })
            .collect();
        let tall = texts
            .iter()
            .map(|(name, amount)| {
                self.flow.height(SMALL_STRONG, inside, name)
                    + self.flow.height(SMALL, inside, amount)
            })
            .fold(SMALL.step * 2.0, f32::max);
        self.flow.room(tall + 10.0 + 2.0 * ROW);
        let top = self.flow.y;
        let x = self.flow.left();
        self.flow
            .put(SMALL_STRONG, x, top, WHEN, &words.say("paper-chart-when"));
        self.flow.put(
            SMALL_STRONG,
            x + WHEN,
            top,
            BOWLS - 8.0,
            &words.say("paper-chart-bowl"),
        );
        let mut at = x + WHEN + BOWLS;
        for (name, amount) in texts {
            let low = self.flow.put(SMALL_STRONG, at + 4.0, top, inside, &name);
            self.flow.put(SMALL, at + 4.0, low, inside, &amount);
            at += columns.width;
        }
        self.flow.y = top + tall + 5.0;
        self.flow.rule(1.25, 0.0);
        self.flow.y += 3.0;
    }

    fn round(&mut self, columns: &Columns, index: usize, round: &PlannedRound) {
        let words = self.words;
        let top = self.flow.y;
        let x = self.flow.left();
        let date = self.date_of(round.at);
        let day = words.short_date(date);
        let clock = self.clock(round.at);
        let low = self.flow.put(SMALL_STRONG, x, top, WHEN - 6.0, &day);
        self.flow.put(SMALL, x, low, WHEN - 6.0, &clock);
        let mut y = top;
        for line in self.bowl_lines(round) {
            y = self.flow.put(SMALL, x + WHEN, y, BOWLS - 6.0, &line);
        }
        let mut at = x + WHEN + BOWLS + 4.0;
        for seat in &columns.seats {
            match round.doses.iter().find(|planned| planned.seat == *seat) {
                Some(planned) => {
                    let place = Place {
                        x: at,
                        y: top + 7.0,
                        width: BOX,
                        height: BOX,
                    };
                    self.flow.document.frame(place, 1.25, None);
                    if planned.dose.form == DoseForm::Mixture {
                        let bowls = self.bowls_of(index, *seat);
                        let text = words.list(&bowls);
                        let beside = columns.width - BOX - 12.0;
                        self.flow
                            .put(STRONG, at + BOX + 6.0, top + 7.0, beside, &text);
                    }
                }
                None => {
                    let middle = top + 7.0 + BOX / 2.0;
                    let ends = ((at + 2.0, middle), (at + BOX - 2.0, middle));
                    self.flow.document.line(ends.0, ends.1, 1.25, 0.0);
                }
            }
            at += columns.width;
        }
        self.flow.y = (top + ROW - 2.0).max(y);
        self.flow.rule(0.5, 0.6);
    }

    /// Numbers of the bowls from which a seat takes, as people count.
    fn bowls_of(&self, round: usize, seat: usize) -> Vec<String> {
        let bowls = self.home.plan.bowls.iter().enumerate();
        bowls
            .filter(|(_, bowl)| {
                let mut takes = bowl.takes.iter();
                takes.any(|take| (take.0, take.1) == (round, seat))
            })
            .map(|(number, _)| (number + 1).to_string())
            .collect()
    }

    /// "New: 5 and 6", and until when those keep that are used again.
    fn bowl_lines(&self, round: &PlannedRound) -> Vec<String> {
        let words = self.words;
        let numbers: Vec<String> = round.makes.iter().map(|at| (at + 1).to_string()).collect();
        if numbers.is_empty() {
            let measured = |form| form == DoseForm::Mixture;
            let covered = round
                .doses
                .iter()
                .any(|planned| measured(planned.dose.form));
            let key = if covered {
                "ahead-covered"
            } else {
                "paper-chart-none"
            };
            return vec![words.say(key)];
        }
        let mut lines = vec![words.say_with(
            "paper-chart-new",
            &[("numbers", words.list(&numbers).into())],
        )];
        let kept = round.makes.iter().filter_map(|at| {
            let bowl = self.home.plan.bowls.get(*at)?;
            let later = bowl.takes.iter().any(|take| take.0 > bowl.round);
            later.then_some((at + 1, bowl.discard_at))
        });
        let kept: Vec<_> = kept.collect();
        if let Some((_, until)) = kept.first() {
            let numbers: Vec<String> = kept.iter().map(|(number, _)| number.to_string()).collect();
            lines.push(words.say_with(
                "paper-chart-keep",
                &[
                    ("numbers", words.list(&numbers).into()),
                    ("time", self.clock(*until).into()),
                    ("day", words.short_weekday(self.date_of(*until)).into()),
                ],
            ));
        }
        lines
    }
}
