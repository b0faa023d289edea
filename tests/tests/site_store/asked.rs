//! Everything that can be asked of a site's record, and the same from the pure folds over all facts.

use hearthdose_core::household::HouseholdId;
use hearthdose_core::record::{Event, Fact, LotName, SiteEvent, Stamp};
use hearthdose_core::site::{HandedOut, Home, LotStock, PeopleMark, Stock, Totals};
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
}

/// An hour into the day, in the middle of it.
fn now() -> Timestamp {
    Timestamp::from_millisecond(MORNING + 6_000_500).unwrap()
}

fn mark(home: &Home) -> Option<PeopleMark> {
    PeopleMark::of(home.code()?)
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

/// People in the code that was shown, or in the newest where that is not here.
fn people(home: &Home, out: &HandedOut) -> u64 {
    let shown = home.seen.iter().rfind(|seen| seen.code.issue == out.issue);
    let code = shown.or(home.seen.last()).map(|seen| &seen.code);
    code.map_or(0, |code| u64::try_from(code.people.len()).unwrap())
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
        let served = others
            .filter(|other| mark(other).is_some_and(|other| other.matches(&mine)))
            .filter_map(|other| Some((other.id, other.handed_out.last()?.at)));
        served.collect()
    };
    let stock = Stock::fold(facts);
    let outs = known.iter().flat_map(|home| {
        let outs = home.handed_out.iter();
        outs.map(|out| {
            let packs = out.lines.iter().map(|line| (line.lot.clone(), line.packs));
            (out.at, people(home, out), packs.collect())
        })
    });
    Answers {
        lots: lots(&stock),
        found,
        found_by_two: lines(&|home| has(home, "gate") && has(home, "éclair")),
        waiting,
        with_lot,
        same: marks.map(same).collect(),
        totals: Totals::of(outs, &stock, now()),
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
