//! The kitchen table as a view model: intents in, one plain view out.
//!
//! It holds the record, the order and the place one is at; every rule is asked of `core`.
//! What a person does is written down first and shown afterwards, so a screen is never ahead of the record.

mod about;
mod ahead;
mod bell;
mod camera;
mod code;
mod history;
mod homes;
mod keep;
mod make;
mod notes;
mod orders;
mod over;
mod packs;
mod papers;
mod people;
pub mod ports;
mod press;
mod print;
mod reading;
mod receipt;
mod receive;
mod round;
mod round_person;
mod round_words;
pub mod settings;
mod setup;
mod site;
mod start;
mod table;
mod typing;
pub mod view;
mod voice;
mod weigh;
mod wrong;

use std::collections::BTreeSet;

use hearthdose_core::household::HouseholdId;
use hearthdose_core::order::CheckedOrder;
use hearthdose_core::prep::PersonId;
use hearthdose_core::record::{Clock as RecordClock, DeviceId, Fact, FactId, State};
use hearthdose_core::store::Store;
use hearthdose_core::time::Now;
use hearthdose_core::today::{NoRound, Today};

use crate::text::{Language, Words};
use about::About;
use code::Shown;
use packs::Pack;
use ports::{Bell, Clock, Ids, Outbox, Paper, Records, Shelf, Voice};
use settings::Settings;
use setup::SetUp;
use site::Site;
use typing::Typing;
use view::{Intent, Link, Screen, View};
use weigh::Weigh;

/// Where one is.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Place {
    Start,
    Today,
    /// The round under way; its stage decides the screen.
    Round,
    /// The bottle does not match the order.
    WrongBottle,
    /// "Something went wrong": what was it?
    Wrong,
    /// People who had a reaction were named: what to do now.
    Reaction,
    /// After an answer other than "all of it": what that means.
    AfterOutcome,
    /// Orders and notices that lie on this device.
    Papers,
    /// A code is scanned, typed or looked for in pictures.
    Receive,
    /// The questions that set up a household, or one more person.
    SetUp,
    Weigh,
    /// One thing about a person.
    About(PersonId, About),
    /// Medicine that came into the house.
    Packs(Pack),
    /// A line of the record that was wrong.
    Correct(FactId),
    Reading(Reading),
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Reading {
    Help,
    Order,
    Record,
    People,
    Ahead,
    /// Why this much, for the person of the present step.
    Why(PersonId),
    Person(PersonId),
    /// One of the files that were found.
    Paper(usize),
    Homes,
    /// The household's code for a site.
    Code,
    Settings,
    About,
}

/// The program behind the window.
pub struct Kitchen {
    clock: Box<dyn Clock>,
    ids: Box<dyn Ids>,
    records: Box<dyn Records>,
    /// None where the device has nothing that rings.
    bell: Option<Box<dyn Bell>>,
    /// None where files are left in a folder that people reach.
    outbox: Option<Box<dyn Outbox>>,
    /// None where nothing speaks.
    voice: Option<Box<dyn Voice>>,
    /// It is not known yet whether the words that were to be read aloud are being said.
    voicing: bool,
    eye: camera::Eye,
    /// Whether a screen reader can read the window.
    reader: bool,
    words: Words,
    settings: Settings,
    /// Settings were kept on this device.
    chosen: bool,
    /// It was told that settings cannot be kept.
    unkept: bool,
    open: Option<Open>,
    place: Place,
    /// Where Back leads.
    trail: Vec<Place>,
    reacting: BTreeSet<PersonId>,
    /// Somebody is being weighed.
    weigh: Option<Weigh>,
    /// A name that is being typed, and numbers of a screen that stands alone.
    typed: String,
    typing: Typing,
    /// The code as it was made last.
    code: Option<Shown>,
    /// Files found when they were last looked for.
    papers: Vec<Paper>,
    receiving: receive::Receiving,
    waits: over::Waits,
    /// The site that is worked at, instead of a home's table.
    site: Option<Site>,
    /// The home of the site whose table this is; Back leads there.
    at_table_of: Option<HouseholdId>,
    /// The homes of this device with their names.
    homes: Vec<(u16, String)>,
    /// One thing to be told above everything else, until it is read.
    telling: Option<Telling>,
    seen: Option<Now>,
    /// The minute at which the plan was last looked at.
    looked: Option<i64>,
}

