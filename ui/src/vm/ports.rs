//! What the outside must bring: a clock, names that are unique, and the place where records are kept.

use std::sync::Arc;

use hearthdose_core::exchange::{DeviceRandom, OpeningKey};
use hearthdose_core::store::{Opening, Store, StoreError};
use hearthdose_core::time::Now;
use uuid::Uuid;

use crate::text::Language;

/// The clocks of this machine.
pub trait Clock {
    fn now(&self) -> Now;
    /// Name of the zone the machine is in, as in the zone database.
    fn zone(&self) -> String;
}

/// Names that no other device gives.
pub trait Ids {
    fn fresh(&mut self) -> Uuid;

    /// The secret of this device, from which its keys follow; none where none can be kept.
    fn device_random(&mut self) -> Option<DeviceRandom>;

    /// 32 bytes that nobody can guess and that were never used; none where there are none.
    fn random(&mut self) -> Option<[u8; 32]>;

    /// The key that opens what was sealed for the site, where this device has it.
    fn opening_key(&mut self) -> Option<OpeningKey> {
        None
    }
}

/// Which record is meant.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Shelf {
    /// A home's own record; homes are numbered from 1.
    Household(u16),
    /// Invented people; can be wiped at any time.
    Practice,
    /// What a dispensing site, or a helper at the door, writes down.
    Site,
}

/// A file that may be an order or a notice.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Paper {
    /// Its name without the folders.
    pub name: String,
    /// The folder or disk it lies in, by the name that people know.
    pub place: String,
    pub bytes: Vec<u8>,
}

/// Where records are kept.
pub trait Records {
    /// Numbers of the homes that have a record, the one used last first.
    fn homes(&self) -> Vec<u16>;

    /// Files in the folders where people put them that may be an order or a notice.
    fn papers(&self) -> Vec<Paper>;

    /// Files in the same folders that other tablets of a site wrote for this one.
    fn shifts(&self) -> Vec<Paper>;

    /// Texts of the codes in pictures that lie in the same folders.
    fn codes(&self) -> Vec<String>;

    /// Puts a file into the folder where people look for theirs, in place of one of the same name; gives the folder's name.
    ///
    /// None where that cannot be done.
    fn leave(&self, name: &str, bytes: &[u8]) -> Option<String>;

    /// How this device shows and tells things, as it was kept; none where nothing was kept yet.
    ///
    /// What is there and cannot be read comes as an empty text.
    fn settings(&self) -> Option<String>;

    /// Keeps the settings of this device in place of the earlier ones; false where that cannot be done.
    fn keep_settings(&self, text: &str) -> bool;

    /// Whether there is a record already.
    fn exists(&self, shelf: Shelf) -> bool;

    /// Opens a record, or makes it.
    ///
    /// # Errors
    /// What the store says; nothing is lost.
    fn open(&self, shelf: Shelf) -> Result<(Store, Opening), StoreError>;

    /// Takes a record away for good: the practice, or that of a home which is forgotten.
    ///
    /// # Errors
    /// What the disk says; then it may still be there.
    fn wipe(&self, shelf: Shelf) -> Result<(), StoreError>;
}

/// What a camera sees, as a mirror shows it, small enough for a screen: rows of gray pixels, 0 black to 255 white.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mirrored {
    pub width: u32,
    pub height: u32,
    pub pixels: Arc<[u8]>,
}

/// Why a camera that is there shows nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoSight {
    /// Another program has it.
    Busy,
    /// This program may not use it.
    Denied,
    /// It shows nothing that can be read.
    Broken,
}

/// What comes of a look through a camera.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Sight {
    /// There is no camera.
    Nothing,
    /// It is being turned on.
    Dark,
    Unseen(NoSight),
    Seen {
        picture: Mirrored,
        /// Texts of the codes that came before the camera since the last look, those of one frame together.
        codes: Vec<Vec<String>>,
    },
}

/// A camera before which codes are held.
///
/// It may be looked through at any moment: looking never waits, and reading is done elsewhere.
pub trait Camera {
    /// Whether there is one; answered at once, and never by turning it on.
    fn is_there(&self) -> bool;

    /// What it sees now; turns it on if it is off.
    fn look(&mut self) -> Sight;

    /// Turns it off.
    fn rest(&mut self);
}

/// When to ring, and what for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Ring {
    /// When a wait is over.
    After { seconds: i32, words: String },
    /// At the next time the device's clock shows this hour and minute.
    At { hour: i8, minute: i8, words: String },
}

/// What rings: the device's own clock, or this program while it runs.
pub trait Bell {
    /// Asks the device to ring; false where nothing there can.
    fn ring(&mut self, ring: &Ring) -> bool;

    /// Ends what rings now, because somebody is there; rings still to come stay.
    ///
    /// A clock of the device's own is quieted there.
    fn hush(&mut self) {}

    /// Whether what rings may sound, now and for what was asked before.
    ///
    /// A clock of the device's own sounds as it is set there.
    fn let_sound(&mut self, _yes: bool) {}

    /// Whether what rings can be heard.
    fn sounds(&self) -> bool {
        true
    }

    /// Whether a message is shown when it rings.
    fn writes(&self) -> bool {
        true
    }

    /// Whether the device shows by itself what it was asked for.
    fn shows_itself(&self) -> bool {
        true
    }
}

/// What speaks on this device.
pub trait Voice {
    /// Whether there is something that speaks; answered at once, and never by starting it.
    fn is_there(&self) -> bool;

    /// Says these words instead of what it was saying, and never waits for that; false where nothing speaks.
    fn say(&mut self, words: &str, language: Language) -> bool;

    /// Whether the last words are being said; none while that is not known yet.
    fn said(&self) -> Option<bool> {
        Some(true)
    }

    /// Ends what is being said.
    fn stop(&mut self);
}

/// Where a file lies that was left for people.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Left {
    /// The file's name; another one than asked for where that belongs to somebody else.
    pub name: String,
    /// The folder, by the name that people know.
    pub place: String,
    /// The device can hand the file to other programs.
    pub file: bool,
}

/// What is done with a file that was left.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Handing {
    /// Another program shows it, takes it in or prints it.
    Open,
    /// Another program sends it to somebody.
    Send,
}

/// The way of files out of a program that can write to no folder people look into, as on a phone.
pub trait Outbox {
    /// Leaves a file as [`Records::leave`] does; none where that cannot be done.
    fn leave(&mut self, name: &str, bytes: &[u8]) -> Option<Left>;

    /// Hands the file that was left last to a program that the person chooses; false where there is no such program.
    fn hand_on(&mut self, handing: Handing) -> bool;
}
