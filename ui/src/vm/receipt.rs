//! The receipt of a dispensing site: first whose it is, then what it says, then it is counted in.
//!
//! A desk that was not met before is compared once, by its mark; what a person said of it is in the record before anything else happens.

use hearthdose_core::exchange::{
    Acquaintance, DeviceKey, Slip, SlipUnit, acquaintance, comparison,
};
use hearthdose_core::record::Event;
use hearthdose_core::time::Now;

use super::make::picture;
use super::receive::Receiving;
use super::view::{Button, Link, Note, StepView, Thing};
use super::{Kitchen, Telling};

/// Receipts that were taken in already, by the beginning of their digest.
const TAKEN: &str = "receipts";

/// A receipt for this home that was not taken in yet.
#[derive(Debug)]
pub(super) struct Receipt {
    slip: Slip,
    signer: DeviceKey,
    /// For its exact bytes.
    name: String,
}

impl Receipt {
    pub fn new(slip: Slip, signer: DeviceKey, digest: &[u8; 32]) -> Receipt {
        let name = digest.iter().take(8);
        Receipt {
            slip,
            signer,
            name: name.map(|byte| format!("{byte:02x}")).collect(),
        }
    }
}

impl Kitchen {
    pub(super) fn receipt_view(&self, receipt: &Receipt) -> StepView {
        match self.acquaintance(receipt) {
            Acquaintance::Compared => self.slip_view(&receipt.slip),
            other => self.desk_view(receipt, &other),
        }
    }

    fn acquaintance(&self, receipt: &Receipt) -> Acquaintance {
        let none = std::collections::BTreeMap::new();
        let desks = self.open.as_ref().map_or(&none, |open| &open.state.desks);
        acquaintance(&receipt.signer, &receipt.slip.site, desks)
    }

    /// "Is this on the desk's paper?": a mark that is compared with the one the site shows.
    fn desk_view(&self, receipt: &Receipt, known: &Acquaintance) -> StepView {
        let words = &self.words;
        let site = [("site", receipt.slip.site.as_str().into())];
        let mut view = StepView::titled(words.say("desk-title"));
        view.small_picture = Some(picture("order-paper"));
        view.eyebrow = receipt.slip.site.clone();
        view.large = receipt.signer.mark();
        let said = match known {
            // A first meeting is nothing to be warned of.
            Acquaintance::NotMet | Acquaintance::Compared => None,
            Acquaintance::OtherKey => Some(words.say_with("desk-other-key", &site)),
            Acquaintance::OtherName(before) => {
                Some(words.say_with("desk-other-name", &[("site", before.as_str().into())]))
            }
            Acquaintance::Doubted => Some(words.say("desk-doubted")),
        };
        view.body = vec![words.say("desk-compare")];
        match said {
            Some(said) => view.note = Some(Note::new(said, String::new(), None)),
            None => view.body.push(words.say("desk-not-met")),
        }
        view.main = Some(Button::ready("desk-same", words.say("desk-same")));
        view.ways = vec![
            Link::to("desk-differs", words.say("desk-differs")),
            Link::to("desk-later", words.say("desk-later")),
        ];
        view
    }

