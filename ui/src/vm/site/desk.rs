//! One home at the desk: who must be asked first, what goes into the bags, what only the lead may let pass.

use hearthdose_core::exchange::is_private;
use hearthdose_core::record::SiteEvent;
use hearthdose_core::screening::ReasonKind;
use hearthdose_core::site::Shown;
use hearthdose_core::time::Now;

use super::{Found, Site, Spot};
use crate::text::Measure;
use crate::vm::Kitchen;
use crate::vm::make::{heading, paragraph, picture};
use crate::vm::view::{Block, Button, Link, Note, ReadingView, TodayRow};

impl Kitchen {
    pub(super) fn home_reading(&self, site: &Site) -> ReadingView {
        let words = &self.words;
        let Some(found) = &site.found else {
            return ReadingView::titled(words.say("line-nothing-known"));
        };
        let (home, serving) = (&found.home, &found.serving);
        let mut view = ReadingView::titled(self.door_words(home));
        let without = serving
            .people
            .iter()
            .filter(|shown| shown.dose.is_err())
            .count();
        view.lead = words.say_with(
            "desk-lead",
            &[
                ("people", serving.people.len().into()),
                ("without", without.into()),
            ],
        );
        // What stands in the way comes before what goes out.
        for for_lead in &serving.for_lead {
            let note = Note::new(
                words.say("desk-for-lead"),
                self.for_lead_words(for_lead),
                None,
            );
            view.blocks.push(Block::Note(note));
        }
        for remark in &serving.remarks {
            view.blocks.push(Block::Note(Note::new(
                self.remark_words(remark, found),
                String::new(),
                None,
            )));
        }
        view.blocks.push(heading(words.say("desk-people")));
        view.blocks
            .extend(serving.people.iter().map(|shown| self.desk_line(shown)));
        view.blocks.push(heading(words.say("desk-bags")));
        self.bag_blocks(site, found, &mut view);
        view.blocks.extend(self.handed_out_blocks(site, found));
        let packs = packs(found);
        let label = words.say_with("desk-give", &[("packs", packs.into())]);
        view.main = Some(match (packs, serving.for_lead.is_empty()) {
            (0, _) => Button::ready("line", words.say("site-next")),
            (_, true) => Button::ready("give", label),
            (_, false) => Button::ready("lead", words.say("desk-to-lead")),
        });
        if packs > 0 {
            view.ways.push(Link::to("line", words.say("desk-park")));
        }
        view.ways.push(Link::to("at-table", words.say("table-way")));
        view.ways.push(Link::to("forget", words.say("forget-way")));
        view.ways.push(Link::to("list", words.say("list-way")));
        view
    }

    /// One person: the dose in words and drawn, or the sign of what holds and why.
    fn desk_line(&self, shown: &Shown) -> Block {
        let name = self.name_at_desk(shown);
        let mut details: Vec<String> = Vec::new();
        let id = format!("person:{}", shown.id);
        let row = match &shown.dose {
            Ok(dose) => {
                let words = &self.words;
                let amount = words.amount(dose.form, dose.amount, dose.tablets, Measure::Spoon);
                TodayRow {
                    id,
                    name,
                    from: String::new(),
                    amount: amount.words,
                    spoons: amount.spoons,
                    held: false,
                    picture: picture("measure"),
                }
            }
            Err(reasons) => {
                let kind = reasons.iter().map(|reason| reason.kind).max();
                let (from, drawing) = match kind {
                    Some(ReasonKind::Stop) => ("row-stop", "allergy-stop"),
                    Some(ReasonKind::Missing) => ("row-missing", "weigh-child"),
                    Some(ReasonKind::Hold) | None => ("row-hold", "hold"),
                };
                let (from, why) = (self.words.say(from), self.words.reasons(&name, reasons));
                // The sign has its word; what it says twice is the number to call instead.
                let is_said = why.trim_end_matches('.').to_lowercase() == from.to_lowercase();
                let phone = self.site.as_ref().map_or("", Site::questions_phone);
                TodayRow {
                    id,
                    amount: match is_said {
                        true => self
                            .words
                            .say_with("row-hold-amount", &[("phone", phone.into())]),
                        false => why,
                    },
                    from,
                    name,
                    spoons: Vec::new(),
                    held: true,
                    picture: picture(drawing),
                }
            }
        };
        if !shown.ask_in_private.is_empty() {
            details.push(self.words.say("desk-private"));
        }
        if !shown.weigh_again.is_empty() {
            details.push(self.words.say("desk-weigh-again"));
        }
        details.extend(
            shown
                .cautions
                .iter()
                .map(|key| self.caution_words(shown, key)),
        );
        Block::Person {
            row,
            detail: details.join(" "),
        }
    }

    fn caution_words(&self, shown: &Shown, key: &str) -> String {
        let order = self.site.as_ref().and_then(|site| site.order.as_ref());
        let question =
            order.and_then(|order| order.questions.iter().find(|question| question.key == key));
        let name = self.name_at_desk(shown);
        question.map_or_else(String::new, |question| {
            self.words.of_order_about(&question.then_for(&name), &name)
        })
    }

