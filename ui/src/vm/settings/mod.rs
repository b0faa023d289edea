//! How this device shows and tells things. It belongs to the device, never to a home's record.

mod page;
mod written;

use super::Kitchen;
use crate::text::{Language, Words};

pub use written::{read, write};

/// Sizes of words one can choose, in percent.
pub const SIZES: [u16; 4] = [100, 125, 150, 200];

/// What somebody chose on this device.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Settings {
    pub language: Language,
    /// Size of words in percent, 100 to 200.
    pub size: u16,
    pub dark: bool,
    /// Pure ink on plain ground, with heavier lines.
    pub contrast: bool,
    /// Nothing moves by itself.
    pub still: bool,
    /// What rings may sound.
    pub sound: bool,
    /// The window flashes slowly when a wait is over.
    pub flash: bool,
}

impl Default for Settings {
    fn default() -> Settings {
        Settings {
            language: Language::English,
            size: 100,
            dark: false,
            contrast: false,
            still: false,
            sound: true,
            flash: true,
        }
    }
}

impl Kitchen {
    /// Takes over what was chosen on this device before; false where a part of it was damaged.
    ///
    /// `asked` is a language that whoever starts the program asks for.
    pub(super) fn recall_settings(&mut self, asked: Option<Language>) -> bool {
        let kept = self.records.settings();
        self.chosen = kept.is_some();
        let (settings, whole) = kept.map_or((Settings::default(), true), |text| read(&text));
        self.settings = settings;
        self.settings.language = asked.unwrap_or(settings.language);
        self.words = Words::load(self.settings.language);
        whole
    }

    /// Says that settings were damaged, and keeps what could be read, so that it is said only once.
    ///
    /// Where something else has to be read first, the next start says it.
    pub(super) fn tell_damaged_settings(&mut self) {
        if self.telling.is_none() {
            self.tell("told-settings", "told-settings-body");
            let _ = self.records.keep_settings(&write(&self.settings));
        }
    }

    /// Whether somebody chose how this device shows things.
    pub fn has_chosen(&self) -> bool {
        self.chosen
    }

    /// What rings hears whether it may sound.
    pub(super) fn mind_sound(&mut self) {
        if let Some(bell) = &mut self.bell {
            bell.let_sound(self.settings.sound);
        }
    }

    /// Presses of the settings, wherever they are offered; false when the id belongs elsewhere.
    pub(super) fn press_settings(&mut self, id: &str) -> bool {
        let mut next = self.settings;
        if id == "language" {
            next.language = next.language.next();
        } else if !choose(&mut next, id) {
            return false;
        }
        if next.language != self.settings.language {
            self.words = Words::load(next.language);
        }
        self.settings = next;
        self.chosen = true;
        self.mind_sound();
        if !self.records.keep_settings(&write(&next)) && !self.unkept {
            // It holds while the program runs, so it is told only once.
            self.unkept = true;
            self.tell("told-settings-unkept", "told-settings-unkept-body");
        }
        true
    }
}

/// Puts one choice of the page into the settings; false for an id that is none.
fn choose(settings: &mut Settings, id: &str) -> bool {
    let Some((what, value)) = id.split_once(':') else {
        return false;
    };
    let whether = match value {
        "yes" => Some(true),
        "no" => Some(false),
        _ => None,
    };
    match (what, whether) {
        ("language", _) => match Language::of_code(value) {
            Some(language) => settings.language = language,
            None => return false,
        },
        ("size", _) => match value.parse().ok().filter(|size| SIZES.contains(size)) {
            Some(size) => settings.size = size,
            None => return false,
        },
        ("dark", Some(yes)) => settings.dark = yes,
        ("contrast", Some(yes)) => settings.contrast = yes,
        ("still", Some(yes)) => settings.still = yes,
        ("sound", Some(yes)) => settings.sound = yes,
        ("flash", Some(yes)) => settings.flash = yes,
        _ => return false,
    }
    true
}
