//! A receipt of a dispensing site comes back to the home as a code.

use hearthdose_core::exchange::{
    DeviceSecret, HouseholdCode, Message, Scan, Slip, SlipLine, SlipUnit, write,
};
use hearthdose_ui::vm::view::{Screen, View};
use jiff::civil::date;

use super::Tour;

/// The code that a screen shows, as a site reads it.
pub fn shown_code(view: &View) -> Option<HouseholdCode> {
    let Screen::Reading(reading) = &view.screen else {
        return None;
    };
    let text = reading.picture.as_ref()?.0.strip_prefix("code:")?;
    match Scan::read(text) {
        Scan::Message(scanned) => match scanned.message {
            Message::Household(code) => Some(code),
            _ => None,
        },
        _ => None,
    }
}

/// What a site writes for this home: two packs of one lot.
pub fn receipt(code: &HouseholdCode) -> String {
    let slip = Slip {
        household: code.household,
        issue: code.issue,
        site: "Quillmere school hall".to_owned(),
        at: code.made,
        order: code.order.clone(),
        lines: vec![SlipLine {
            person: None,
            product: "doxycycline 100 mg tablet".to_owned(),
            lot: Some("QD4471A".to_owned()),
            expiry: Some(date(2032, 2, 29)),
            count: 40,
            unit: SlipUnit::Tablets,
            enough_until: Some(date(2031, 4, 12)),
            extension: None,
        }],
    };
    let secret = DeviceSecret::from_bytes(&[7; 32]);
    write(&Message::Slip(slip), &secret).expect("a slip fits a code")
}

impl Tour<'_> {
    /// The code of the home, and what is said with it to the site.
    pub(super) fn own_code(&mut self) {
        self.press("people");
        self.press("show-code");
        self.see("code");
        self.press("code-collects:minor");
        self.see("code-collects");
        self.press("code-collects:open");
        self.press("code-picture");
        self.see("code-kept");
        self.press("told");
    }

    pub fn receipt(&mut self) {
        let code = shown_code(&self.kitchen.view()).expect("a code is shown");
        self.press("receive-code");
        self.see("receive");
        self.press("look-for-codes");
        self.see("receive-none");
        self.world.codes.borrow_mut().push(receipt(&code));
        self.press("look-for-codes");
        self.see("slip-desk");
        self.press("desk-later");
        self.see("slip-desk-later");
        self.press("look-for-codes");
        self.press("desk-differs");
        self.see("slip-desk-differs");
        self.press("told");
        self.press("look-for-codes");
        self.see("slip-desk-doubted");
        self.press("desk-same");
        self.see("slip");
        self.press("take-slip");
        self.see("slip-taken");
        self.press("told");
    }
}