    /// What the site says it handed out, line by line.
    fn slip_view(&self, slip: &Slip) -> StepView {
        let words = &self.words;
        let mut view = StepView::titled(words.say("slip-title"));
        view.small_picture = Some(picture("boxes-lots"));
        view.body = vec![words.say_with("slip-from", &[("site", slip.site.as_str().into())])];
        view.things = slip
            .lines
            .iter()
            .map(|line| {
                let key = match line.unit {
                    SlipUnit::Tablets => "slip-tablets",
                    SlipUnit::Bottles => "slip-bottles",
                };
                let lot = line.lot.clone().unwrap_or_default();
                let values = [
                    ("count", line.count.into()),
                    ("product", line.product.as_str().into()),
                ];
                let mut detail = words.say_with("slip-lot", &[("lot", lot.into())]);
                if let Some(expiry) = line.expiry {
                    let date = self.long_date(expiry);
                    let until = words.say_with("slip-expiry", &[("date", date.into())]);
                    detail = format!("{detail} {until}");
                }
                if let Some(extension) = &line.extension {
                    detail = format!("{detail} {extension}");
                }
                Thing {
                    words: words.say_with(key, &values),
                    detail,
                }
            })
            .collect();
        if let Some(until) = slip.lines.iter().filter_map(|line| line.enough_until).min() {
            let date = self.words.date(until);
            view.after = words.say_with("slip-enough", &[("date", date.into())]);
        }
        view.main = Some(Button::ready("take-slip", words.say("slip-main")));
        view.ways = vec![Link::to("not-this-slip", words.say("slip-not"))];
        view
    }

    /// Presses about a receipt; false when the id belongs elsewhere.
    pub(super) fn press_receipt(&mut self, id: &str, now: &Now) -> bool {
        match id {
            "desk-same" => self.say_of_desk(true, now),
            "desk-differs" => self.say_of_desk(false, now),
            "desk-later" => {
                self.receiving.receipt = None;
                self.receiving.say("desk-later-said");
            }
            "take-slip" => self.take_slip(now),
            "not-this-slip" => self.receiving.receipt = None,
            _ => return false,
        }
        true
    }

    /// What a person found stays with the household; a desk with another mark is believed nothing.
    fn say_of_desk(&mut self, same: bool, now: &Now) {
        let Some(receipt) = &self.receiving.receipt else {
            return;
        };
        let event = comparison(&receipt.signer, &receipt.slip.site, same);
        if self.record(now, vec![event]) && !same {
            self.receiving.receipt = None;
            self.tell("desk-differs-title", "desk-differs-body");
        }
    }

    /// Whether this very receipt was taken in before.
    pub(super) fn is_taken(&self, receipt: &Receipt) -> bool {
        let taken = self.taken_slips();
        taken.split(' ').any(|taken| taken == receipt.name)
    }

    fn taken_slips(&self) -> String {
        let open = self.open.as_ref();
        let kept = open.and_then(|open| open.store.setting(TAKEN).ok().flatten());
        kept.unwrap_or_default()
    }

    /// What was handed out comes into the house, each lot by itself.
    fn take_slip(&mut self, now: &Now) {
        let Some(receipt) = &self.receiving.receipt else {
            return;
        };
        // Only after its desk was compared.
        if self.acquaintance(receipt) != Acquaintance::Compared {
            return;
        }
        let (slip, name) = (receipt.slip.clone(), receipt.name.clone());
        let events: Vec<Event> = slip
            .lines
            .iter()
            .filter(|line| line.unit == SlipUnit::Tablets)
            .map(|line| Event::PacksReceived {
                product: self.product_on_label(&line.product),
                lot: line.lot.clone(),
                tablets: line.count,
            })
            .collect();
        if !events.is_empty() && !self.record(now, events) {
            return;
        }
        let taken = format!("{} {name}", self.taken_slips());
        if let Some(open) = self.open.as_mut()
            && let Err(error) = open.store.set_setting(TAKEN, taken.trim())
        {
            self.tell_error(&error.into());
            return;
        }
        self.receiving = Receiving::default();
        self.show_today();
        self.telling = Some(Telling {
            title: self.words.say("slip-taken"),
            body: self.words.say("slip-taken-body"),
            drawing: "bottle-label",
            main: self.words.say("told-go-on"),
            ..Telling::default()
        });
    }

    /// The product of the order with these words on its label; the words themselves where there is none.
    fn product_on_label(&self, label: &str) -> String {
        let open = self.open.as_ref();
        let mut products = open.iter().flat_map(|open| &open.order.products);
        let found = products.find(|product| product.label_says.join(" ") == label);
        found.map_or_else(|| label.to_owned(), |product| product.key.clone())
    }
}
