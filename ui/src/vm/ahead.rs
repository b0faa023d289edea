//! The coming days: bowls over time, tablets, the end of the course.

use hearthdose_core::mixture::{Amount, Thing, shopping};
use hearthdose_core::time::Now;
use hearthdose_core::today::{self, LotStanding, Today};
use jiff::{SignedDuration, Timestamp};

use super::make::{heading, paragraph};
use super::view::{Block, BowlBar, Note, ReadingView, Tick};
use super::{Kitchen, Open};

/// Rounds that are told in words.
const ROUNDS_LISTED: usize = 6;
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

    pub(super) fn ahead_reading(&self, open: &Open, now: &Now) -> ReadingView {
        let words = &self.words;
        let mut view = ReadingView::titled(words.say("ahead-title"));
        let Some(Ok(today)) = &open.today else {
            return view;
        };
        view.blocks.extend(self.days_of_bowls(open, today));
        view.blocks.extend(self.coming_rounds(today));
        view.blocks.extend(self.medicine_left(open, today, now));
        if let Some((key, _)) = today.rounds.last() {
            view.blocks.push(heading(words.say("ahead-end")));
            let end = words.say_with("ahead-end-day", &[("date", words.date(key.day).into())]);
            view.blocks.push(paragraph(end));
        }
        if open.order.recipe.is_some() {
            let fresh = open.state.household.as_ref().is_some_and(|h| h.fresh);
            view.blocks.push(heading(words.say("ahead-how")));
            view.blocks.push(Block::Action {
                id: "fresh".to_owned(),
                label: words.say(if fresh { "ahead-fresh" } else { "ahead-fewest" }),
                detail: words.say(if fresh {
                    "ahead-fresh-change"
                } else {
                    "ahead-fewest-change"
                }),
            });
        }
        view.blocks.push(heading(words.say("ahead-paper")));
        for (id, label, detail) in [
            ("print-home", "print-home", "print-home-what"),
            ("calendar", "calendar-make", "calendar-what"),
        ] {
            view.blocks.push(Block::Action {
                id: id.to_owned(),
                label: words.say(label),
                detail: words.say(detail),
            });
        }
        view.blocks.push(heading(words.say("ahead-shopping")));
        view.blocks.extend(self.shopping_list(open, today));
        view
    }

    fn coming_rounds(&self, today: &Today) -> Vec<Block> {
        let words = &self.words;
        let mut blocks = Vec::new();
        let mut day = None;
        for (index, round) in today.plan.rounds.iter().enumerate().take(ROUNDS_LISTED) {
            if day != Some(round.day) {
                day = Some(round.day);
                blocks.push(heading(words.date(round.day)));
            }
            let standing = &today.plan.from_standing;
            let from_covered = standing.iter().any(|(_, when, _, _)| *when == index)
                || today.plan.bowls.iter().any(|bowl| {
                    bowl.round < index && bowl.takes.iter().any(|(when, _, _)| *when == index)
                });
            let covered = if from_covered {
                words.say("ahead-covered")
            } else {
                String::new()
            };
            blocks.push(Block::Row {
                left: words.clock(round.at, &today.zone),
                middle: words.say_with("ahead-bowls", &[("count", round.makes.len().into())]),
                right: covered,
            });
        }
        blocks
    }

    /// Tablets left and needed, the day by which more must be there, and lots somebody said something about.
    fn medicine_left(&self, open: &Open, today: &Today, now: &Now) -> Vec<Block> {
        let words = &self.words;
        let mut blocks = vec![heading(words.say("ahead-tablets"))];
        let row = |key: &str, right: String| Block::Row {
            left: words.say(key),
            middle: String::new(),
            right,
        };
        if !open.state.packs.is_empty() {
            blocks.push(row(
                "ahead-left",
                open.state.tablets_of(&open.order.id).left().to_string(),
            ));
        }
        if today.plan.tablets > 0 {
            blocks.push(row("ahead-needed", today.plan.tablets.to_string()));
        }
        if !today.plan.proven {
            blocks.push(paragraph(words.say_with(
                "ahead-bound",
                &[("count", today.plan.lower_bound.into())],
            )));
        }
        if let Some(date) = today::refill_date(&open.state, &open.order, today) {
            let values = [
                ("date", words.date(date).into()),
                ("phone", self.phone_for_more(open).into()),
            ];
            let late = date <= self.day(now);
            let key = if late {
                "ahead-refill-now"
            } else {
                "ahead-refill"
            };
            blocks.push(Block::Note(Note::new(
                words.say_with(key, &values),
                words.say_with("ahead-refill-body", &values),
                None,
            )));
        }
        blocks.extend(self.lot_notes(open).into_iter().map(Block::Note));
        if super::setup::counts_tablets(&open.order) {
            blocks.push(Block::Action {
                id: "packs".to_owned(),
                label: words.say("ahead-packs"),
                detail: words.say("ahead-packs-detail"),
            });
        }
        blocks
    }

    /// Bottles in the house that must be set aside or brought back, or that keep longer than printed.
    pub(super) fn lot_notes(&self, open: &Open) -> Vec<Note> {
        let words = &self.words;
        today::lots(&open.state, &open.order)
            .into_iter()
            .filter_map(|lot| {
                let name = [("lot", lot.lot.as_str().into())];
                let (title, body) = match lot.standing {
                    LotStanding::AsPrinted => return None,
                    LotStanding::Extended { until } => {
                        let values = [("date", words.date(until).into())];
                        ("lot-extended", words.say_with("lot-extended-body", &values))
                    }
                    LotStanding::SetAside => ("lot-aside", self.call_for_more(open)),
                    LotStanding::BringBack => ("lot-back", self.call_for_more(open)),
                };
                Some(Note::new(words.say_with(title, &name), body, None))
            })
            .collect()
    }

    fn call_for_more(&self, open: &Open) -> String {
        let phone = self.phone_for_more(open);
        self.words.say_with("lot-call", &[("phone", phone.into())])
    }

    fn shopping_list(&self, open: &Open, today: &Today) -> Vec<Block> {
        let words = &self.words;
        let seats: Vec<_> = today.seats.iter().map(|(_, seat)| seat.clone()).collect();
        shopping(&open.order, &today.plan, &seats)
            .into_iter()
            .map(|need| Block::Row {
                left: self.thing_words(open, &need.thing),
                middle: String::new(),
                right: match need.amount {
                    Amount::Count(count) => count.to_string(),
                    Amount::Volume(volume) => {
                        words.say_with("amount-ml", &[("ml", volume.millilitres().into())])
                    }
                },
            })
            .collect()
    }

    fn thing_words(&self, open: &Open, thing: &Thing) -> String {
        let words = &self.words;
        match thing {
            Thing::Tablets { medicine, strength } => words.say_with(
                "need-tablets",
                &[
                    ("medicine", medicine.as_str().into()),
                    ("strength", strength.as_str().into()),
                ],
            ),
            Thing::Liquid { medicine, strength } => words.say_with(
                "need-liquid",
                &[
                    ("medicine", medicine.as_str().into()),
                    ("strength", strength.as_str().into()),
                ],
            ),
            Thing::SpareTablets => words.say("need-spare"),
            Thing::Packs { size, liquid, own } => {
                let key = match (liquid, own) {
                    (false, false) => "need-packs",
                    (false, true) => "need-packs-own",
                    (true, _) => "need-bottles",
                };
                words.say_with(key, &[("size", size.to_string().into())])
            }
            Thing::Water => words.say("need-water"),
            Thing::Drink { any_of, .. } => {
                let vehicles = open.order.recipe.iter().flat_map(|r| &r.vehicles);
                let names: Vec<String> = vehicles
                    .enumerate()
                    .filter(|(index, _)| any_of.contains(index))
                    .map(|(_, vehicle)| self.food_name(&vehicle.name))
                    .collect();
                words.say_with("need-drink", &[("names", words.either(&names).into())])
            }
            Thing::Sugar => words.say("need-sugar"),
            Thing::Teaspoon => words.say("thing-spoon"),
            Thing::Bowls => words.say("need-bowls"),
            Thing::BowlToGiveFrom => words.say("need-give-bowl"),
        }
    }
}
