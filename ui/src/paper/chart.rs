//! The chart of the course: every round with the bowls to make, and for each person a box to tick with the number of the bowl.
//!
//! A chart has at most five people, so that names and boxes stay large; where anybody's dose changes, a new chart begins.

use hearthdose_core::dose::DoseForm;
use hearthdose_core::mixture::PlannedRound;
use hearthdose_core::order::ContactKind;

use super::document::Place;
use super::flow::{SMALL, SMALL_STRONG, STRONG, Style};
use super::home::{Sheet, Stretch};
use super::tags::Tag;

const MOST_PEOPLE: usize = 5;
/// The widest column for bowls; longer lines wrap.
const BOWLS: f32 = 172.0;
const ROW: f32 = 37.0;
const BOX: f32 = 17.0;

/// The people of one chart, and what each takes when it begins.
struct Columns {
    seats: Vec<usize>,
    when: f32,
    bowls: f32,
    width: f32,
}

impl Sheet<'_> {
    pub(super) fn chart(&mut self) {
        let words = self.words;
        let everyone: Vec<Vec<Stretch>> = (0..self.home.seats.len())
            .map(|seat| self.stretches(seat))
            .collect();
        let rounds: Vec<usize> = self.rounds().map(|(index, _)| index).collect();
        let (when, bowls) = self.column_widths();
        let most = self.people_across(self.flow.width() - when - bowls, &everyone);
        let blocks = self.home.seats.len().div_ceil(most).max(1);
        let share = self.home.seats.len().div_ceil(blocks).max(1);
        let seats: Vec<usize> = (0..self.home.seats.len()).collect();
        for group in seats.chunks(share) {
            self.flow.new_page();
            self.flow.section(&words.say("paper-chart"), 100.0);
            self.flow.paragraph(SMALL, &words.say("paper-chart-how"));
            if blocks > 1 {
                self.flow
                    .paragraph(SMALL_STRONG, &words.say("paper-chart-once"));
            }
            self.flow.gap(6.0);
            let rounds = rounds.iter().filter(|index| self.has_any(group, **index));
            let rounds: Vec<usize> = rounds.copied().collect();
            let count = f32::from(u16::try_from(group.len()).unwrap_or(1));
            let columns = Columns {
                seats: group.to_vec(),
                when,
                bowls,
                width: ((self.flow.width() - when - bowls) / count).min(130.0),
            };
            let mut is_open = false;
            for (place, index) in rounds.iter().enumerate() {
                let changes = group.iter().any(|seat| {
                    let own = everyone.get(*seat).map(Vec::as_slice).unwrap_or_default();
                    own.iter().any(|stretch| stretch.from == *index)
                });
                if place == 0 || changes {
                    if place > 0 {
                        self.flow.gap(14.0);
                    }
                    self.begin_table(&mut is_open);
                    self.head(&columns, &everyone, *index);
                }
                if self.flow.y + ROW > self.flow.bottom() {
                    self.flow.new_page();
                    self.begin_table(&mut is_open);
                    self.head(&columns, &everyone, *index);
                }
                if let Some(round) = self.home.plan.rounds.get(*index) {
                    self.flow.document.tags.begin(Tag::Row);
                    self.round(&columns, *index, round);
                    self.flow.document.tags.end();
                }
            }
            if is_open {
                self.flow.document.tags.end();
            }
        }
    }

    /// Each head begins a table of its own, so that every box is read with the name over it.
    fn begin_table(&mut self, is_open: &mut bool) {
        let tags = &mut self.flow.document.tags;
        if std::mem::replace(is_open, true) {
            tags.end();
        }
        tags.begin(Tag::Table);
    }

    /// How many columns leave every word over them whole.
    fn people_across(&self, width: f32, everyone: &[Vec<Stretch>]) -> usize {
        let fonts = &self.flow.document.fonts;
        let mut longest = 40.0_f32;
        for (seat, own) in everyone.iter().enumerate() {
            let doses = own.iter().filter_map(|stretch| stretch.dose.as_ref());
            let texts = doses.map(|dose| self.amount(dose));
            for word in
                texts.flat_map(|text| text.split(' ').map(str::to_owned).collect::<Vec<_>>())
            {
                longest = longest.max(fonts.width(SMALL.weight, SMALL.size, &word));
            }
            let name = self.seat_name(seat);
            longest = longest.max(
                fonts
                    .width(SMALL_STRONG.weight, SMALL_STRONG.size, &name)
                    .min(100.0),
            );
        }
        let fits = |count: &usize| {
            let count = f32::from(u16::try_from(*count).unwrap_or(1));
            width / count - 8.0 >= longest
        };
        (1..=MOST_PEOPLE).rev().find(fits).unwrap_or(1)
    }

    /// Why a column is empty for now: somebody who comes later, or somebody who waits for a nurse.
    fn none_yet(&self, seat: usize, own: &[Stretch], round: usize, phone: &str) -> String {
        let held = self.home.plan.held.iter().any(|(who, _, _)| *who == seat);
        let later = own.iter().find(|stretch| stretch.from > round);
        let at = later.and_then(|stretch| self.home.plan.rounds.get(stretch.from));
        match at.filter(|_| !held) {
            Some(begins) => {
                let date = self.clock_and_date(begins.at);
                self.words
                    .say_with("paper-starts", &[("date", date.into())])
            }
            None => self
                .words
                .say_with("paper-no-dose", &[("phone", phone.into())]),
        }
    }

    fn has_any(&self, group: &[usize], round: usize) -> bool {
        let round = self.home.plan.rounds.get(round);
        round.is_some_and(|round| {
            let mut doses = round.doses.iter();
            doses.any(|planned| group.contains(&planned.seat))
        })
    }

    /// As wide as the longest date, and as the bowls need.
    fn column_widths(&self) -> (f32, f32) {
        let fonts = &self.flow.document.fonts;
        let wide = |style: Style, text: &str| fonts.width(style.weight, style.size, text);
        let (mut when, mut bowls) = (70.0_f32, 70.0_f32);
        for (_, round) in self.rounds() {
            let day = self.words.short_date(self.date_of(round.at));
            when = when.max(wide(SMALL_STRONG, &day));
            for line in self.bowl_lines(round) {
                bowls = bowls.max(wide(SMALL, &line));
            }
        }
        (when + 14.0, (bowls + 14.0).min(BOWLS))
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
                    None => self.none_yet(*seat, own, round, &phone),
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
        self.flow.document.tags.begin(Tag::Row);
        let first = [
            (x, columns.when, "paper-chart-when"),
            (x + columns.when, columns.bowls - 8.0, "paper-chart-bowl"),
        ];
        for (at, wide, key) in first {
            let text = words.say(key);
            self.flow.within(Tag::ColumnHead, |flow| {
                flow.put(SMALL_STRONG, at, top, wide, &text)
            });
        }
        let mut at = x + columns.when + columns.bowls;
        for (name, amount) in texts {
            self.flow.within(Tag::ColumnHead, |flow| {
                let low = flow.put(SMALL_STRONG, at + 4.0, top, inside, &name);
                flow.put(SMALL, at + 4.0, low, inside, &amount)
            });
            at += columns.width;
        }
        self.flow.document.tags.end();
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
        let low = self.flow.within(Tag::RowHead, |flow| {
            let low = flow.put(SMALL_STRONG, x, top + 1.0, columns.when - 6.0, &day);
            flow.put(SMALL, x, low, columns.when - 6.0, &clock)
        });
        let bowls = self.bowl_lines(round);
        let y = self.flow.within(Tag::Cell, |flow| {
            bowls.iter().fold(top + 1.0, |y, line| {
                flow.put(SMALL, x + columns.when, y, columns.bowls - 6.0, line)
            })
        });
        let mut at = x + columns.when + columns.bowls + 4.0;
        for seat in &columns.seats {
            self.flow.document.tags.begin(Tag::Cell);
            match round.doses.iter().find(|planned| planned.seat == *seat) {
                Some(planned) => {
                    let place = Place {
                        x: at,
                        y: top + 8.5,
                        width: BOX,
                        height: BOX,
                    };
                    let says = words.say("paper-box");
                    self.flow
                        .document
                        .figure(says, |document| document.frame(place, 1.25, None));
                    if planned.dose.form == DoseForm::Mixture {
                        let bowls = self.bowls_of(index, *seat);
                        let text = words.list(&bowls);
                        let beside = columns.width - BOX - 12.0;
                        self.flow
                            .put(STRONG, at + BOX + 6.0, top + 8.0, beside, &text);
                    }
                }
                None => {
                    let middle = top + 8.5 + BOX / 2.0;
                    let ends = ((at + 2.0, middle), (at + BOX - 2.0, middle));
                    let says = words.say("paper-no-box");
                    self.flow
                        .document
                        .figure(says, |document| document.line(ends.0, ends.1, 1.25, 0.0));
                }
            }
            self.flow.document.tags.end();
            at += columns.width;
        }
        self.flow.y = (top + ROW - 2.0).max(y.max(low) + 1.0);
        // Days are parted by a line that is seen, the rounds of a day by one that only leads the eye.
        let next = self.rounds().find(|(later, _)| *later > index);
        let day_ends = next.is_none_or(|(_, next)| self.date_of(next.at) != date);
        if day_ends {
            self.flow.rule(1.0, 0.25);
        } else {
            self.flow.rule(0.5, 0.7);
        }
    }

    /// Numbers of the bowls from which a seat takes, as people count.
    fn bowls_of(&self, round: usize, seat: usize) -> Vec<String> {
        let bowls = self.home.plan.bowls.iter().enumerate();
        bowls
            .filter(|(_, bowl)| {
                let mut takes = bowl.takes.iter();
                takes.any(|take| (take.0, take.1) == (round, seat))
            })
            .map(|(bowl, _)| self.number(bowl).to_string())
            .collect()
    }

    /// "New: 5 and 6", and until when those keep that are used again.
    fn bowl_lines(&self, round: &PlannedRound) -> Vec<String> {
        let words = self.words;
        let numbers: Vec<String> = round
            .makes
            .iter()
            .map(|at| self.number(*at).to_string())
            .collect();
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
            later.then_some((self.number(*at), bowl.discard_at))
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
