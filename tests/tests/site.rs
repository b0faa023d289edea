//! A dispensing site: what each home may carry away, from which lots, what only the lead lets pass, and that facts add up alike everywhere.
#![expect(
    clippy::unwrap_used,
    reason = "what builds a case fails the test, wherever it stands"
)]

#[path = "site/book.rs"]
mod book;
#[path = "site/course.rs"]
mod course;
#[path = "site/day.rs"]
mod day;
#[path = "site/holds.rs"]
mod holds;
#[path = "site/lead.rs"]
mod lead;
#[path = "site/lots.rs"]
mod lots;
#[path = "site/merging.rs"]
mod merging;
#[path = "site/never.rs"]
mod never;
#[path = "site/paper_list.rs"]
mod paper_list;
#[path = "site/revisions.rs"]
mod revisions;
#[path = "site/same_people.rs"]
mod same_people;
#[path = "site/serving.rs"]
mod serving;
#[path = "site/settling.rs"]
mod settling;
#[path = "site/slip.rs"]
mod slip;
