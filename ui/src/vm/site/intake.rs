//! A family without a code, typed in: one screen a person, one screen a question for all of them.
//!
//! Every page that is left is in the record; the answers to the last question make the home of it.

use std::collections::BTreeMap;

use hearthdose_core::exchange::{self, Making, Member, Message, is_private};
use hearthdose_core::household::{Answer, Person};
use hearthdose_core::record::{Event, SiteEvent};
use hearthdose_core::time::Now;

use super::family::{Family, Typed};
use super::line::text_field;
use super::{Site, Spot};
use crate::vm::Kitchen;
use crate::vm::view::{Button, Choice, Entry, Link, StepView};

/// People of one family; more live in no household that a code is made for.
const MOST: usize = 60;

/// The lines of a person's page, as they are typed.
pub(super) fn fields(typed: &Typed) -> BTreeMap<String, String> {
    let fields = [
        ("name", &typed.name),
        ("age", &typed.age),
        ("weight", &typed.weight),
    ];
    fields
        .into_iter()
        .map(|(id, value)| (id.to_owned(), value.clone()))
        .collect()
}

impl Site {
    /// The person of the page with what is typed just now.
    fn typed_here(&self) -> Typed {
        Typed {
            name: self.typed("name").to_owned(),
            age: self.typed("age").to_owned(),
            weight: self.typed("weight").to_owned(),
            ..self.family.here()
        }
    }

    /// Takes over what is typed on a person's page.
    pub(super) fn write_family(&mut self) {
        if self.spot == Spot::Family && self.family.question.is_none() {
            let typed = self.typed_here();
            self.family.write(typed);
        }
    }

    /// Goes to a page of the family.
    fn turn_to(&mut self, at: usize) {
        self.family.at = at;
        self.family.question = None;
        self.typed = fields(&self.family.here());
        self.at = None;
    }

    /// One step back inside the family; false at its first page.
    pub(super) fn back_in_family(&mut self) -> bool {
        self.write_family();
        let back = self.family.back();
        if back {
            self.typed = fields(&self.family.here());
            self.said = None;
            self.at = None;
        }
        back
    }
}

impl Kitchen {
    /// Whether a press leads away from a family that is being typed in, to another page of it or elsewhere.
    pub(super) fn leaves_family(&self, id: &str) -> bool {
        let stays = [
            "grown-up",
            "only-bowl",
            "person-in",
            "family-all",
            "all-no",
            "asked",
        ];
        let is_here = self
            .site
            .as_ref()
            .is_some_and(|site| site.spot == Spot::Family);
        is_here && !stays.contains(&id) && !id.starts_with("turn:")
    }

    pub(super) fn family_view(&self, site: &Site, now: &Now) -> StepView {
        match site.family.question {
            None => self.family_person_view(site, now),
            Some(index) => self.family_question_view(site, index),
        }
    }

    fn family_person_view(&self, site: &Site, now: &Now) -> StepView {
        let words = &self.words;
        let family = &site.family;
        let number = family.at.saturating_add(1);
        let mut view =
            StepView::titled(words.say_with("family-person", &[("number", number.into())]));
        if !family.people.is_empty() {
            view.body = vec![words.list(&family.names())];
        }
        let line = |id: &str, key: &str| text_field(id, words.say(key), site.typed(id), false);
        let order = site.order.as_ref();
        let today = self.site_day(now);
        let weight = match order.is_some_and(|o| site.typed_here().needs_no_weight(o, today)) {
            true => "family-weight-adult",
            false => "family-weight",
        };
        view.entry = Some(Entry {
            fields: vec![
                line("name", "family-name"),
                line("age", "family-age"),
                line("weight", weight),
            ],
            ..Entry::default()
        });
        let here = family.here();
        let adult = Choice::new("grown-up", words.say("family-adult"), String::new(), "");
        let bowl = Choice::new("only-bowl", words.say("family-bowl"), String::new(), "");
        view.choices = vec![
            Choice {
                chosen: here.adult,
                ..adult
            },
            Choice {
                chosen: here.only_bowl,
                ..bowl
            },
        ];
        let started = !site.typed("name").is_empty();
        view.main = Some(match started {
            true => Button::ready("person-in", words.say("family-next")),
            false => Button::waiting(words.say("family-next")),
        });
        if started || !family.people.is_empty() {
            // Also with somebody half typed: then it says what is missing.
            view.ways = vec![
                Link::to("family-all", words.say("family-all")),
                Link::to("family-away", words.say("family-away")),
            ];
        }
        view
    }