/// A record that is open, with its order.
struct Open {
    shelf: Shelf,
    store: Store,
    device: DeviceId,
    record_clock: RecordClock,
    facts: Vec<Fact>,
    state: State,
    /// The order in front: of the round under way, or of the next one.
    order: CheckedOrder,
    /// The home's other orders.
    others: Vec<CheckedOrder>,
    /// Rounds of other orders in the same sitting, by the id of their order.
    also: Vec<(String, Today)>,
    today: Option<Result<Today, NoRound>>,
    set_up: Option<SetUp>,
    /// A weighing that was left with Back.
    put_aside: Option<Weigh>,
}

/// A message from the program itself.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
struct Telling {
    title: String,
    body: String,
    /// Empty where the amount is the picture.
    drawing: &'static str,
    amount: Option<view::Amount>,
    /// What stands below the amount.
    after: Option<String>,
    main: String,
    /// What it tells of is a file that the device can hand to other programs.
    file: bool,
}

impl Kitchen {
    /// Opens the program where it was left.
    pub fn open(
        clock: Box<dyn Clock>,
        ids: Box<dyn Ids>,
        records: Box<dyn Records>,
        language: Option<Language>,
    ) -> Kitchen {
        let mut kitchen = Kitchen {
            clock,
            ids,
            records,
            bell: None,
            outbox: None,
            voice: None,
            voicing: false,
            eye: camera::Eye::default(),
            reader: false,
            words: Words::load(language.unwrap_or(Language::English)),
            settings: Settings::default(),
            chosen: false,
            unkept: false,
            open: None,
            place: Place::Start,
            trail: Vec::new(),
            reacting: BTreeSet::new(),
            weigh: None,
            typed: String::new(),
            typing: Typing::default(),
            code: None,
            papers: Vec::new(),
            receiving: receive::Receiving::default(),
            waits: over::Waits::default(),
            site: None,
            at_table_of: None,
            homes: Vec::new(),
            telling: None,
            seen: None,
            looked: None,
        };
        let whole = kitchen.recall_settings(language);
        kitchen.resume(language.is_none() && !kitchen.chosen);
        let now = kitchen.clock.now();
        kitchen.resume_at_site(&now);
        if !whole {
            kitchen.tell_damaged_settings();
        }
        kitchen
    }

    /// Names what rings on this device.
    pub fn hang_bell(&mut self, bell: Box<dyn Bell>) {
        self.bell = Some(bell);
        self.mind_sound();
    }

    /// Names the way of files out of this device's program.
    pub fn hang_outbox(&mut self, outbox: Box<dyn Outbox>) {
        self.outbox = Some(outbox);
    }

    pub fn set_scale(&mut self, percent: u16) {
        self.settings.size = percent.clamp(100, 200);
    }

    /// Speaks these words from now on, until another language is chosen.
    pub fn speak(&mut self, words: Words) {
        self.words = words;
    }

    pub fn set_dark(&mut self, dark: bool) {
        self.settings.dark = dark;
    }

    /// Says whether a screen reader can read this device's windows.
    pub fn set_reader(&mut self, there: bool) {
        self.reader = there;
    }

    /// The record as it stands, for those who check it.
    pub fn state(&self) -> Option<&State> {
        self.open.as_ref().map(|open| &open.state)
    }

    /// Takes one thing a person did, or a moment that passed.
    pub fn take(&mut self, intent: &Intent) {
        let now = self.clock.now();
        self.hush(intent);
        // The banner is on every page.
        if !self.goes_to_wait(intent) {
            match self.site {
                Some(_) => self.take_at_site(intent, &now),
                None => self.take_at_home(intent, &now),
            }
        }
        self.mind_camera(&now);
        self.mind_waits(intent, &now);
    }

    fn take_at_home(&mut self, intent: &Intent, now: &Now) {
        self.notice_clock(now);
        if self.takes_voice(intent, now) {
            return;
        }
        match intent {
            Intent::Tick => self.refresh_when_due(now),
            Intent::Back => self.back(),
            Intent::Type { text, .. } => self.type_words(text),
            Intent::Accept => self.accept(now),
            Intent::Press { id } => self.press(id, now),
        }
    }

