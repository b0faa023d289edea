//! Who may do what on this device: the PINs of the lead and of the volunteers.

use hearthdose_core::site::Role;

use super::Site;
use crate::vm::Kitchen;
use crate::vm::view::{Block, Button, Note, ReadingView};

impl Kitchen {
    pub(super) fn roles_reading(&self, site: &Site) -> ReadingView {
        let words = &self.words;
        let mut view = ReadingView::titled(words.say("site-roles"));
        view.lead = words.say("roles-body");
        let has = |role| site.store.has_pin(role).unwrap_or(false);
        if !has(Role::Lead) {
            let (title, body) = (words.say("roles-none"), words.say("roles-none-body"));
            view.blocks
                .push(Block::Note(Note::new(title, body, Some("hold"))));
        }
        for (id, key, role) in [
            ("pin-lead", "roles-lead", Role::Lead),
            ("pin-volunteer", "roles-volunteer", Role::Volunteer),
        ] {
            let set = match has(role) {
                true => "roles-is-set",
                false => "roles-not-set",
            };
            view.blocks.push(Block::Action {
                id: id.to_owned(),
                label: words.say(key),
                detail: words.say(set),
            });
        }
        if site.last_erasure().is_some() {
            view.blocks.push(Block::Action {
                id: "last-erasure".to_owned(),
                label: words.say("roles-erasure"),
                detail: String::new(),
            });
        }
        view.main = Some(Button::ready("line", words.say("site-next")));
        view
    }
}
