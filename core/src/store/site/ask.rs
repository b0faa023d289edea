//! Questions of a site.

use jiff::Timestamp;
use jiff::civil::Date;
use rusqlite::types::Type;
use rusqlite::{Row, params};

use super::super::rows::FactRow;
use super::super::{Store, StoreError, facts};
use super::{home_of, homes, lots};
use crate::household::HouseholdId;
use crate::order::{Notice, parse_notice};
use crate::record::{Event, Fact, HandOutLine, LotName, effective};
use crate::site::{Count, Home, PeopleMark, Served, Stock, Totals};

/// A home in a list. Instants are told to the second.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HomeLine {
    pub home: HouseholdId,
    pub words: Option<String>,
    /// Of its newest code.
    pub issue: Option<u32>,
    pub people: u32,
    /// When its newest code was read.
    pub seen: Option<Timestamp>,
    /// The last hand-out, and the last day for which it is enough.
    pub served: Option<Timestamp>,
    pub enough_until: Option<Date>,
    /// Those that count.
    pub hand_outs: u32,
}

/// Of a home and its last hand-out.
const LINE: &str = "site_home.home, words, issue, site_home.people, seen, at, enough_until, hand_outs FROM site_home LEFT JOIN site_hand_out ON site_hand_out.home = site_home.home AND turn = hand_outs - 1";

/// How far back the pace of a site is measured, in seconds.
const LATELY: i64 = 3_600;

impl Store {
    /// A home, folded from its own facts; none of which nothing is known.
    ///
    /// # Errors
    /// [`StoreError::Damaged`] when one of its facts is not what was written.
    pub fn home(&self, id: HouseholdId) -> Result<Option<Home>, StoreError> {
        homes::fold(&self.connection, id)
    }

    /// When a lot was counted last, whoever did it.
    ///
    /// # Errors
    /// The disk's.
    pub fn last_count(&self, lot: &LotName) -> Result<Option<Timestamp>, StoreError> {
        lots::last_count(&self.connection, lot)
    }

    /// What was said of the packages of a lot, in the one order of facts.
    ///
    /// # Errors
    /// As [`Store::home`].
    pub fn said_of_lot(&self, lot: &LotName) -> Result<Vec<Fact>, StoreError> {
        lots::said_of(&self.connection, lot)
    }

    /// The messages of the issuer that were taken in and not withdrawn, each once, in the one order of all facts: of two rules the later counts.
    ///
    /// # Errors
    /// As [`Store::home`].
    pub fn notices(&self) -> Result<Vec<Notice>, StoreError> {
        let texts = self.notice_texts()?;
        let read = texts.iter().map(|text| parse_notice(text.as_bytes()));
        Ok(read.filter_map(Result::ok).collect())
    }

    /// The texts of the same messages, as they were taken in.
    ///
    /// # Errors
    /// As [`Store::home`].
    pub fn notice_texts(&self) -> Result<Vec<String>, StoreError> {
        let clause = "WHERE instr(body, '\"notice-taken\"') > 0 OR number IN (SELECT fact FROM site_correction) ORDER BY millis, counter, device, sequence";
        let facts: Vec<Fact> = facts::rows(&self.connection, clause, [])?
            .iter()
            .map(FactRow::fact)
            .collect::<Result<_, _>>()?;
        let mut notices: Vec<(Notice, String)> = Vec::new();
        for fact in effective(&facts).facts {
            if let Event::NoticeTaken { text } = &fact.event
                && let Ok(notice) = parse_notice(text.as_bytes())
                && !notices
                    .iter()
                    .any(|(known, _)| known.fingerprint == notice.fingerprint)
            {
                notices.push((notice, text.clone()));
            }
        }
        Ok(notices.into_iter().map(|(_, text)| text).collect())
    }

    /// What stands on the shelves.
    ///
    /// # Errors
    /// See [`StoreError`].
    pub fn stock(&self) -> Result<Stock, StoreError> {
        lots::all(&self.connection)
    }

