//! Lists and lines of the round: what goes on the table, what stands on a label.

use hearthdose_core::order::{ContactKind, WaterRule};
use hearthdose_core::prep::{BowlId, Brew, Prep};
use hearthdose_core::schedule;
use hearthdose_core::time::Now;
use hearthdose_core::today;
use jiff::civil::{Date, DateTime, Time};
use jiff::tz::TimeZone;

use super::view::Thing;
use super::{Kitchen, Open};
use crate::text::Measure;

impl Kitchen {
    /// The day of the home, or of this device where no home is open.
    pub(super) fn day(&self, now: &Now) -> Date {
        self.local(now).date()
    }

    /// The time of day of the home, to the minute.
    pub(super) fn local_minute(&self, now: &Now) -> Time {
        let time = self.local(now).time();
        Time::new(time.hour(), time.minute(), 0, 0).unwrap_or(Time::midnight())
    }

    fn local(&self, now: &Now) -> DateTime {
        let zone = match &self.open {
            Some(open) => self.zone(open),
            None => schedule::zone(&self.clock.zone()).unwrap_or(TimeZone::UTC),
        };
        zone.to_datetime(now.wall)
    }

    /// "Thursday, July 19, 2028".
    pub(super) fn long_date(&self, date: Date) -> String {
        self.words.long_date(date)
    }

    /// The number for more tablets, or the one for questions.
    pub(super) fn phone_for_more(&self, open: &Open) -> String {
        self.phone_of(open, ContactKind::Refill)
            .unwrap_or_else(|| self.phone(open))
    }

    /// The household's own zone; its times are told in it wherever the machine is.
    pub(super) fn zone(&self, open: &Open) -> TimeZone {
        let name = open
            .state
            .household
            .as_ref()
            .map(|household| household.zone.as_str())
            .unwrap_or_default();
        hearthdose_core::schedule::zone(name).unwrap_or(TimeZone::UTC)
    }

    /// "Bowls 3 and 4 soak together", or "Bowl 3".
    pub(super) fn bowls_eyebrow(&self, prep: &Prep, bowls: &[BowlId]) -> String {
        let numbers: Vec<String> = bowls
            .iter()
            .filter_map(|bowl| prep.brew(*bowl))
            .map(|brew| brew.bowl.number.to_string())
            .collect();
        let key = if numbers.len() > 1 {
            "bowls-together"
        } else {
            "bowl-alone"
        };
        self.words
            .say_with(key, &[("numbers", self.words.list(&numbers).into())])
    }

    /// Everything that must stand on the table before water meets a tablet.
    pub(super) fn things(
        &self,
        open: &Open,
        prep: &Prep,
        bowls: &[BowlId],
        measure: Measure,
    ) -> Vec<Thing> {
        let words = &self.words;
        let brews: Vec<&Brew> = bowls.iter().filter_map(|bowl| prep.brew(*bowl)).collect();
        let tablets: u32 = brews.iter().map(|brew| brew.bowl.tablets).sum();
        let each = brews.first().map(|brew| brew.bowl.tablets).unwrap_or(1);
        let water = brews
            .first()
            .map(|brew| words.volume(brew.bowl.water, measure))
            .unwrap_or_default();
        let mut things = vec![Thing {
            words: words.say_with("thing-bowls", &[("count", brews.len().into())]),
            detail: words.say_with(
                "thing-bowls-detail",
                &[("numbers", self.numbers(&brews).into())],
            ),
        }];
        things.push(Thing {
            words: words.say_with("thing-tablets", &[("count", tablets.into())]),
            detail: words.say_with("thing-tablets-detail", &[("count", each.into())]),
        });
        let rule = match today::water_rule(&open.state, &open.order) {
            WaterRule::Tap => "water-tap",
            WaterRule::BoilAndCool => "water-boil",
            WaterRule::BottledOnly => "water-bottled",
        };
        things.push(Thing {
            words: words.say_with("thing-water", &[("amount", water.into())]),
            detail: words.say(rule),
        });
        let tool = match measure {
            Measure::Spoon => ("thing-spoon", "thing-spoon-detail"),
            Measure::Syringe => ("thing-syringe", "thing-syringe-detail"),
        };
        things.push(Thing {
            words: words.say(tool.0),
            detail: words.say(tool.1),
        });
        things.push(Thing {
            words: words.say("thing-small-bowl"),
            detail: words.say("thing-small-bowl-detail"),
        });
        things
    }

    fn numbers(&self, brews: &[&Brew]) -> String {
        let numbers: Vec<String> = brews
            .iter()
            .map(|brew| brew.bowl.number.to_string())
            .collect();
        self.words.list(&numbers)
    }

    /// What to write on the paper that lies on a covered bowl.
    pub(super) fn label_lines(&self, open: &Open, brew: &Brew, now: &Now) -> Vec<Thing> {
        let words = &self.words;
        let zone = self.zone(open);
        let measure = brew.bowl.tool.map_or(Measure::Spoon, Measure::from);
        let mut lines: Vec<Thing> = brew
            .bowl
            .later
            .iter()
            .map(|later| Thing {
                words: words.say_with("label-for", &[("name", later.name.as_str().into())]),
                detail: words.say_with(
                    "label-for-detail",
                    &[
                        ("amount", words.volume(later.amount, measure).into()),
                        (
                            "time",
                            words.clock_and_day(later.at, &zone, now.wall).into(),
                        ),
                    ],
                ),
            })
            .collect();
        if let Some(water) = &brew.bowl.water_at {
            let until = water.wall.checked_add(brew.bowl.keep).unwrap_or(water.wall);
            lines.push(Thing {
                words: words.say_with(
                    "label-until",
                    &[("time", words.clock_and_day(until, &zone, now.wall).into())],
                ),
                detail: words.say_with(
                    "label-made",
                    &[("time", words.clock(water.wall, &zone).into())],
                ),
            });
        }
        lines
    }

    /// The order's own name for a food or drink, in the language of the screen where it has one.
    pub(super) fn food_name(&self, name: &str) -> String {
        let order = self.open.as_ref().map(|open| &open.order);
        let vehicle = order.and_then(|order| {
            let mut all = order.recipe.iter().flat_map(|recipe| &recipe.vehicles);
            let vehicle = all.find(|vehicle| vehicle.name == name)?;
            Some(self.words.named(order, &vehicle.name, &vehicle.words))
        });
        let name = vehicle.unwrap_or(name);
        let mut letters = name.chars();
        letters.next().map_or(String::new(), |first| {
            first.to_uppercase().chain(letters).collect()
        })
    }
}
