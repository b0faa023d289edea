//! Labels for bowls that are kept: for whom, how much, how strong, made when, and until when.
//!
//! The end is printed for a bowl that is made at its time or later, which can only be thrown away too early;
//! whoever makes it earlier is told to write the end down.

use hearthdose_core::mixture::CourseBowl;
use hearthdose_core::order::KeepWhere;
use hearthdose_core::units::Strength;
use jiff::ToSpan;

use super::document::Place;
use super::flow::{BODY, NAME, SMALL, SMALL_STRONG, STRONG};
use super::foods::upper_first;
use super::home::{Sheet, strips};

const ACROSS: usize = 2;

impl Sheet<'_> {
    pub(super) fn labels(&mut self) {
        let words = self.words;
        let Some(first) = self.rounds().next().map(|(_, round)| round.day) else {
            return;
        };
        let days = i64::from(self.home.order.medicine.supply_days);
        let end = first.checked_add(days.days()).unwrap_or(first);
        let bowls: Vec<(usize, CourseBowl)> = self
            .home
            .plan
            .bowls
            .iter()
            .enumerate()
            .filter(|(_, bowl)| bowl.takes.iter().any(|take| take.0 > bowl.round))
            .filter(|(_, bowl)| self.date_of(bowl.made_at) < end)
            .map(|(at, bowl)| (self.number(at), bowl.clone()))
            .collect();
        if bowls.is_empty() {
            return;
        }
        self.flow.new_page();
        self.flow.section(&words.say("paper-labels"), 200.0);
        self.flow.paragraph(
            SMALL,
            &words.say_with(
                "paper-labels-how",
                &[(
                    "days",
                    words
                        .days(u64::from(self.home.order.medicine.supply_days))
                        .into(),
                )],
            ),
        );
        self.flow.gap(8.0);
        let gap = 14.0;
        let width = (self.flow.width() - gap) / 2.0;
        for pair in bowls.chunks(ACROSS) {
            let texts: Vec<Vec<(super::flow::Style, String)>> = pair
                .iter()
                .map(|(number, bowl)| self.label(*number, bowl))
                .collect();
            let tall = texts
                .iter()
                .map(|lines| self.tall(lines, width - 24.0))
                .fold(0.0, f32::max)
                + 22.0;
            self.flow.room(tall + gap);
            let top = self.flow.y;
            let mut x = self.flow.left();
            for lines in texts {
                let place = Place {
                    x,
                    y: top,
                    width,
                    height: tall,
                };
                self.flow.document.cut_lines(place);
                let mut y = top + 10.0;
                for (style, text) in lines {
                    y = self.flow.put(style, x + 12.0, y, width - 24.0, &text);
                }
                x += width + gap;
            }
            self.flow.y = top + tall + gap;
        }
    }

    fn tall(&self, lines: &[(super::flow::Style, String)], width: f32) -> f32 {
        let heights = lines.iter();
        heights
            .map(|(style, text)| self.flow.height(*style, width, text))
            .sum()
    }

    fn label(&self, number: usize, bowl: &CourseBowl) -> Vec<(super::flow::Style, String)> {
        let words = self.words;
        let measure = self.home.measure;
        let mut lines = vec![(
            NAME,
            words.say_with("bowl-name", &[("number", number.into())]),
        )];
        lines.push((
            SMALL,
            format!("{}, {}", upper_first(&self.medicine()), self.strength()),
        ));
        for (round, seat, amount) in bowl.takes.iter().filter(|take| take.0 > bowl.round) {
            let Some(at) = self.home.plan.rounds.get(*round).map(|round| round.at) else {
                continue;
            };
            let name = self.seat_name(*seat);
            lines.push((
                STRONG,
                words.say_with("label-for", &[("name", name.into())]),
            ));
            let values = [
                ("amount", words.volume(*amount, measure).into()),
                ("time", self.clock_and_date(at).into()),
            ];
            lines.push((BODY, words.say_with("label-for-detail", &values)));
        }
        let made = self.clock_and_date(bowl.made_at);
        let until = self.clock_and_date(bowl.discard_at);
        lines.push((
            SMALL,
            words.say_with("label-made", &[("time", made.into())]),
        ));
        lines.push((
            SMALL_STRONG,
            words.say_with("label-until", &[("time", until.into())]),
        ));
        lines.push((SMALL, words.say("paper-label-earlier")));
        if self.keeps_cold() {
            lines.push((SMALL, words.say("cover-fridge")));
        }
        // A label is cut off from its page, so it says itself that it is for practice.
        let strips = strips(self.home.order, words);
        lines.extend(strips.into_iter().map(|strip| (SMALL, strip)));
        lines
    }

    fn keeps_cold(&self) -> bool {
        let recipe = self.home.order.recipe.as_ref();
        recipe.is_some_and(|recipe| recipe.keep_where == KeepWhere::Refrigerator)
    }

    /// "100 mg in 4 teaspoons (20 mL)": what is in a whole bowl.
    fn strength(&self) -> String {
        match self.home.order.measured_strength() {
            Some(Strength::PerVolume { mass, volume }) => {
                let mass = format!("{} mg", mass.milligrams());
                let volume = self.words.volume(volume, self.home.measure);
                let values = [("mass", mass.into()), ("volume", volume.into())];
                self.words.say_with("paper-strength", &values)
            }
            _ => String::new(),
        }
    }
}