    /// What is to be seen at this moment.
    pub fn view(&self) -> View {
        let now = self.clock.now();
        if self.site.is_some() {
            return self.view_at_site(&now);
        }
        // Only what this view says is told about it.
        self.words.foreign();
        let screen = self.with_reading_aloud(self.screen(&now));
        let at_start = self.place == Place::Start;
        let household = self.household_words();
        View {
            strip: self.with_foreign(self.strip()),
            shelf: if at_start || self.open.is_none() {
                Vec::new()
            } else {
                self.shelf_words()
            },
            household,
            back_word: self.words.say("back"),
            help: (!at_start).then(|| Link::to("help", self.words.say("help"))),
            dark: self.settings.dark,
            scale: self.settings.size,
            contrast: self.settings.contrast,
            still: self.settings.still,
            banner: self.banner(),
            flash: self.flashes(),
            waiting: self.waits_closely(),
            looking: self.is_looking(),
            screen,
        }
    }

    fn screen(&self, now: &Now) -> Screen {
        if let Some(telling) = &self.telling {
            return Screen::step(self.telling_view(telling));
        }
        match (&self.place, &self.open) {
            (Place::Papers, None) => Screen::step(self.papers_view()),
            (Place::Receive, _) => Screen::step(self.receive_view()),
            (Place::Start, _) | (_, None) if !matches!(self.place, Place::Reading(_)) => {
                Screen::Start(self.start_view())
            }
            (Place::Reading(reading), _) => Screen::Reading(self.reading_view(*reading, now)),
            (Place::Today, Some(open)) => self.today_screen(open, now),
            (Place::Round, Some(open)) => match open.round() {
                Some(round) => Screen::step(self.round_view(open, &round.prep, now)),
                None => self.today_screen(open, now),
            },
            (Place::WrongBottle, Some(open)) => Screen::step(self.wrong_bottle_view(open)),
            (Place::Wrong, Some(open)) => Screen::step(self.wrong_view(open, now)),
            (Place::Reaction, Some(open)) => Screen::step(self.reaction_view(open)),
            (Place::AfterOutcome, Some(open)) => Screen::step(self.after_outcome_view(open)),
            (Place::SetUp, Some(open)) => match &open.set_up {
                Some(set_up) => Screen::step(self.set_up_view(open, set_up, now)),
                None => self.today_screen(open, now),
            },
            (Place::Weigh, Some(open)) => match &self.weigh {
                Some(weigh) => Screen::step(self.weigh_view(open, weigh, now)),
                None => self.today_screen(open, now),
            },
            (Place::About(person, about), Some(open)) => {
                Screen::step(self.about_view(open, *person, *about))
            }
            (Place::Packs(pack), Some(_)) => Screen::step(self.packs_view(*pack)),
            (Place::Correct(fact), Some(open)) => Screen::step(self.correct_view(open, *fact)),
            (Place::Papers, _) => Screen::step(self.papers_view()),
            (Place::Start, _) | (_, None) => Screen::Start(self.start_view()),
        }
    }

    fn strip(&self) -> Option<String> {
        let open = self.open.as_ref()?;
        let key = if open.order.invented {
            "strip-invented"
        } else {
            "strip-unsigned"
        };
        (self.place != Place::Start).then(|| self.words.say(key))
    }

    /// The strip, and that words of this screen are in another language.
    pub(in crate::vm) fn with_foreign(&self, strip: Option<String>) -> Option<String> {
        let parts: Vec<String> = strip.into_iter().chain(self.words.foreign()).collect();
        (!parts.is_empty()).then(|| parts.join(" "))
    }

    fn household_words(&self) -> String {
        let Some(open) = self.open.as_ref().filter(|_| self.place != Place::Start) else {
            return String::new();
        };
        let name = open
            .state
            .household
            .as_ref()
            .map(|h| h.name.clone())
            .unwrap_or_default();
        let people = self.words.say_with(
            "people-count",
            &[("count", open.state.people().count().into())],
        );
        format!("{name}\n{people}")
    }

    fn shelf_words(&self) -> Vec<Link> {
        let here = |reading: Reading| self.place == Place::Reading(reading);
        let entries = [
            (
                "today",
                "shelf-today",
                !matches!(self.place, Place::Reading(_)),
            ),
            ("people", "shelf-people", here(Reading::People)),
            ("ahead", "shelf-ahead", here(Reading::Ahead)),
            ("order", "shelf-order", here(Reading::Order)),
            ("record", "shelf-record", here(Reading::Record)),
            ("show-code", "shelf-code", here(Reading::Code)),
            ("settings", "settings", here(Reading::Settings)),
        ];
        entries
            .into_iter()
            .map(|(id, key, here)| Link {
                here,
                ..Link::to(id, self.words.say(key))
            })
            .chain(self.site_way())
            .collect()
    }
}