    fn bag_blocks(&self, site: &Site, found: &Found, view: &mut ReadingView) {
        let words = &self.words;
        let bags = &found.serving.bags;
        if bags.is_empty() {
            view.blocks.push(paragraph(words.say("desk-no-bags")));
        }
        for bag in bags {
            let whom = match bag.person {
                None => words.say("desk-bag-home"),
                Some(id) => self.named(found, id),
            };
            for take in &bag.pick.takes {
                let stock = site.stock.lot(&take.lot);
                let expiry = stock.and_then(|lot| lot.expiry);
                let until = expiry.map_or_else(String::new, |day| {
                    words.say_with("desk-expires", &[("day", words.long_date(day).into())])
                });
                view.blocks.push(Block::Row {
                    left: whom.clone(),
                    middle: format!(
                        "{} {until}",
                        words.say_with("slip-lot", &[("lot", take.lot.lot.as_str().into())])
                    ),
                    right: self.packs_words(take.packs, take.each, &take.lot.product),
                });
            }
            if bag.pick.short > 0 {
                let values = [
                    ("packs", bag.pick.short.into()),
                    ("whom", whom.as_str().into()),
                ];
                view.blocks.push(Block::Note(Note::new(
                    words.say_with("desk-short", &values),
                    String::new(),
                    None,
                )));
            }
        }
        // Lots that were passed over are told once, so that nobody reaches for them.
        let mut told: Vec<String> = Vec::new();
        for passed in bags.iter().flat_map(|bag| &bag.pick.passed_over) {
            let sentence = self.passed_words(passed);
            if !told.contains(&sentence) {
                told.push(sentence);
            }
        }
        view.blocks.extend(told.into_iter().map(paragraph));
        if let Some(until) = found.serving.enough_until.filter(|_| !bags.is_empty()) {
            view.blocks.push(paragraph(
                words.say_with("slip-enough", &[("date", words.date(until).into())]),
            ));
        }
    }

    /// One person: what holds, what may be asked, weighed or lifted here.
    pub(super) fn desk_person_reading(&self, site: &Site, id: u16) -> ReadingView {
        let words = &self.words;
        let found = site.found.as_ref();
        let shown =
            found.and_then(|found| found.serving.people.iter().find(|shown| shown.id == id));
        let (Some(shown), Some(order)) = (shown, &site.order) else {
            return ReadingView::titled(words.say("line-nothing-known"));
        };
        let name = self.name_at_desk(shown);
        let mut view = ReadingView::titled(name.clone());
        view.lead = match &shown.dose {
            Ok(dose) => words.dose_words(dose.form, dose.amount, dose.tablets, Measure::Spoon),
            Err(reasons) => words.reasons(&name, reasons),
        };
        let coded = &shown.coded;
        let row = |left: &str, right: String| Block::Row {
            left: words.say(left),
            middle: String::new(),
            right,
        };
        view.blocks
            .push(row("desk-age", self.coded_age_words(coded.age)));
        let weight = found.map_or_else(String::new, |found| self.weight_at_desk(found, shown));
        view.blocks.push(Block::Row {
            left: words.say("desk-weight"),
            middle: found.map_or_else(String::new, |found| self.weighed_words(found, id)),
            right: weight,
        });
        let swallows = if coded.swallows_tablets { "yes" } else { "no" };
        view.blocks.push(row("desk-swallows", words.say(swallows)));
        view.blocks.push(Block::Action {
            id: format!("weigh:{id}"),
            label: words.say("desk-weigh"),
            detail: if shown.weigh_again.is_empty() {
                String::new()
            } else {
                words.say("desk-weigh-again")
            },
        });
        for question in &order.questions {
            let private = shown.ask_in_private.contains(&question.key);
            let answer = self.answer_at_desk(found, shown, order, &question.key);
            view.blocks.push(Block::Action {
                id: format!("ask:{id}:{}", question.key),
                label: if is_private(&question.key) {
                    words.say("desk-aside")
                } else {
                    words.of_order_about(&question.ask, &name)
                },
                detail: if private {
                    words.say("desk-private")
                } else {
                    answer
                },
            });
        }
        let holds = shown.dose.as_ref().err().into_iter().flatten();
        for reason in holds.filter(|reason| reason.kind == ReasonKind::Hold) {
            let key = reason.question.as_deref().unwrap_or(reason.code);
            if ["below-youngest", "below-lightest"].contains(&key) {
                continue;
            }
            view.blocks.push(Block::Action {
                id: format!("lift:{id}:{key}"),
                label: words.say("desk-lift"),
                detail: words.reasons(&name, std::slice::from_ref(reason)),
            });
        }
        view.main = Some(Button::ready("to-home", words.say("desk-back-to-home")));
        view
    }

