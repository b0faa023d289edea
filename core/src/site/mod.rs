//! A dispensing site: what stands on its shelves, which homes came, and what each may carry away.
//!
//! Everything is folded from facts, so it does not matter where or in which order they arrived.
//! Counts are sums of movements; a count below zero stays visible as such.
//! What a code says is never trusted: doses are worked out anew ([`Serving`]).
//! Nothing is ever refused for good here: what a helper may not decide goes to the lead, with the reason.

mod course;
mod handed_out;
mod home;
mod merged;
mod name;
mod paper_list;
mod pick;
mod private;
mod roles;
mod same_people;
mod serve;
mod settle;
mod slips;
mod stock;
mod told;
mod totals;
mod wants;

pub use handed_out::HandedOut;
pub use home::{Home, Seen};
pub use name::{NameUnfit, SiteName};
pub use paper_list::{NotWritten, Written, from_paper};
pub use pick::{Need, PassedOver, Pick, Take, Wanted, Why, pick};
pub use private::is_fact_private;
pub use roles::{Pin, PinCheck, PinSet, PinUnfit, Role, TRIES, wait_after};
pub use same_people::PeopleMark;
pub use serve::{Bag, Desk, Serving, Shown, serve};
pub use settle::{Matter, is_twice};
pub use slips::{hand_out, slip, take_back};
pub use stock::{LotStock, Movement, Stock};
pub use told::{ForLead, Remark};
pub use totals::{Count, LotOutlook, Served, Totals, hour_of};
