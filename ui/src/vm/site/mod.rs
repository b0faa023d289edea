//! A dispensing site, or a helper at the door: the line, one home at a time, the shelves, the day.
//!
//! Everything is asked of `core::site` and of the site's own record; what a helper does is written down before it is shown.
//! Nobody is sent away for good here: what a helper may not decide waits for the lead.

mod ask;
mod day;
mod desk;
mod give;
mod intake;
mod line;
mod orders;
mod record;
mod shelves;
mod shift;
mod undo;
mod words;

use std::collections::BTreeMap;

use hearthdose_core::household::HouseholdId;
use hearthdose_core::order::{CheckedOrder, Notice};
use hearthdose_core::record::{DeviceId, FactId, LotName};
use hearthdose_core::site::{Home, Serving, Stock};
use hearthdose_core::store::{HomeLine, Store};
use hearthdose_core::time::Now;

use super::ports::{Paper, Shelf};
use super::view::{Intent, Link, ReadingView, Screen, View};
use super::{Kitchen, Telling};
use crate::text::Words;
use intake::Family;

/// Where one is at the site.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Spot {
    /// Which instructions the site works by.
    Orders,
    Order(usize),
    /// The next home is awaited: scan, type, look up.
    Line,
    Find,
    Waiting,
    Family,
    /// The home in front.
    Home,
    Person(u16),
    Ask(u16, String),
    Weigh(u16),
    Lift(u16, String),
    /// The lead says why this may go out.
    Lead,
    /// The receipt of the hand-out.
    Slip,
    /// The lead says why a hand-out is taken back.
    Undo(FactId),
    Shelves,
    Receive,
    Count(LotName),
    Day,
    /// Records of other tablets.
    Shift,
    /// One that was not met before.
    ShiftOf(usize),
    /// Cautions and numbers.
    Help,
    /// How this device shows and tells things.
    Settings,
}

/// What is worked out for the home in front.
struct Found {
    home: Home,
    serving: Serving,
}

/// The site behind the window.
pub(super) struct Site {
    store: Store,
    device: DeviceId,
    /// None until the site has its instructions.
    order: Option<CheckedOrder>,
    notices: Vec<Notice>,
    stock: Stock,
    spot: Spot,
    trail: Vec<Spot>,
    /// Words typed on the present screen, by field.
    typed: BTreeMap<String, String>,
    family: Family,
    found: Option<Found>,
    /// The receipt made last.
    slip: Option<String>,
    papers: Vec<Paper>,
    /// Homes in the list that is shown.
    list: Vec<HomeLine>,
    /// Why the last thing led nowhere.
    said: Option<&'static str>,
}

impl Site {
    fn go(&mut self, spot: Spot) {
        if self.spot != spot {
            let left = std::mem::replace(&mut self.spot, spot);
            self.trail.retain(|before| *before != left);
            self.trail.push(left);
        }
        self.typed.clear();
        self.said = None;
    }

    /// Back to the line, with nobody in front.
    fn next_home(&mut self) {
        self.spot = Spot::Line;
        self.trail.clear();
        self.typed.clear();
        self.found = None;
        self.slip = None;
        self.said = None;
        self.family = Family::default();
    }

    fn typed(&self, field: &str) -> &str {
        self.typed.get(field).map_or("", String::as_str).trim()
    }

    pub(super) fn order(&self) -> Option<&CheckedOrder> {
        self.order.as_ref()
    }

    /// Whether the next home is awaited.
    pub(super) fn is_in_line(&self) -> bool {
        self.spot == Spot::Line
    }

    /// Whether a family is being typed in, which is kept nowhere yet.
    pub(super) fn types_family(&self) -> bool {
        self.spot == Spot::Family
    }

    /// Why the last thing led nowhere.
    pub(super) fn say(&mut self, said: &'static str) {
        self.said = Some(said);
    }

    fn home_id(&self) -> Option<HouseholdId> {
        self.found.as_ref().map(|found| found.home.id)
    }
}

impl Kitchen {
    /// Begins, or goes on with, the work of a site on this device.
    pub(super) fn work_at_site(&mut self, now: &Now) {
        match self.open_site(now) {
            Ok(site) => {
                let papers = site.order.is_none();
                self.site = Some(site);
                if papers {
                    self.site_papers();
                }
                self.keep_at_site(true);
            }
            Err(error) => self.tell_error(&error),
        }
    }