    pub(super) fn answer_at_desk(
        &self,
        found: Option<&Found>,
        shown: &Shown,
        order: &hearthdose_core::order::Order,
        key: &str,
    ) -> String {
        use hearthdose_core::household::Answer;
        let here = found.and_then(|found| found.home.answers.get(&(shown.id, key.to_owned())));
        let coded = || shown.coded.person(order).answers.get(key).copied();
        match here.map(|(answer, _)| *answer).or_else(coded) {
            None => self.words.say("desk-not-asked"),
            // The line looks on.
            Some(_) if is_private(key) => self.words.say("desk-asked-aside"),
            Some(Answer::Yes) => self.words.say("yes"),
            Some(Answer::No) => self.words.say("no"),
            Some(Answer::Unsure) => self.words.say("unsure"),
        }
    }

    pub(super) fn press_desk(&mut self, id: &str, now: &Now) -> bool {
        let Some(site) = self.site.as_mut() else {
            return false;
        };
        let parts: Vec<&str> = id.splitn(3, ':').collect();
        let spot = match parts.as_slice() {
            ["to-home"] => {
                site.trail.clear();
                site.spot = Spot::Line;
                Spot::Home
            }
            ["person", person] => match person.parse() {
                Ok(person) => Spot::Person(person),
                Err(_) => return false,
            },
            ["weigh", person] => match person.parse() {
                Ok(person) => {
                    self.begin_scale(person);
                    return true;
                }
                Err(_) => return false,
            },
            ["ask", person, key] => match person.parse() {
                Ok(person) => Spot::Ask(person, (*key).to_owned()),
                Err(_) => return false,
            },
            ["lift", person, key] => match person.parse() {
                Ok(person) => Spot::Lift(person, (*key).to_owned()),
                Err(_) => return false,
            },
            ["answer", answer] => return self.answer_here(answer, now),
            ["lifted"] => return self.lifted_here(now),
            _ => return false,
        };
        site.go(spot);
        true
    }

    fn answer_here(&mut self, answer: &str, now: &Now) -> bool {
        use hearthdose_core::household::Answer;
        let answer = match answer {
            "yes" => Answer::Yes,
            "no" => Answer::No,
            "unsure" => Answer::Unsure,
            _ => return false,
        };
        let Some(site) = &self.site else {
            return false;
        };
        let (Spot::Ask(person, key), Some(home)) = (site.spot.clone(), site.home_id()) else {
            return false;
        };
        if self.note_at_site(
            now,
            vec![SiteEvent::HomeAnswered {
                home,
                person,
                key,
                answer,
            }],
        ) {
            self.back_at_site();
        }
        true
    }

    fn lifted_here(&mut self, now: &Now) -> bool {
        let Some(site) = &self.site else {
            return false;
        };
        let (Spot::Lift(person, key), Some(home)) = (site.spot.clone(), site.home_id()) else {
            return false;
        };
        let reason = site.typed("reason").to_owned();
        if reason.is_empty() {
            return true;
        }
        if self.note_at_site(
            now,
            vec![SiteEvent::HomeHoldLifted {
                home,
                person,
                key,
                reason,
            }],
        ) {
            self.back_at_site();
        }
        true
    }

    /// "Weighed here on April 3 by Ana Reyes."; nothing where nobody was weighed here.
    fn weighed_words(&self, found: &Found, id: u16) -> String {
        let weighing = found.home.weighings.get(&id);
        let Some(on) = weighing.and_then(|weighing| weighing.on) else {
            return String::new();
        };
        let day = self.words.date(on);
        match found.home.weighed_by.get(&id) {
            Some(name) => self.words.say_with(
                "desk-weighed-by",
                &[("day", day.into()), ("name", name.as_str().into())],
            ),
            None => self.words.say_with("desk-weighed", &[("day", day.into())]),
        }
    }

    /// As it was weighed here, else as the code has it.
    pub(super) fn weight_at_desk(&self, found: &Found, shown: &Shown) -> String {
        let here = found.home.weighings.get(&shown.id);
        let typed = match here {
            Some(weighing) => Some(weighing.weight.typed()),
            None => shown
                .coded
                .weighing
                .as_ref()
                .map(|weighing| weighing.weight.typed()),
        };
        typed.map_or_else(|| self.words.say("no-weight"), str::to_owned)
    }

    /// The nickname in the code, or the number that stands for the person there.
    pub(super) fn name_at_desk(&self, shown: &Shown) -> String {
        let number = || {
            self.words.say_with(
                "desk-person-number",
                &[("number", shown.id.to_string().into())],
            )
        };
        shown.nickname.clone().unwrap_or_else(number)
    }

    pub(super) fn named(&self, found: &Found, id: u16) -> String {
        let shown = found.serving.people.iter().find(|shown| shown.id == id);
        shown.map_or_else(|| id.to_string(), |shown| self.name_at_desk(shown))
    }
}

/// Packs in all bags.
pub(super) fn packs(found: &Found) -> u32 {
    let takes = found.serving.bags.iter().flat_map(|bag| &bag.pick.takes);
    takes.fold(0, |sum, take| sum.saturating_add(take.packs))
}
