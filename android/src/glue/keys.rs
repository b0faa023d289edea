//! Keys of a keyboard, a scanner that types, or a soft keyboard, as far as it sends keys.

use android_activity::AndroidApp;
use android_activity::input::{KeyAction, KeyEvent, KeyMapChar, Keycode};
use slint::SharedString;
use slint::platform::Key;

use crate::phone::Event;

/// An accent that waits for its letter.
#[derive(Default)]
pub struct Keys {
    accent: Option<char>,
}

impl Keys {
    /// What a key event means; none where it means nothing here.
    pub fn event(&mut self, app: &AndroidApp, key: &KeyEvent<'_>) -> Option<Event> {
        let down = match key.action() {
            KeyAction::Down => true,
            KeyAction::Up => false,
            _ => return None,
        };
        if key.key_code() == Keycode::Back {
            // The system only ends the activity by a key of which it saw both halves.
            return (!down).then_some(Event::Back);
        }
        let text = match named(key.key_code()) {
            Some(key) => key.into(),
            None => self.written(app, key, down)?,
        };
        Some(Event::Key { text, down })
    }

    fn written(
        &mut self,
        app: &AndroidApp,
        key: &KeyEvent<'_>,
        down: bool,
    ) -> Option<SharedString> {
        let map = app.device_key_character_map(key.device_id()).ok()?;
        match map.get(key.key_code(), key.meta_state()).ok()? {
            KeyMapChar::Unicode(letter) => {
                let accent = if down { self.accent.take() } else { None };
                let joined = accent.and_then(|accent| map.get_dead_char(accent, letter).ok()?);
                Some(joined.unwrap_or(letter).into())
            }
            KeyMapChar::CombiningAccent(accent) => {
                if down {
                    self.accent = Some(accent);
                }
                None
            }
            KeyMapChar::None => None,
        }
    }
}

fn named(code: Keycode) -> Option<Key> {
    Some(match code {
        Keycode::Del => Key::Backspace,
        Keycode::ForwardDel => Key::Delete,
        Keycode::Enter | Keycode::NumpadEnter | Keycode::DpadCenter => Key::Return,
        Keycode::Tab => Key::Tab,
        Keycode::Escape => Key::Escape,
        Keycode::DpadUp => Key::UpArrow,
        Keycode::DpadDown => Key::DownArrow,
        Keycode::DpadLeft => Key::LeftArrow,
        Keycode::DpadRight => Key::RightArrow,
        Keycode::PageUp => Key::PageUp,
        Keycode::PageDown => Key::PageDown,
        Keycode::MoveHome => Key::Home,
        Keycode::MoveEnd => Key::End,
        Keycode::ShiftLeft | Keycode::ShiftRight => Key::Shift,
        Keycode::CtrlLeft | Keycode::CtrlRight => Key::Control,
        _ => return None,
    })
}
