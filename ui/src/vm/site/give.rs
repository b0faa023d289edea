//! A hand-out: written down first, then its receipt is shown as a code for the home.

use hearthdose_core::exchange::{self, Message, Scan};
use hearthdose_core::record::{Event, FactId};
use hearthdose_core::site::{self as rules, HandedOut, Shown};
use hearthdose_core::time::Now;

use super::{Site, Spot};
use crate::text::Measure;
use crate::vm::Kitchen;
use crate::vm::make::{paragraph, picture};
use crate::vm::view::{Button, Link, ReadingView};

/// An event, under a name that others point at where it has one.
type Named = (Option<FactId>, Event);

impl Kitchen {
    pub(super) fn press_give(&mut self, id: &str, now: &Now) -> bool {
        match id {
            "lead" => {
                if let Some(site) = self.site.as_mut() {
                    site.go(Spot::Lead);
                }
            }
            "give" => self.give_out(now),
            "print-receipt" => self.print_slip(),
            _ => return false,
        }
        true
    }

    fn give_out(&mut self, now: &Now) {
        let Some(made) = self.hand_out(now) else {
            self.tell("give-not", "give-not-body");
            return;
        };
        let (events, text) = made;
        if !self.write_at_site(now, events) {
            return;
        }
        if let Some(id) = self.site.as_ref().and_then(Site::home_id) {
            self.look_at(id, now);
        }
        if let Some(site) = self.site.as_mut() {
            site.slip = Some(text);
            site.trail.clear();
            site.typed.clear();
            site.spot = Spot::Slip;
        }
    }

    /// The facts of the hand-out and the text of its receipt; a hand-out without one would be half of one.
    fn hand_out(&mut self, now: &Now) -> Option<(Vec<Named>, String)> {
        let id = FactId(self.ids.fresh());
        let random = self.ids.device_random()?;
        let site = self.site.as_ref()?;
        let (order, found) = (site.order.as_ref()?, site.found.as_ref()?);
        let lead = site.is_at_lead().then(|| site.typed("reason").to_owned());
        let events = rules::hand_out(&found.home, &found.serving, id, lead)?;
        let out = HandedOut::of(id, now.wall, site.device, events.first()?)?;
        let slip = rules::slip(
            order,
            &site.stock,
            &found.home,
            &out,
            &found.serving.remarks,
            site.name.as_ref()?.as_str(),
        )?;
        let text = exchange::write(&Message::Slip(slip), &random.key(&order.id)).ok()?;
        if !matches!(Scan::read(&text), Scan::Message(_)) {
            return None;
        }
        let mut first = Some(id);
        let events = events
            .into_iter()
            .map(|site| (first.take(), Event::Site { site }))
            .collect();
        Some((events, text))
    }

    /// The receipt and the labels as papers, with the names and doses of those it is for.
    fn print_slip(&mut self) {
        let Some(site) = &self.site else {
            return;
        };
        let (Some(text), Some(found)) = (site.slip.clone(), &site.found) else {
            return;
        };
        let people = &found.serving.people;
        let names = people
            .iter()
            .map(|shown| (shown.id, self.name_at_desk(shown)))
            .collect();
        let doses = people
            .iter()
            .filter_map(|shown| {
                let dose = shown.dose.as_ref().ok()?;
                let words =
                    self.words
                        .dose_words(dose.form, dose.amount, dose.tablets, Measure::Spoon);
                Some((shown.id, words))
            })
            .collect();
        self.print_receipt(&text, &names, &doses);
    }

    pub(super) fn site_slip_reading(&self, site: &Site) -> ReadingView {
        let words = &self.words;
        let mut view = ReadingView::titled(words.say("given-title"));
        view.blocks.push(paragraph(words.say("given-lead")));
        // Beside the code, because the home is asked for it as soon as it has read the code.
        if let Some(mark) = &site.mark {
            let values = [("mark", mark.as_str().into())];
            view.blocks
                .push(paragraph(words.say_with("desk-mark", &values)));
        }
        if let Some(text) = &site.slip {
            view.picture = Some(picture(&format!("code:{text}")));
        }
        if let Some(out) = site
            .found
            .as_ref()
            .and_then(|found| found.home.handed_out.last())
        {
            let what = self.handed_out_words(out);
            view.title = words.say_with("given-what", &[("what", what.into())]);
            if let Some(until) = out.enough_until {
                view.blocks.push(paragraph(
                    words.say_with("slip-enough", &[("date", words.date(until).into())]),
                ));
            }
        }
        for shown in found_without_dose(site) {
            let values = [("name", self.name_at_desk(shown).into())];
            view.blocks
                .push(paragraph(words.say_with("given-nothing", &values)));
        }
        view.main = Some(Button::ready("line", words.say("site-next")));
        view.ways = vec![
            Link::to("print-receipt", words.say("print-receipt")),
            Link::to("to-home", words.say("desk-back-to-home")),
        ];
        let last = site.found.iter().flat_map(|found| &found.home.handed_out);
        if let Some(out) = last.last() {
            let id = format!("undo:{}", out.fact.0);
            view.ways.push(Link::to(&id, words.say("undo-way")));
        }
        view.back = false;
        view
    }
}

fn found_without_dose(site: &Site) -> impl Iterator<Item = &Shown> {
    let people = site.found.iter().flat_map(|found| &found.serving.people);
    people.filter(|shown| shown.dose.is_err())
}
