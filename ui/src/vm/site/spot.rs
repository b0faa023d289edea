//! The places of a site in the window.

use hearthdose_core::record::{FactId, LotName};

/// Where one is at the site.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Spot {
    /// Which instructions the site works by.
    Orders,
    Order(usize),
    /// What the site is called, and this desk's mark.
    Name,
    /// The next home is awaited: scan, type, look up.
    Line,
    Find,
    Waiting,
    Family,
    /// What was typed of a family is thrown away.
    FamilyAway,
    /// The next home at the scale is awaited.
    Station,
    /// Who stands beside the scale and writes weights down.
    Weigher,
    /// Who of a home is weighed.
    StationHome,
    /// The home in front.
    Home,
    Person(u16),
    Ask(u16, String),
    Weigh(u16),
    Lift(u16, String),
    /// The lead says why this may go out.
    Lead,
    /// The receipt of the hand-out.
    Slip,
    /// A hand-out of the paper list is typed in.
    List,
    /// The lead says why a hand-out is taken back.
    Undo(FactId),
    Shelves,
    Receive,
    Count(LotName),
    /// What a package says is read once more.
    LotRead(LotName),
    Day,
    /// Records of other tablets.
    Shift,
    /// One that was not met before.
    ShiftOf(usize),
    /// The own record as codes.
    Codes,
    /// What tablets left to be settled, by homes.
    Settle,
    /// Both readings of one matter.
    Matter,
    /// Why one of them is right.
    Because,
    /// Before the table of a home is set for the first time.
    Table,
    /// At which other times the medicine is given there.
    TableTime,
    /// Cautions and numbers.
    Help,
    /// How this device shows and tells things.
    Settings,
    /// Who may do what on this device.
    Roles,
    /// The lead says that a home is forgotten.
    Forget,
    /// The receipt of a home that was forgotten.
    Forgotten,
}
