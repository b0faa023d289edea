//! The coming days: bowls over time, tablets, the end of the course.

use hearthdose_core::today::Today;
use jiff::{SignedDuration, Timestamp};

use super::make::{heading, paragraph};
use super::view::{Block, BowlBar, ReadingView, Tick};
use super::{Kitchen, Open};

/// The picture of the coming days shows so many hours.
const DAYS_SHOWN: SignedDuration = SignedDuration::from_hours(84);
/// The bar picture shows so much time.
const SPAN: SignedDuration = SignedDuration::from_hours(28);

impl Kitchen {
    /// Bowls as bars from the next round on, with a line at each round.
    pub(super) fn bars(&self, open: &Open, today: &Today) -> (Vec<BowlBar>, Vec<Tick>) {
        let words = &self.words;
        let Some(first) = today.plan.rounds.first() else {
            return (Vec::new(), Vec::new());
        };
        let oldest = open
            .state
            .covered()
            .iter()
            .filter_map(|b| b.bowl.water_at.as_ref().map(|w| w.wall))
            .min();
        let lead = first
            .at
            .checked_sub(SignedDuration::from_hours(1))
            .unwrap_or(first.at);
        let begin = oldest.map_or(lead, |oldest| oldest.min(lead));
        let place = |at: Timestamp| {
            let seconds = at.duration_since(begin).as_secs().clamp(0, SPAN.as_secs());
            u16::try_from(seconds * 1000 / SPAN.as_secs()).unwrap_or(1000)
        };
        let mut bars = Vec::new();
        for record in open.state.covered() {
            let bowl = &record.bowl;
            if let Some(water) = &bowl.water_at {
                let until = water.wall.checked_add(bowl.keep).unwrap_or(water.wall);
                let names: Vec<String> =
                    bowl.later.iter().map(|later| later.name.clone()).collect();
                bars.push(BowlBar {
                    name: words
                        .say_with("bowl-name", &[("number", bowl.number.to_string().into())]),
                    words: words.list(&names),
                    from: place(water.wall),
                    to: place(until),
                    planned: false,
                });
            }
        }
        for (offset, index) in first.makes.iter().enumerate() {
            let Some(bowl) = today.plan.bowls.get(*index) else {
                continue;
            };
            let later = bowl.takes.iter().filter(|(round, _, _)| *round > 0);
            let names: Vec<String> = later
                .filter_map(|(_, seat, _)| {
                    today.seats.get(*seat).map(|(_, s)| s.person.name.clone())
                })
                .collect();
            let number = usize::try_from(open.state.last_bowl).unwrap_or(0) + offset + 1;
            // A bowl that is emptied in its own round keeps for nobody.
            if names.is_empty() {
                continue;
            }
            bars.push(BowlBar {
                name: words.say_with("bowl-name", &[("number", number.to_string().into())]),
                words: words.list(&names),
                from: place(bowl.made_at),
                to: place(bowl.discard_at),
                planned: true,
            });
        }
        let ticks = today
            .plan
            .rounds
            .iter()
            .filter(|round| round.at.duration_since(begin) <= SPAN)
            .map(|round| Tick {
                at: place(round.at),
                label: words.clock(round.at, &today.zone),
            })
            .collect();
        (bars, ticks)
    }

    /// The bowls of the coming days from the making to the last dose, with a line at each round.
    fn days_of_bowls(&self, open: &Open, today: &Today) -> Option<Block> {
        let words = &self.words;
        let rounds = &today.plan.rounds;
        let begin = rounds.first()?.at;
        let shown = |at: Timestamp| at.duration_since(begin) < DAYS_SHOWN;
        let place = |at: Timestamp| {
            let seconds = at
                .duration_since(begin)
                .as_secs()
                .clamp(0, DAYS_SHOWN.as_secs());
            u16::try_from(seconds * 1000 / DAYS_SHOWN.as_secs()).unwrap_or(1000)
        };
        let last_use = |takes: &mut dyn Iterator<Item = usize>| {
            takes
                .filter_map(|round| rounds.get(round))
                .map(|r| r.at)
                .max()
        };
        let mut bars = Vec::new();
        for (index, record) in open.state.covered().into_iter().enumerate() {
            let mut takes = today
                .plan
                .from_standing
                .iter()
                .filter(|(bowl, _, _, _)| *bowl == index)
                .map(|(_, round, _, _)| *round);
            let Some(until) = last_use(&mut takes) else {
                continue;
            };
            bars.push(BowlBar {
                name: words.say_with(
                    "bowl-name",
                    &[("number", record.bowl.number.to_string().into())],
                ),
                words: words.clock_and_day(until, &today.zone, begin),
                from: 0,
                to: place(until),
                planned: false,
            });
        }
        let planned = today.plan.bowls.iter().filter(|bowl| shown(bowl.made_at));
        for (offset, bowl) in planned.enumerate() {
            let mut takes = bowl.takes.iter().map(|(round, _, _)| *round);
            let until = last_use(&mut takes).unwrap_or(bowl.made_at);
            let number = usize::try_from(open.state.last_bowl).unwrap_or(0) + offset + 1;
            bars.push(BowlBar {
                name: words.say_with("bowl-name", &[("number", number.to_string().into())]),
                words: words.clock_and_day(until, &today.zone, begin),
                from: place(bowl.made_at),
                to: place(until),
                planned: true,
            });
        }
        let mut day = None;
        let ticks = rounds
            .iter()
            .filter(|round| shown(round.at))
            .map(|round| {
                let first = day != Some(round.day);
                day = Some(round.day);
                Tick {
                    at: place(round.at),
                    label: if first {
                        words.short_weekday(round.day)
                    } else {
                        String::new()
                    },
                }
            })
            .collect();
        (!bars.is_empty()).then_some(Block::Bars { bars, ticks })
    }

    pub(super) fn ahead_reading(&self, open: &Open) -> ReadingView {
        let words = &self.words;
        let mut view = ReadingView::titled(words.say("ahead-title"));
        let Some(Ok(today)) = &open.today else {
            return view;
        };
        view.lead = words.say_with("ahead-lead", &[("tablets", today.plan.tablets.into())]);
        if !today.plan.proven {
            view.blocks.push(paragraph(
                words.say_with("ahead-bound", &[("count", today.plan.lower_bound.into())]),
            ));
        }
        view.blocks.extend(self.days_of_bowls(open, today));
        let mut day = None;
        for (index, round) in today.plan.rounds.iter().enumerate().take(8) {
            if day != Some(round.day) {
                day = Some(round.day);
                view.blocks.push(heading(words.date(round.day)));
            }
            let from_covered =
                today
                    .plan
                    .from_standing
                    .iter()
                    .any(|(_, when, _, _)| *when == index)
                    || today.plan.bowls.iter().any(|b| {
                        b.round < index && b.takes.iter().any(|(when, _, _)| *when == index)
                    });
            let covered = if from_covered {
                words.say("ahead-covered")
            } else {
                String::new()
            };
            view.blocks.push(Block::Row {
                left: words.clock(round.at, &today.zone),
                middle: words.say_with("ahead-bowls", &[("count", round.makes.len().into())]),
                right: covered,
            });
        }
        if let Some((key, _)) = today.rounds.last() {
            view.blocks.push(heading(words.say("ahead-end")));
            view.blocks.push(paragraph(
                words.say_with("ahead-end-day", &[("date", words.date(key.day).into())]),
            ));
        }
        view
    }
}
