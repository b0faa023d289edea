//! Everything that can be asked of a site's record, and the same from the pure folds over all facts.

use std::collections::BTreeSet;

use hearthdose_core::household::HouseholdId;
use hearthdose_core::record::{Event, Fact, LotName, SiteEvent, Stamp};
use hearthdose_core::site::{Count, HandedOut, Home, LotStock, PeopleMark, Seen, Stock, Totals};
use hearthdose_core::store::{HomeLine, Store};
use jiff::Timestamp;

use crate::facts::MORNING;
use crate::history::HOMES;

#[derive(Debug, PartialEq)]
pub struct Answers {
    pub homes: Vec<Option<Home>>,
    pub lots: Vec<(LotName, LotStock)>,
    /// By the words `BLUE`.
    pub found: Vec<HomeLine>,
    /// By the words `gate éclair`.
    pub found_by_two: Vec<HomeLine>,
    pub waiting: Vec<HomeLine>,
    pub with_lot: Vec<HomeLine>,
    /// For each home with a code, other homes of its people.
    pub same: Vec<Vec<(HouseholdId, Timestamp)>>,
    pub totals: Totals,
    /// Served at or after the middle of the day.
    pub today: Count,
    /// How much is to be settled, and in which homes.
    pub to_settle: u32,
    pub unsettled: Vec<HouseholdId>,
}

/// An hour into the day, in the middle of it.
fn now() -> Timestamp {
    Timestamp::from_millisecond(MORNING + 6_000_500).unwrap()
}

fn mark(home: &Home) -> Option<PeopleMark> {
    PeopleMark::of(home.code()?)
}

fn ids<'a>(homes: impl IntoIterator<Item = &'a Home>) -> Vec<HouseholdId> {
    let mut ids: Vec<HouseholdId> = homes.into_iter().map(|home| home.id).collect();
    ids.sort();
    ids
}

fn lots(stock: &Stock) -> Vec<(LotName, LotStock)> {
    stock
        .lots()
        .map(|(name, lot)| (name.clone(), lot.clone()))
        .collect()
}

pub fn ask(store: &Store) -> Answers {
    let homes: Vec<_> = HOMES
        .iter()
        .map(|home| store.home(*home).unwrap())
        .collect();
    let marks = homes
        .iter()
        .flatten()
        .filter_map(|home| Some((home.id, mark(home)?)));
    Answers {
        lots: lots(&store.stock().unwrap()),
        found: store.find_homes("BLUE", 9).unwrap(),
        found_by_two: store.find_homes(" gate éclair", 9).unwrap(),
        waiting: store.homes_waiting(9).unwrap(),
        with_lot: store.homes_with_lot("A1").unwrap(),
        same: marks
            .map(|(id, mark)| store.same_people(&mark, id).unwrap())
            .collect(),
        totals: store.site_totals(now()).unwrap(),
        today: store.served_since(now()).unwrap(),
        to_settle: store.to_settle().unwrap(),
        unsettled: ids(&store.homes_to_settle(9).unwrap()),
        homes,
    }
}

fn to_the_second(at: Timestamp) -> Timestamp {
    Timestamp::from_second(at.as_second()).unwrap()
}

fn line(home: &Home) -> HomeLine {
    let last = home.handed_out.last();
    HomeLine {
        home: home.id,
        words: home.words.clone(),
        issue: home.code().map(|code| code.issue),
        people: home
            .code()
            .map_or(0, |code| u32::try_from(code.people.len()).unwrap()),
        seen: home.seen.last().map(|seen| to_the_second(seen.at)),
        served: last.map(|out| to_the_second(out.at)),
        enough_until: last.and_then(|out| out.enough_until),
        hand_outs: u32::try_from(home.handed_out.len()).unwrap(),
    }
}

/// Hand-outs, homes and people, each once, counted one by one.
fn count<'a>(outs: impl Iterator<Item = &'a (HouseholdId, HandedOut)>) -> Count {
    let (mut homes, mut people) = (BTreeSet::new(), BTreeSet::new());
    let mut hand_outs = 0;
    for (home, out) in outs {
        hand_outs += 1;
        homes.insert(*home);
        people.extend(out.people.iter().map(|person| (*home, *person)));
    }
    Count {
        hand_outs,
        homes: u64::try_from(homes.len()).unwrap(),
        people: u64::try_from(people.len()).unwrap(),
    }
}

fn hour(out: &HandedOut) -> i64 {
    out.at.as_second() / 3_600
}