    /// The record opened where it was left: at the line.
    fn open_site(&mut self, _now: &Now) -> Result<Site, super::keep::KeepError> {
        let (mut store, _) = self.records.open(Shelf::Site)?;
        let device = self.device(&mut store)?;
        let order = record::order(&store)?;
        let mut site = Site {
            device,
            notices: Vec::new(),
            stock: store.stock()?,
            spot: if order.is_some() {
                Spot::Line
            } else {
                Spot::Orders
            },
            order,
            store,
            trail: Vec::new(),
            typed: BTreeMap::new(),
            family: Family::default(),
            found: None,
            slip: None,
            papers: Vec::new(),
            list: Vec::new(),
            said: None,
        };
        site.learn_notices()?;
        Ok(site)
    }

    pub(super) fn view_at_site(&self, now: &Now) -> View {
        self.words.foreign();
        let screen = self.site_screen(now);
        let household = self.site_words();
        View {
            strip: self.with_foreign(self.site_strip()),
            shelf: self.site_shelf(),
            household,
            back_word: self.words.say("back"),
            help: Some(Link::to("help", self.words.say("help"))),
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

    pub(super) fn take_at_site(&mut self, intent: &Intent, now: &Now) {
        match intent {
            Intent::Tick => {}
            Intent::Back => self.back_at_site(),
            Intent::Type { id, text } => self.type_at_site(id, text),
            Intent::Accept => {
                if let Screen::Step(step) = self.site_screen(now)
                    && let Some(main) = step.main.filter(|main| main.ready)
                {
                    self.press_at_site(&main.id, now);
                }
            }
            Intent::Press { id } => self.press_at_site(id, now),
        }
    }

    fn type_at_site(&mut self, id: &str, text: &str) {
        let Some(site) = self.site.as_mut() else {
            return;
        };
        // A name fits on a label, a code on a picture.
        let most = if id == "code" { 4_300 } else { 60 };
        let words: String = text
            .chars()
            .filter(|c| !c.is_control() || *c == '\u{1d}')
            .take(most)
            .collect();
        site.typed.insert(id.to_owned(), words);
        site.said = None;
        if site.spot == Spot::Find {
            self.find_homes();
        }
    }

    fn back_at_site(&mut self) {
        if self.telling.is_some() {
            return;
        }
        let Some(site) = self.site.as_mut() else {
            return;
        };
        if site.spot == Spot::Family && site.family.back() {
            site.typed = site.family.fields();
            return;
        }
        site.typed.clear();
        site.said = None;
        match site.trail.pop() {
            Some(spot) => site.spot = spot,
            None if site.spot == Spot::Line || site.spot == Spot::Orders => self.leave_site(),
            None => site.spot = Spot::Line,
        }
    }

    pub(super) fn leave_site(&mut self) {
        self.keep_at_site(false);
        self.site = None;
    }

    fn press_at_site(&mut self, id: &str, now: &Now) {
        if self.press_told(id) || self.press_settings(id) {
            return;
        }
        let go = match id {
            "line" => {
                if let Some(site) = self.site.as_mut() {
                    site.next_home();
                }
                return;
            }
            "leave-site" => return self.leave_site(),
            "find" => Spot::Find,
            "waiting" => {
                self.list_waiting();
                Spot::Waiting
            }
            "shelves" => Spot::Shelves,
            "receive-packs" => Spot::Receive,
            "day" => Spot::Day,
            "help" => Spot::Help,
            "settings" => Spot::Settings,
            "family" => {
                if let Some(site) = self.site.as_mut() {
                    site.family = Family::default();
                }
                Spot::Family
            }
            _ => {
                let _ = self.press_order(id, now)
                    || self.press_line(id, now)
                    || self.press_family(id, now)
                    || self.press_desk(id, now)
                    || self.press_give(id, now)
                    || self.press_undo(id, now)
                    || self.press_shelves(id, now)
                    || self.press_shift(id, now);
                return;
            }
        };
        if let Some(site) = self.site.as_mut() {
            site.go(go);
        }
    }

    pub(super) fn site_screen(&self, now: &Now) -> Screen {
        if let Some(telling) = &self.telling {
            return Screen::step(self.telling_view(telling));
        }
        let Some(site) = &self.site else {
            return Screen::Start(self.start_view());
        };
        match &site.spot {
            Spot::Orders => Screen::step(self.site_orders_view(site)),
            Spot::Order(index) => Screen::Reading(self.site_order_reading(site, *index)),
            Spot::Line => Screen::step(self.line_view(site, now)),
            Spot::Find => Screen::step(self.find_view(site)),
            Spot::Waiting => Screen::step(self.waiting_view(site)),
            Spot::Family => Screen::step(self.family_view(site)),
            Spot::Home => Screen::Reading(self.home_reading(site)),
            Spot::Person(id) => Screen::Reading(self.desk_person_reading(site, *id)),
            Spot::Ask(id, key) => Screen::step(self.desk_ask_view(site, *id, key)),
            Spot::Weigh(id) => Screen::step(self.desk_weigh_view(site, *id)),
            Spot::Lift(id, key) => Screen::step(self.lift_view(site, *id, key)),
            Spot::Lead => Screen::step(self.lead_view(site)),
            Spot::Slip => Screen::Reading(self.site_slip_reading(site)),
            Spot::Undo(fact) => Screen::step(self.undo_view(site, *fact)),
            Spot::Shelves => Screen::Reading(self.shelves_reading(site, now)),
            Spot::Receive => Screen::step(self.receive_packs_view(site, now)),
            Spot::Count(lot) => Screen::step(self.count_view(site, lot)),
            Spot::Shift => Screen::step(self.shift_view(site)),
            Spot::ShiftOf(index) => Screen::Reading(self.shift_reading(site, *index)),
            Spot::Help => Screen::Reading(match &site.order {
                Some(order) => self.help_reading(order),
                None => ReadingView::titled(self.words.say("help-title")),
            }),
            Spot::Settings => Screen::Reading(self.settings_reading()),
            Spot::Day => Screen::Reading(self.day_reading(site, now)),
        }
    }

    pub(super) fn site_shelf(&self) -> Vec<Link> {
        let Some(site) = self.site.as_ref().filter(|site| site.order.is_some()) else {
            return Vec::new();
        };
        let at_shelves = matches!(site.spot, Spot::Shelves | Spot::Receive | Spot::Count(_));
        let entries = [
            (
                "line",
                "site-line",
                !at_shelves
                    && !matches!(
                        site.spot,
                        Spot::Find
                            | Spot::Waiting
                            | Spot::Day
                            | Spot::Help
                            | Spot::Settings
                            | Spot::Orders
                            | Spot::Order(_)
                    ),
            ),
            ("find", "site-find", site.spot == Spot::Find),
            ("waiting", "site-waiting", site.spot == Spot::Waiting),
            ("shelves", "site-shelves", at_shelves),
            ("day", "site-day", site.spot == Spot::Day),
            (
                "orders",
                "site-orders",
                matches!(site.spot, Spot::Orders | Spot::Order(_)),
            ),
            (
                "shift",
                "site-shift",
                matches!(site.spot, Spot::Shift | Spot::ShiftOf(_)),
            ),
            ("settings", "settings", site.spot == Spot::Settings),
            ("leave-site", "site-leave", false),
        ];
        let links = entries.into_iter().map(|(id, key, here)| Link {
            here,
            ..Link::to(id, self.words.say(key))
        });
        links.collect()
    }

    pub(super) fn site_strip(&self) -> Option<String> {
        let order = self.site.as_ref()?.order.as_ref()?;
        let key = if order.invented {
            "strip-invented"
        } else {
            "strip-unsigned"
        };
        Some(self.words.say(key))
    }

    pub(super) fn site_words(&self) -> String {
        let Some(order) = self.site.as_ref().and_then(|site| site.order.as_ref()) else {
            return String::new();
        };
        format!("{}\n{}", self.words.say("site-name"), self.title_of(order))
    }
}

/// What came of a press, told before anything else.
fn told(words: &Words, title: &str, body: String) -> Telling {
    Telling {
        title: words.say(title),
        body,
        drawing: "order-paper",
        main: words.say("told-go-on"),
        ..Telling::default()
    }
}
