//! A dispensing site, or a helper at the door: the line, one home at a time, the shelves, the day.
//!
//! Everything is asked of `core::site` and of the site's own record; what a helper does is written down before it is shown.
//! Nobody is sent away for good here: what a helper may not decide waits for the lead.

mod ask;
mod codes;
mod day;
mod desk;
mod family;
mod forget;
mod give;
mod intake;
mod line;
mod list;
mod lot_read;
mod name;
mod orders;
mod park;
mod pin;
mod problem;
mod record;
mod roles;
mod scale;
mod settle;
mod shelf;
mod shelves;
mod shift;
mod sides;
mod spot;
mod station;
mod table;
mod undo;
mod words;

use std::collections::BTreeMap;

use hearthdose_core::exchange::OpeningKey;
use hearthdose_core::household::HouseholdId;
use hearthdose_core::order::{CheckedOrder, Notice};
use hearthdose_core::record::DeviceId;
use hearthdose_core::site::{Home, Matter, Serving, SiteName, Stock};
use hearthdose_core::store::{HomeLine, Store};
use hearthdose_core::time::Now;
use hearthdose_core::units::WeightUnit;

use super::ports::{Paper, Shelf};
use super::view::{Intent, Link, ReadingView, Screen, View};
use super::weigh::Weigh;
use super::{Kitchen, Telling};
use crate::text::Words;
use codes::{Pages, Parts};
use family::Family;
use pin::Pad;
use settle::Settling;
use spot::Spot;

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
    /// None until it was named; it serves nobody before.
    name: Option<SiteName>,
    /// Of the key that signs receipts under this order.
    mark: Option<String>,
    /// Opens what was sealed for the site, where this device has it.
    key: Option<OpeningKey>,
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
    /// Parts of another tablet's record.
    parts: Parts,
    /// The own record as codes.
    pages: Pages,
    /// Homes in the list that is shown.
    list: Vec<HomeLine>,
    /// What is to be settled, as it was last looked for.
    matters: Vec<(Home, Matter)>,
    settling: Option<Settling>,
    /// Why the last thing led nowhere.
    said: Option<&'static str>,
    /// The line that has the keyboard; else the first one.
    at: Option<String>,
    /// Somebody is on the scale.
    scale: Option<Weigh>,
    /// The unit of the scale, as it was last.
    unit: WeightUnit,
    /// A PIN is asked for, above everything else.
    pad: Option<Pad>,
    /// What was pressed last, to be done after all when the lead's PIN was typed.
    pressed: String,
    /// The lead's PIN was typed for the press that is being done.
    is_lead: bool,
}

impl Site {
    fn go(&mut self, spot: Spot) {
        if self.spot != spot {
            let left = std::mem::replace(&mut self.spot, spot);
            self.trail.retain(|before| *before != left);
            self.trail.push(left);
        }
        self.clear();
    }

    /// Nothing is typed, and nothing was wrong.
    fn clear(&mut self) {
        self.typed.clear();
        self.said = None;
        self.at = None;
    }

    /// Where the work begins: a site has instructions and a name before it serves anybody.
    fn first_spot(&self) -> Spot {
        match (&self.order, &self.name) {
            (None, _) => Spot::Orders,
            (Some(_), None) => Spot::Name,
            (Some(_), Some(_)) => Spot::Line,
        }
    }

    /// Back to the line, with nobody in front.
    fn next_home(&mut self) {
        self.spot = self.first_spot();
        self.trail.clear();
        self.clear();
        self.found = None;
        self.slip = None;
        self.family = Family::default();
    }

    fn typed(&self, field: &str) -> &str {
        self.typed.get(field).map_or("", String::as_str).trim()
    }

    pub(super) fn name(&self) -> Option<&str> {
        self.name.as_ref().map(SiteName::as_str)
    }

    pub(super) fn order(&self) -> Option<&CheckedOrder> {
        self.order.as_ref()
    }

    /// Whether its screen changes by itself.
    pub(super) fn turns_by_itself(&self) -> bool {
        let compares = self.pad.as_ref().is_some_and(Pad::is_compared);
        compares || self.spot == Spot::Codes && self.pages.turns_by_itself()
    }

    /// Whether a code is awaited.
    pub(super) fn waits_for_code(&self) -> bool {
        matches!(self.spot, Spot::Line | Spot::Station | Spot::Shift) && self.pad.is_none()
    }

    /// Whether a family is being typed in, which is kept nowhere yet.
    pub(super) fn types_family(&self) -> bool {
        self.spot == Spot::Family
    }

    /// Why the last thing led nowhere.
    pub(super) fn say(&mut self, said: &'static str) {
        self.said = Some(said);
        self.at = problem::field_of(said).map(str::to_owned);
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
                self.learn_keys();
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
            spot: Spot::Orders,
            order,
            name: store.site_name()?,
            mark: None,
            key: None,
            store,
            trail: Vec::new(),
            typed: BTreeMap::new(),
            family: Family::default(),
            found: None,
            slip: None,
            papers: Vec::new(),
            parts: Parts::default(),
            pages: Pages::default(),
            list: Vec::new(),
            matters: Vec::new(),
            settling: None,
            said: None,
            at: None,
            scale: None,
            unit: WeightUnit::Pounds,
            pad: None,
            pressed: String::new(),
            is_lead: false,
        };
        site.spot = site.first_spot();
        site.ask_who_opens()?;
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
            Intent::Tick => {
                self.turn_page(now);
                self.compare_pin(now);
            }
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
        let Some(site) = self.site.as_mut().filter(|site| site.pad.is_none()) else {
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
        site.at = Some(id.to_owned());
        if matches!(site.spot, Spot::Find | Spot::Station) {
            self.find_homes();
        }
    }

