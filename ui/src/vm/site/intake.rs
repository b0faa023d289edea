//! A family without a code, typed in: one screen a person, one screen a question for all of them.
//!
//! What is half done is in the record as soon as the last question is answered; before that nothing is known that would be lost.

use std::collections::BTreeMap;

use hearthdose_core::exchange::{self, Making, Member, Message, is_private};
use hearthdose_core::household::{Answer, KnownAge, Manner, Person, Weighing};
use hearthdose_core::order::CheckedOrder;
use hearthdose_core::record::{Event, SiteEvent};
use hearthdose_core::time::Now;
use hearthdose_core::units::{AgeSpan, BodyWeight};
use jiff::civil::Date;

use super::line::text_field;
use super::words::day_or_month;
use super::{Site, Spot};
use crate::vm::Kitchen;
use crate::vm::view::{Button, Choice, Entry, Link, Note, StepView};

/// People of one family; more live in no household that a code is made for.
const MOST: usize = 60;

/// What was typed so far.
#[derive(Clone, Debug, Default)]
pub(super) struct Family {
    people: Vec<Typed>,
    /// The person on the screen.
    now: Typed,
    /// The question on the screen, after the people.
    question: Option<usize>,
    /// Answers by question and person; who was not asked has none.
    answers: BTreeMap<(usize, usize), Answer>,
}

#[derive(Clone, Debug, Default)]
struct Typed {
    name: String,
    age: String,
    weight: String,
    /// A grown-up whose age nobody needs.
    adult: bool,
    only_bowl: bool,
}

impl Typed {
    /// The age as it was told; a grown-up by the press of it only.
    fn age(&self, today: Date) -> Option<KnownAge> {
        match self.adult {
            true => Some(KnownAge::Adult),
            false => age_of(&self.age, today),
        }
    }
}

/// What a line of the screen has that cannot be read.
fn problem(typed: &Typed, today: Date) -> Option<&'static str> {
    if typed.name.trim().is_empty() {
        return Some("family-name-missing");
    }
    if !typed.weight.trim().is_empty() && BodyWeight::parse(typed.weight.trim()).is_err() {
        return Some("family-weight-unread");
    }
    if !typed.adult && typed.age.is_empty() {
        return Some("family-age-missing");
    }
    if typed.age(today).is_none() {
        return Some("family-age-unread");
    }
    None
}

/// A bare number is years, as the field says; a birth date stands as 2029-07-19, or as 2029-07 where its day is not known.
fn age_of(text: &str, today: Date) -> Option<KnownAge> {
    let text = text.trim();
    if text.is_empty() {
        return None;
    }
    if let Some(born) = day_or_month(text) {
        return (born <= today).then_some(KnownAge::Born(born));
    }
    let years = match text.bytes().all(|byte| byte.is_ascii_digit()) {
        true => format!("{text} y"),
        false => text.to_owned(),
    };
    AgeSpan::parse(&years).ok().map(KnownAge::Told)
}

impl Family {
    /// One step back inside the family; false at its first screen.
    pub(super) fn back(&mut self) -> bool {
        match self.question {
            Some(0) => self.question = None,
            Some(at) => {
                self.question = Some(at.saturating_sub(1));
                return true;
            }
            None => {}
        }
        let Some(last) = self.people.pop() else {
            return false;
        };
        self.answers.clear();
        self.now = last;
        true
    }

    pub(super) fn fields(&self) -> BTreeMap<String, String> {
        let now = &self.now;
        let fields = [
            ("name", &now.name),
            ("age", &now.age),
            ("weight", &now.weight),
        ];
        fields
            .into_iter()
            .map(|(id, value)| (id.to_owned(), value.clone()))
            .collect()
    }

    fn names(&self) -> Vec<String> {
        self.people.iter().map(|typed| typed.name.clone()).collect()
    }
}

impl Kitchen {
    pub(super) fn family_view(&self, site: &Site) -> StepView {
        match site.family.question {
            None => self.family_person_view(site),
            Some(index) => self.family_question_view(site, index),
        }
    }

    fn family_person_view(&self, site: &Site) -> StepView {
        let words = &self.words;
        let family = &site.family;
        let number = family.people.len().saturating_add(1);
        let mut view =
            StepView::titled(words.say_with("family-person", &[("number", number.into())]));
        if !family.people.is_empty() {
            view.body = vec![words.list(&family.names())];
        }
        view.entry = Some(Entry {
            fields: vec![
                text_field("name", words.say("family-name"), site.typed("name"), true),
                text_field("age", words.say("family-age"), site.typed("age"), false),
                text_field(
                    "weight",
                    words.say("family-weight"),
                    site.typed("weight"),
                    false,
                ),
            ],
            ..Entry::default()
        });
        let adult = Choice::new("grown-up", words.say("family-adult"), String::new(), "");
        let bowl = Choice::new("only-bowl", words.say("family-bowl"), String::new(), "");
        view.choices = vec![
            Choice {
                chosen: family.now.adult,
                ..adult
            },
            Choice {
                chosen: family.now.only_bowl,
                ..bowl
            },
        ];
        view.note = site
            .said
            .map(|said| Note::new(words.say(said), String::new(), None));
        let started = !site.typed("name").is_empty();
        view.main = Some(match started {
            true => Button::ready("person-in", words.say("family-next")),
            false => Button::waiting(words.say("family-next")),
        });
        if started || !family.people.is_empty() {
            // Also with somebody half typed: then it says what is missing.
            view.ways = vec![Link::to("family-all", words.say("family-all"))];
        }
        view
    }