    /// Homes in whose name or door each of these words is, in either case; none where there are no words.
    ///
    /// # Errors
    /// See [`StoreError`].
    pub fn find_homes(&self, words: &str, most: u32) -> Result<Vec<HomeLine>, StoreError> {
        let words = words.to_lowercase();
        let wanted: Vec<&str> = words.split_whitespace().collect();
        let Some(longest) = wanted.iter().max_by_key(|word| word.len()) else {
            return Ok(Vec::new());
        };
        let mut statement = self.connection.prepare_cached(
            "SELECT home, folded FROM site_home WHERE folded IS NOT NULL AND instr(folded, ?1) > 0 ORDER BY folded, home",
        )?;
        let mut rows = statement.query([longest])?;
        let most = usize::try_from(most).unwrap_or(usize::MAX);
        let mut found = Vec::new();
        while found.len() < most
            && let Some(row) = rows.next()?
        {
            let folded: String = row.get(1)?;
            if wanted.iter().all(|word| folded.contains(word)) {
                found.push(home_of(row, 0)?);
            }
        }
        let mut statement = self
            .connection
            .prepare_cached(&format!("SELECT {LINE} WHERE site_home.home = ?1"))?;
        let lines = found
            .into_iter()
            .map(|home| statement.query_row([&home.0], line));
        Ok(lines.collect::<rusqlite::Result<Vec<_>>>()?)
    }

    /// Homes whose newest code was read after their last hand-out, or which had none, the last one read first.
    ///
    /// # Errors
    /// See [`StoreError`].
    pub fn homes_waiting(&self, most: u32) -> Result<Vec<HomeLine>, StoreError> {
        let mut statement = self.connection.prepare_cached(&format!(
            "SELECT {LINE} WHERE waiting = 1 ORDER BY seen DESC, site_home.home LIMIT ?1"
        ))?;
        let lines = statement.query_map([most], line)?;
        Ok(lines.collect::<rusqlite::Result<Vec<_>>>()?)
    }

    /// How many things are to be settled in all homes.
    ///
    /// # Errors
    /// See [`StoreError`].
    pub fn to_settle(&self) -> Result<u32, StoreError> {
        let mut statement = self.connection.prepare_cached(
            "SELECT coalesce(sum(to_settle), 0) FROM site_home WHERE to_settle > 0",
        )?;
        Ok(statement.query_row([], |row| row.get(0))?)
    }

    /// The homes of which something is to be settled.
    ///
    /// # Errors
    /// As [`Store::home`].
    pub fn homes_to_settle(&self, most: u32) -> Result<Vec<Home>, StoreError> {
        let mut statement = self.connection.prepare_cached(
            "SELECT home FROM site_home WHERE to_settle > 0 ORDER BY words, home LIMIT ?1",
        )?;
        let ids = statement.query_map([most], |row| home_of(row, 0))?;
        let ids = ids.collect::<rusqlite::Result<Vec<_>>>()?;
        let homes = ids.into_iter().filter_map(|id| self.home(id).transpose());
        homes.collect()
    }

    /// Other homes that were served and once showed a code of the same people, and when they were served last.
    ///
    /// # Errors
    /// As [`Store::home`].
    pub fn same_people(
        &self,
        mark: &PeopleMark,
        except: HouseholdId,
    ) -> Result<Vec<(HouseholdId, Timestamp)>, StoreError> {
        let mut statement = self.connection.prepare_cached(
            "SELECT code.home, code.mark, at, nanos
             FROM (SELECT home, shelf, mark FROM site_home UNION ALL SELECT home, shelf, mark FROM site_older_code) AS code
             JOIN site_home ON site_home.home = code.home
             JOIN site_hand_out ON site_hand_out.home = code.home AND turn = hand_outs - 1
             WHERE code.shelf = ?1 AND code.home <> ?2 ORDER BY code.home",
        )?;
        let mut rows = statement.query(params![mark.shelf(), except.0])?;
        let mut same = Vec::new();
        while let Some(row) = rows.next()? {
            let other: PeopleMark =
                serde_json::from_str(&row.get::<_, String>(1)?).map_err(StoreError::damaged)?;
            if other.matches(mark) {
                same.push((home_of(row, 0)?, instant(row.get(2)?, row.get(3)?)?));
            }
        }
        // Found by one of its codes is enough.
        same.dedup();
        Ok(same)
    }