    fn back_at_site(&mut self) {
        if self.telling.is_some() {
            return;
        }
        if self.back_from_pad() || self.back_at_scale() {
            return;
        }
        let Some(site) = self.site.as_mut() else {
            return;
        };
        if site.spot == Spot::Family {
            let stays = site.back_in_family();
            self.keep_family();
            if stays {
                return;
            }
        }
        let Some(site) = self.site.as_mut() else {
            return;
        };
        site.clear();
        match site.trail.pop() {
            Some(spot) => site.spot = spot,
            None if site.spot == Spot::Orders || site.spot == site.first_spot() => {
                self.leave_site();
            }
            None => site.spot = Spot::Line,
        }
    }

    pub(super) fn leave_site(&mut self) {
        self.keep_at_site(false);
        self.site = None;
    }

    fn press_at_site(&mut self, id: &str, now: &Now) {
        if self.press_told(id) || self.press_pin(id) || self.press_settings(id) {
            return;
        }
        if let Some(site) = self.site.as_mut() {
            id.clone_into(&mut site.pressed);
            site.write_family();
        }
        if self.leaves_family(id) {
            self.keep_family();
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
            "roles" => Spot::Roles,
            "settings" => Spot::Settings,
            "family" => {
                if let Some(site) = self.site.as_mut() {
                    site.family = Family::default();
                }
                Spot::Family
            }
            _ => {
                let _ = self.press_order(id, now)
                    || self.press_name(id, now)
                    || self.press_line(id, now)
                    || self.press_family(id, now)
                    || self.press_parked(id, now)
                    || self.press_scale(id, now)
                    || self.press_station(id, now)
                    || self.press_desk(id, now)
                    || self.press_give(id, now)
                    || self.press_undo(id, now)
                    || self.press_forget(id, now)
                    || self.press_list(id, now)
                    || self.press_lot_read(id, now)
                    || self.press_shelves(id, now)
                    || self.press_shift(id, now)
                    || self.press_codes(id, now)
                    || self.press_settle(id, now)
                    || self.press_table(id, now);
                return;
            }
        };
        if let Some(site) = self.site.as_mut() {
            site.go(go);
        }
    }

    pub(super) fn site_screen(&self, now: &Now) -> Screen {
        let mut screen = self.site_spot(now);
        if let (Screen::Step(step), Some(site)) = (&mut screen, &self.site) {
            self.show_problem(site, step);
        }
        screen
    }

    fn site_spot(&self, now: &Now) -> Screen {
        if let Some(telling) = &self.telling {
            return Screen::step(self.telling_view(telling));
        }
        let Some(site) = &self.site else {
            return Screen::Start(self.start_view());
        };
        if let Some(pad) = site.pad.as_ref().filter(|_| site.spot != Spot::Help) {
            return Screen::step(self.pin_view(pad));
        }
        match &site.spot {
            Spot::Orders => Screen::step(self.site_orders_view(site)),
            Spot::Order(index) => Screen::Reading(self.site_order_reading(site, *index)),
            Spot::Name => Screen::step(self.name_view(site)),
            Spot::Line => Screen::step(self.line_view(site, now)),
            Spot::Find => Screen::step(self.find_view(site)),
            Spot::Waiting => Screen::step(self.waiting_view(site)),
            Spot::Family => Screen::step(self.family_view(site, now)),
            Spot::FamilyAway => Screen::step(self.family_away_view(site)),
            Spot::Station => Screen::step(self.station_view(site)),
            Spot::Weigher => Screen::step(self.weigher_view(site)),
            Spot::StationHome => Screen::step(self.station_home_view(site)),
            Spot::Home => Screen::Reading(self.home_reading(site)),
            Spot::Person(id) => Screen::Reading(self.desk_person_reading(site, *id)),
            Spot::Ask(id, key) => Screen::step(self.desk_ask_view(site, *id, key)),
            Spot::Weigh(_) => Screen::step(self.scale_view(site)),
            Spot::Lift(id, key) => Screen::step(self.lift_view(site, *id, key)),
            Spot::Lead => Screen::step(self.lead_view(site)),
            Spot::Slip => Screen::Reading(self.site_slip_reading(site)),
            Spot::List => Screen::step(self.list_view(site, now)),
            Spot::Undo(fact) => Screen::step(self.undo_view(site, *fact)),
            Spot::Shelves => Screen::Reading(self.shelves_reading(site, now)),
            Spot::Receive => Screen::step(self.receive_packs_view(site, now)),
            Spot::Count(lot) => Screen::step(self.count_view(site, lot)),
            Spot::LotRead(lot) => Screen::step(self.lot_read_view(site, lot)),
            Spot::Shift => Screen::step(self.shift_view(site)),
            Spot::ShiftOf(index) => Screen::Reading(self.shift_reading(site, *index)),
            Spot::Codes => Screen::Reading(self.codes_reading(site)),
            Spot::Settle => Screen::Reading(self.settle_reading(site)),
            Spot::Matter => Screen::step(self.matter_view(site)),
            Spot::Because => Screen::step(self.because_view(site)),
            Spot::Table => Screen::step(self.table_view(site)),
            Spot::TableTime => Screen::step(self.table_time_view(site)),
            Spot::Help => Screen::Reading(match &site.order {
                Some(order) => self.help_reading(order),
                None => ReadingView::titled(self.words.say("help-title")),
            }),
            Spot::Settings => Screen::Reading(self.settings_reading()),
            Spot::Day => Screen::Reading(self.day_reading(site, now)),
            Spot::Roles => Screen::Reading(self.roles_reading(site)),
            Spot::Forget => Screen::step(self.forget_view(site)),
            Spot::Forgotten => Screen::Reading(self.forgotten_reading(site)),
        }
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