    /// One question about everybody: who says yes, who is not sure.
    fn family_question_view(&self, site: &Site, index: usize) -> StepView {
        let words = &self.words;
        let family = &site.family;
        let Some(question) = site
            .order
            .iter()
            .flat_map(|order| &order.questions)
            .nth(index)
        else {
            return StepView::titled(words.say("family-all"));
        };
        let anybody = words.say("family-anybody");
        let mut view = StepView::titled(words.of_order_about(&question.ask, &anybody));
        let of = site.order.as_ref().map_or(0, |order| order.questions.len());
        let values = [("number", (index + 1).into()), ("of", of.into())];
        view.place = words.say_with("family-question", &values);
        let private = is_private(&question.key);
        if private {
            view.body.push(words.say("desk-ask-aside"));
        }
        view.body.push(words.say("family-press"));
        let mut all = true;
        for (at, typed) in family.people.iter().enumerate() {
            let given = family.answers.get(&(index, at)).copied();
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

    pub(super) fn press_family(&mut self, id: &str, now: &Now) -> bool {
        let Some(site) = self.site.as_mut().filter(|site| site.spot == Spot::Family) else {
            return false;
        };
        match id {
            "grown-up" => site.family.now.adult = !site.family.now.adult,
            "only-bowl" => site.family.now.only_bowl = !site.family.now.only_bowl,
            "person-in" => {
                self.person_in();
            }
            "family-all" => {
                // Somebody half typed is never left out.
                let fields = ["name", "age", "weight"];
                let empty = fields.iter().all(|field| site.typed(field).is_empty());
                if empty || self.person_in() {
                    self.ask_family(0, now);
                }
            }
            "all-no" => {
                if let Some(question) = site.family.question {
                    for at in 0..site.family.people.len() {
                        let answers = &mut site.family.answers;
                        answers.entry((question, at)).or_insert(Answer::No);
                    }
                }
            }
            "asked" => {
                if let Some(at) = site.family.question {
                    self.ask_family(at.saturating_add(1), now);
                }
            }
            _ => {
                let at = id
                    .strip_prefix("turn:")
                    .and_then(|at| at.parse::<usize>().ok());
                let (Some(at), Some(question)) = (at, site.family.question) else {
                    return false;
                };
                let key = (question, at);
                // No, yes, not sure, and no again.
                let next = match site.family.answers.get(&key) {
                    None | Some(Answer::Unsure) => Answer::No,
                    Some(Answer::No) => Answer::Yes,
                    Some(Answer::Yes) => Answer::Unsure,
                };
                site.family.answers.insert(key, next);
            }
        }
        true
    }

    /// Takes the person on the screen; says what cannot be read.
    fn person_in(&mut self) -> bool {
        let today = self.site_day(&self.clock.now());
        let Some(site) = self.site.as_mut() else {
            return false;
        };
        let typed = Typed {
            name: site.typed("name").to_owned(),
            age: site.typed("age").to_owned(),
            weight: site.typed("weight").to_owned(),
            adult: site.family.now.adult,
            only_bowl: site.family.now.only_bowl,
        };
        site.said = problem(&typed, today);
        if site.said.is_none() && site.family.people.len() >= MOST {
            site.said = Some("family-full");
        }
        if site.said.is_some() {
            return false;
        }
        site.family.people.push(typed);
        site.family.now = Typed::default();
        site.typed.clear();
        true
    }

    /// The next question, or the end of them.
    fn ask_family(&mut self, at: usize, now: &Now) {
        let Some(site) = self.site.as_mut() else {
            return;
        };
        let questions = site.order.as_ref().map_or(0, |order| order.questions.len());
        if at < questions {
            site.family.question = Some(at);
            return;
        }
        self.family_done(now);
    }

    fn family_done(&mut self, now: &Now) {
        let Some((code, text, mut events)) = self.code_of_family(now) else {
            self.tell("give-not", "family-not-made");
            return;
        };
        let home = code.household;
        if !self.see_home(code, &text, now) {
            return;
        }
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
            self.show_home(home, now);
            if let Some(site) = self.site.as_mut() {
                site.family = Family::default();
            }
        }
    }

    /// The code this device makes for the family, and what may not stand in an open code.
    fn code_of_family(
        &mut self,
        now: &Now,
    ) -> Option<(exchange::HouseholdCode, String, Vec<SiteEvent>)> {
        let fresh = self.ids.fresh().to_string();
        let random = self.ids.device_random()?;
        let day = self.site_day(now);
        let site = self.site.as_ref()?;
        let order = site.order.as_ref()?;
        let household = random.household(&order.id, &fresh);
        let names: Vec<String> = (0..site.family.people.len())
            .map(|at| at.to_string())
            .collect();
        let marks: Vec<&str> = names.iter().map(String::as_str).collect();
        let ids = random.people(household, &marks);
        let people: Vec<Person> = site
            .family
            .people
            .iter()
            .enumerate()
            .map(|(at, typed)| self.person_of(site, order, at, typed, day))
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
            interpreter: false,
            adult_collects: None,
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

    fn person_of(
        &self,
        site: &Site,
        order: &CheckedOrder,
        at: usize,
        typed: &Typed,
        day: Date,
    ) -> Person {
        let mut person = Person::named(&typed.name.chars().take(24).collect::<String>());
        person.age = typed.age(day);
        person.swallows_tablets = !typed.only_bowl;
        person.weighing = BodyWeight::parse(&typed.weight)
            .ok()
            .map(|weight| Weighing {
                weight,
                on: Some(day),
                manner: Manner::Told,
                hold_lifted: false,
            });
        for (index, question) in order.questions.iter().enumerate() {
            if let Some(answer) = site.family.answers.get(&(index, at)) {
                person.answers.insert(question.key.clone(), *answer);
            }
        }
        person
    }
}