    /// One question about everybody: who says yes, who is not sure.
    fn family_question_view(&self, site: &Site, index: usize) -> StepView {
        let words = &self.words;
        let order = site.order.as_ref();
        let Some(question) = order.and_then(|order| order.questions.get(index)) else {
            return self.family_came_view(&site.family);
        };
        let anybody = words.say("family-anybody");
        let mut view = StepView::titled(words.of_order_about(&question.ask, &anybody));
        let of = order.map_or(0, |order| order.questions.len());
        let values = [("number", (index + 1).into()), ("of", of.into())];
        view.place = words.say_with("family-question", &values);
        let private = is_private(&question.key);
        if private {
            view.body.push(words.say("desk-ask-aside"));
        }
        view.body.push(words.say("family-press"));
        let mut all = true;
        for (at, typed) in site.family.people.iter().enumerate() {
            let given = typed.answers.get(&question.key).copied();
            all &= given.is_some();
            let told = match given {
                None => "desk-not-asked",
                Some(Answer::No) => "no",
                Some(Answer::Yes) => "yes",
                Some(Answer::Unsure) => "unsure",
            };
            let choice = Choice::new(
                &format!("turn:{at}"),
                typed.name.clone(),
                words.say(told),
                "",
            );
            view.choices.push(Choice {
                chosen: given.is_some(),
                ..choice
            });
        }
        let label = words.say("family-asked");
        view.main = Some(match all {
            true => Button::ready("asked", label),
            false => Button::waiting(label),
        });
        // What is asked aside is answered by each alone.
        if !all && !private {
            view.ways = vec![Link::to("all-no", words.say("family-nobody"))];
        }
        view
    }

    /// Who came to collect, and whether somebody is to translate: both may stay open.
    fn family_came_view(&self, family: &Family) -> StepView {
        let words = &self.words;
        let mut view = StepView::titled(words.say("family-came-title"));
        view.body = vec![words.say("family-came-body")];
        let line = |id: &str, title: &str, told: &str, chosen| Choice {
            chosen,
            ..Choice::new(id, words.say(title), words.say(told), "")
        };
        let (collects, interpreter) = (family.adult_collects, family.interpreter);
        let who = match collects {
            None => "family-came-open",
            Some(true) => "code-collects-adult",
            Some(false) => "code-collects-minor",
        };
        let needed = match interpreter {
            true => "family-interpreter-yes",
            false => "family-interpreter-no",
        };
        view.choices = vec![
            line("turn:collects", "family-collects", who, collects.is_some()),
            line(
                "turn:interpreter",
                "family-interpreter",
                needed,
                interpreter,
            ),
        ];
        view.main = Some(Button::ready("asked", words.say("line-main")));
        view
    }

    pub(super) fn press_family(&mut self, id: &str, now: &Now) -> bool {
        let Some(site) = self.site.as_mut().filter(|site| site.spot == Spot::Family) else {
            return false;
        };
        match id {
            "grown-up" | "only-bowl" => {
                let mut typed = site.typed_here();
                match id {
                    "grown-up" => typed.adult = !typed.adult,
                    _ => typed.only_bowl = !typed.only_bowl,
                }
                site.family.write(typed);
            }
            "person-in" => {
                if self.person_in(now) {
                    self.next_person();
                }
            }
            "turn:interpreter" => site.family.interpreter = !site.family.interpreter,
            "turn:collects" => {
                site.family.adult_collects = match site.family.adult_collects {
                    None => Some(true),
                    Some(true) => Some(false),
                    Some(false) => None,
                };
            }
            "family-all" => self.that_is_everybody(now),
            "all-no" => {
                for typed in &mut site.family.people {
                    if let Some(key) = key_of(site.order.as_ref(), site.family.question) {
                        typed.answers.entry(key).or_insert(Answer::No);
                    }
                }
            }
            "asked" => {
                let next = site.family.question.map_or(0, |at| at.saturating_add(1));
                self.ask_family(next, now);
            }
            _ => {
                let at = id.strip_prefix("turn:").and_then(|at| at.parse().ok());
                let key = key_of(site.order.as_ref(), site.family.question);
                let people = &mut site.family.people;
                let typed = at.and_then(|at: usize| people.get_mut(at));
                let (Some(typed), Some(key)) = (typed, key) else {
                    return false;
                };
                // No, yes, not sure, and no again.
                let next = match typed.answers.get(&key) {
                    None | Some(Answer::Unsure) => Answer::No,
                    Some(Answer::No) => Answer::Yes,
                    Some(Answer::Yes) => Answer::Unsure,
                };
                typed.answers.insert(key, next);
            }
        }
        true
    }