    /// The homes that got something of this lot.
    ///
    /// # Errors
    /// See [`StoreError`].
    pub fn homes_with_lot(&self, lot: &str) -> Result<Vec<HomeLine>, StoreError> {
        let mut statement = self.connection.prepare_cached(&format!(
            "SELECT {LINE} WHERE site_home.home IN (SELECT home FROM site_home_lot WHERE lot = ?1) ORDER BY words, site_home.home"
        ))?;
        let lines = statement.query_map([lot], line)?;
        Ok(lines.collect::<rusqlite::Result<Vec<_>>>()?)
    }

    /// How the site is doing at a moment.
    ///
    /// # Errors
    /// See [`StoreError`].
    pub fn site_totals(&self, now: Timestamp) -> Result<Totals, StoreError> {
        self.site_totals_with(&self.stock()?, now)
    }

    /// As [`Store::site_totals`], with only the given lots counted on: those that may go out.
    ///
    /// # Errors
    /// See [`StoreError`].
    pub fn site_totals_with(&self, stock: &Stock, now: Timestamp) -> Result<Totals, StoreError> {
        // Only the last hour's packs say how fast they leave; the rest is counted from an index alone.
        let lately = now.as_second().saturating_sub(LATELY + 1);
        let mut hand_outs = self.served("at < ?1", lately)?;
        let mut statement = self.connection.prepare_cached(
            "SELECT home, at, nanos, people, lines FROM site_hand_out WHERE at >= ?1",
        )?;
        let mut rows = statement.query([lately])?;
        while let Some(row) = rows.next()? {
            let lines: Vec<HandOutLine> =
                serde_json::from_str(&row.get::<_, String>(4)?).map_err(StoreError::damaged)?;
            let packs = lines.into_iter().map(|line| (line.lot, line.packs));
            hand_outs.push(Served {
                packs: packs.collect(),
                ..served(row)?
            });
        }
        Ok(Totals::of(hand_outs, stock, now))
    }

    /// How many were served at or after a moment.
    ///
    /// # Errors
    /// See [`StoreError`].
    pub fn served_since(&self, first: Timestamp) -> Result<Count, StoreError> {
        let mut hand_outs = self.served("at >= ?1", first.as_second())?;
        hand_outs.retain(|served| served.at >= first);
        Ok(Totals::of(hand_outs, &Stock::default(), first).all)
    }

    fn served(&self, when: &str, second: i64) -> Result<Vec<Served>, StoreError> {
        let mut statement = self.connection.prepare_cached(&format!(
            "SELECT home, at, nanos, people FROM site_hand_out WHERE {when}"
        ))?;
        let mut rows = statement.query([second])?;
        let mut hand_outs = Vec::new();
        while let Some(row) = rows.next()? {
            hand_outs.push(served(row)?);
        }
        Ok(hand_outs)
    }
}

/// A hand-out without its packs.
fn served(row: &Row<'_>) -> Result<Served, StoreError> {
    let people: Vec<u8> = row.get(3)?;
    let (pairs, _) = people.as_chunks::<2>();
    Ok(Served {
        home: home_of(row, 0)?,
        at: instant(row.get(1)?, row.get(2)?)?,
        people: pairs.iter().map(|pair| u16::from_be_bytes(*pair)).collect(),
        packs: Vec::new(),
    })
}

fn line(row: &Row<'_>) -> rusqlite::Result<HomeLine> {
    let moment = |at: Option<i64>| at.and_then(|at| Timestamp::from_second(at).ok());
    Ok(HomeLine {
        home: home_of(row, 0)?,
        words: row.get(1)?,
        issue: row.get(2)?,
        people: row.get(3)?,
        seen: moment(row.get(4)?),
        served: moment(row.get(5)?),
        enough_until: date(6, row.get(6)?)?,
        hand_outs: row.get(7)?,
    })
}

/// A day as it stands in a row.
pub(super) fn date(column: usize, day: Option<String>) -> rusqlite::Result<Option<Date>> {
    let wrong = || rusqlite::Error::InvalidColumnType(column, "day".to_owned(), Type::Text);
    day.map(|day| day.parse().map_err(|_| wrong())).transpose()
}

fn instant(second: i64, nanos: i32) -> Result<Timestamp, StoreError> {
    Timestamp::new(second, nanos).map_err(StoreError::damaged)
}
