//! What the outside must bring: a clock, names that are unique, and the place where records are kept.

use hearthdose_core::store::{Opening, Store, StoreError};
use hearthdose_core::time::Now;
use uuid::Uuid;

/// The clocks of this machine.
pub trait Clock {
    fn now(&self) -> Now;
    /// Name of the zone the machine is in, as in the zone database.
    fn zone(&self) -> String;
}

/// Names that no other device gives.
pub trait Ids {
    fn fresh(&mut self) -> Uuid;
}

/// Which record is meant.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Shelf {
    /// The household's own record.
    Household,
    /// Invented people; can be wiped at any time.
    Practice,
}

/// Where records are kept.
pub trait Records {
    /// Whether there is a record already.
    fn exists(&self, shelf: Shelf) -> bool;

    /// Opens a record, or makes it.
    ///
    /// # Errors
    /// What the store says; nothing is lost.
    fn open(&self, shelf: Shelf) -> Result<(Store, Opening), StoreError>;

    /// Puts the practice record away and begins anew.
    ///
    /// # Errors
    /// What the store says.
    fn wipe_practice(&self) -> Result<(), StoreError>;
}