/// The counts of the totals; how long lots last is the fold's own.
fn totals(outs: &[(HouseholdId, HandedOut)], stock: &Stock) -> Totals {
    let of_hour = |which: i64| count(outs.iter().filter(|(_, out)| hour(out) == which));
    let hours: BTreeSet<i64> = outs.iter().map(|(_, out)| hour(out)).collect();
    let is_lately = |out: &HandedOut| {
        let ago = now().duration_since(out.at).as_secs();
        (0..3_600).contains(&ago)
    };
    let served = outs.iter().map(|(home, out)| out.served(*home));
    Totals {
        hours: hours
            .into_iter()
            .map(|hour| {
                let at = Timestamp::from_second(hour * 3_600).unwrap();
                (at, of_hour(hour))
            })
            .collect(),
        all: count(outs.iter()),
        last_hour: count(outs.iter().filter(|(_, out)| is_lately(out))),
        lots: Totals::of(served, stock, now()).lots,
    }
}

/// The same from the folds alone.
pub fn expect(facts: &[Fact]) -> Answers {
    let homes: Vec<Option<Home>> = HOMES.iter().map(|home| Home::fold(*home, facts)).collect();
    let known: Vec<&Home> = homes.iter().flatten().collect();
    let lines = |is_in: &dyn Fn(&Home) -> bool| -> Vec<HomeLine> {
        let found = known.iter().filter(|home| is_in(home));
        found.map(|home| line(home)).collect()
    };
    let has = |home: &Home, word: &str| {
        let words = home.words.as_deref().unwrap_or_default();
        words.to_lowercase().contains(word)
    };
    let mut found = lines(&|home| has(home, "blue"));
    found.sort_by_key(|line| (line.words.as_ref().unwrap().to_lowercase(), line.home));
    let mut waiting = lines(&|home| {
        let served = home.handed_out.last().map(|out| out.at);
        home.seen
            .last()
            .is_some_and(|seen| served.is_none_or(|at| at < seen.at))
    });
    waiting.sort_by_key(|line| (std::cmp::Reverse(line.seen), line.home));
    let mut with_lot = lines(&|home| {
        let mut lines = home.handed_out.iter().flat_map(|out| &out.lines);
        lines.any(|line| line.lot.lot == "A1")
    });
    with_lot.sort_by_key(|line| (line.words.clone(), line.home));
    let marks = known.iter().filter_map(|home| Some((home.id, mark(home)?)));
    let same = |(id, mine): (HouseholdId, PeopleMark)| {
        let others = known.iter().filter(|other| other.id != id);
        let is_same = |seen: &Seen| PeopleMark::of(&seen.code).is_some_and(|m| m.matches(&mine));
        let served = others
            .filter(|other| other.seen.iter().any(is_same))
            .filter_map(|other| Some((other.id, other.handed_out.last()?.at)));
        served.collect()
    };
    let stock = Stock::fold(facts);
    let outs = known
        .iter()
        .flat_map(|home| home.handed_out.iter().map(|out| (home.id, out.clone())));
    let outs: Vec<(HouseholdId, HandedOut)> = outs.collect();
    Answers {
        lots: lots(&stock),
        found,
        found_by_two: lines(&|home| has(home, "gate") && has(home, "éclair")),
        waiting,
        with_lot,
        same: marks.map(same).collect(),
        totals: totals(&outs, &stock),
        today: count(outs.iter().filter(|(_, out)| out.at >= now())),
        to_settle: known
            .iter()
            .map(|home| u32::try_from(home.to_settle().len()).unwrap())
            .sum(),
        unsettled: ids(known
            .iter()
            .filter(|home| !home.to_settle().is_empty())
            .copied()),
        homes,
    }
}

/// Facts about a home that are older than its last erasure.
pub fn should_be_gone(facts: &[Fact]) -> Vec<&Fact> {
    let erased = |of: HouseholdId| -> Option<Stamp> {
        let erasures = facts.iter().filter(|fact| {
            matches!(&fact.event, Event::Site { site: SiteEvent::HomeErased { home, .. } } if *home == of)
        });
        erasures.map(|fact| fact.stamp).max()
    };
    let is_gone = |fact: &&Fact| match &fact.event {
        Event::Site {
            site: SiteEvent::HomeErased { .. },
        } => false,
        Event::Site { site } => site
            .home()
            .and_then(erased)
            .is_some_and(|erased| fact.stamp <= erased),
        _ => false,
    };
    facts.iter().filter(is_gone).collect()
}