    /// Takes the person on the screen; says what cannot be read.
    fn person_in(&mut self, now: &Now) -> bool {
        let today = self.site_day(now);
        let Some(site) = self.site.as_mut() else {
            return false;
        };
        let typed = site.typed_here();
        let full = site.family.at >= MOST;
        let said = typed.problem(today).or(full.then_some("family-full"));
        if let Some(said) = said {
            site.say(said);
            return false;
        }
        site.family.write(typed);
        true
    }

    fn next_person(&mut self) {
        if let Some(site) = self.site.as_mut() {
            let next = site.family.at.saturating_add(1);
            site.turn_to(next);
        }
        self.keep_family();
    }

    /// Somebody half typed is never left out: their page comes up with what is missing.
    fn that_is_everybody(&mut self, now: &Now) {
        let today = self.site_day(now);
        let Some(site) = self.site.as_mut() else {
            return;
        };
        let blank = site.typed_here().is_blank() && site.family.at >= site.family.people.len();
        if !blank && !self.person_in(now) {
            return;
        }
        let Some(site) = self.site.as_mut() else {
            return;
        };
        site.family.drop_blank();
        match site.family.first_problem(today) {
            Some((at, said)) => {
                site.turn_to(at);
                site.say(said);
            }
            None if site.family.people.is_empty() => {}
            None => self.ask_family(0, now),
        }
    }

    /// The next question, or the end of them.
    fn ask_family(&mut self, at: usize, now: &Now) {
        let Some(site) = self.site.as_mut() else {
            return;
        };
        let Some(order) = &site.order else {
            return;
        };
        let next = match at < order.questions.len() {
            true => Some(at),
            // Nobody is left unasked, whatever changed meanwhile; who came is asked at the end.
            false => {
                let came = (at == order.questions.len()).then_some(at);
                site.family.first_open(order).or(came)
            }
        };
        match next {
            Some(next) => {
                site.family.question = Some(next);
                self.keep_family();
            }
            None => self.family_done(now),
        }
    }

    fn family_done(&mut self, now: &Now) {
        let Some((code, text, mut events)) = self.code_of_family(now) else {
            self.tell("give-not", "family-not-made");
            return;
        };
        let home = code.household;
        events.insert(0, SiteEvent::HomeSeen { home, code: text });
        events.push(SiteEvent::HomeNamed {
            home,
            words: self
                .site
                .as_ref()
                .map_or_else(String::new, |site| site.family.names().join(", ")),
        });
        let events = events
            .into_iter()
            .map(|site| (None, Event::Site { site }))
            .collect();
        if self.write_at_site(now, events) {
            self.end_family();
            self.show_home(home, now);
        }
    }

    /// The code this device makes for the family, and what may not stand in an open code.
    fn code_of_family(
        &mut self,
        now: &Now,
    ) -> Option<(exchange::HouseholdCode, String, Vec<SiteEvent>)> {
        // Under its name in the record, so that a second try makes the same home of it.
        let fresh = match self.site.as_ref()?.family.id {
            Some(id) => id,
            None => self.ids.fresh(),
        };
        let random = self.ids.device_random()?;
        let day = self.site_day(now);
        let site = self.site.as_ref()?;
        let order = site.order.as_ref()?;
        let household = random.household(&order.id, &fresh.to_string());
        let family: &Family = &site.family;
        let names: Vec<String> = (0..family.people.len()).map(|at| at.to_string()).collect();
        let marks: Vec<&str> = names.iter().map(String::as_str).collect();
        let ids = random.people(household, &marks);
        let people: Vec<Person> = family
            .people
            .iter()
            .map(|typed| typed.person(day))
            .collect();
        let members: Vec<Member<'_>> = ids
            .iter()
            .zip(&people)
            .map(|(id, person)| Member {
                nickname: Some(person.name.as_str()),
                answered: Some(day),
                ..Member::new(*id, person)
            })
            .collect();
        let making = Making {
            household,
            issue: 1,
            made: now.wall,
            day,
            order: Some(order),
            language: self.words.language().code(),
            interpreter: family.interpreter,
            adult_collects: family.adult_collects,
            sealed: false,
        };
        let code = exchange::household_code(&making, &members);
        let text =
            exchange::write(&Message::Household(code.clone()), &random.key(&order.id)).ok()?;
        let mut private = Vec::new();
        for (id, person) in ids.iter().zip(&people) {
            let kept = person.answers.iter().filter(|(key, _)| is_private(key));
            private.extend(kept.map(|(key, answer)| SiteEvent::HomeAnswered {
                home: household,
                person: *id,
                key: key.clone(),
                answer: *answer,
            }));
        }
        Some((code, text, private))
    }
}

fn key_of(
    order: Option<&hearthdose_core::order::CheckedOrder>,
    question: Option<usize>,
) -> Option<String> {
    let question = order?.questions.get(question?)?;
    Some(question.key.clone())
}
