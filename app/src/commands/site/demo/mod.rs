//! `site demo`: an invented street and a site with stock, to practise with. Nobody in it exists.
//!
//! The same seed writes the same homes and the same codes; the site's record gets a device of its own each time.

mod street;

use std::fs;
use std::path::{Path, PathBuf};

use hearthdose_core::exchange::{self, DeviceRandom, Message};
use hearthdose_core::household;
use hearthdose_core::order::CheckedOrder;
use hearthdose_core::record::{LotName, SiteEvent};
use hearthdose_core::site::SiteName;
use hearthdose_core::time::Now;
use hearthdose_ui::demo;
use jiff::Timestamp;
use jiff::civil::{Date, date};
use serde::Serialize;

use self::street::Dice;
use super::refused;
use crate::answer::{Answer, Exit, Stop};
use crate::arguments::CodeWrite;
use crate::arguments::site::Demo;
use crate::commands::code;
use crate::input;
use crate::site::record::{SiteRecord, at_site};

/// Calls lot QD3112 back.
const NOTICE: &str = include_str!("../../../../../demo-data/notices/quillmere-recall-lot.toml");
/// What the site is called.
const NAME: &str = "Quillmere old mill";
/// The morning on which the site opens.
const OPENS: &str = "2031-04-03T09:00:00-05:00";

#[derive(Serialize)]
struct Document {
    outcome: &'static str,
    seed: u64,
    homes: u32,
    people: usize,
    order: String,
    notice: String,
    /// Folder of the household files.
    households: String,
    /// Folder of the codes, one text for each home.
    codes: String,
    /// Data folder of the site.
    site: String,
    /// A moment for --at.
    at: &'static str,
}

pub fn run(asked: &Demo) -> Result<Answer, Stop> {
    let is_used = fs::read_dir(&asked.out).is_ok_and(|mut inside| inside.next().is_some());
    if is_used || asked.out.is_file() {
        let text = format!("{} is not empty", asked.out.display());
        return Err(refused("folder-in-use", text));
    }
    let order_file = asked.out.join("order.toml");
    let notice = asked.out.join("recall.toml");
    let (households, codes) = (asked.out.join("households"), asked.out.join("codes"));
    let site = asked.out.join("site");
    for folder in [&households, &codes, &site] {
        fs::create_dir_all(folder).map_err(|error| cannot(folder, &error.to_string()))?;
    }
    write(&order_file, demo::ORDER)?;
    write(&notice, NOTICE)?;
    let order = input::order(&order_file)?;
    let opens: Timestamp = input::instant(OPENS)?;
    let mut dice = Dice::new(asked.seed);
    let mut people = 0;
    for number in 1..=asked.homes {
        let home = street::home(&mut dice, number);
        let path = households.join(format!("home-{number:04}.toml"));
        write(&path, &home.text)?;
        people += home.people;
        let text = code_of(&path, &home.text, &order, opens, &mut dice)?;
        write(&codes.join(format!("home-{number:04}.txt")), &text)?;
    }
    SiteRecord::open(Some(site.clone()))?
        .set_name(&SiteName::read(NAME).map_err(|why| refused(why.code(), why.to_string()))?)?;
    stock(site.clone(), &order, opens, asked.homes)?;
    let shown = |path: &PathBuf| path.display().to_string();
    let document = Document {
        outcome: "written",
        seed: asked.seed,
        homes: asked.homes,
        people,
        order: shown(&order_file),
        notice: shown(&notice),
        households: shown(&households),
        codes: shown(&codes),
        site: shown(&site),
        at: OPENS,
    };
    let text = format!(
        "{} invented homes with {} people, and a site with three lots\ntry: hearthdose site serve --order {} --notice {} --code \"$(cat {}/home-0001.txt)\" --data {} --at {OPENS}\n",
        document.homes,
        document.people,
        document.order,
        document.notice,
        document.codes,
        document.site
    );
    Answer::new(Exit::Done, &document, text)
}

fn code_of(
    path: &Path,
    text: &str,
    order: &CheckedOrder,
    made: Timestamp,
    dice: &mut Dice,
) -> Result<String, Stop> {
    let file = household::parse_file(text).map_err(|problems| {
        Stop::Unusable(
            problems
                .iter()
                .map(|problem| problem.text.clone())
                .collect(),
        )
    })?;
    let random = DeviceRandom::new(dice.bytes());
    let wish = CodeWrite {
        household: Some(path.to_owned()),
        order: None,
        out: path.to_owned(),
        names: true,
        seal: false,
        at: None,
    };
    let coded = code::coded(&wish, &file, Some(order), made, 1, &random)?;
    exchange::write(&Message::Household(coded), &random.key(&order.id))
        .map_err(|why| refused(why.code(), why.to_string()))
}

/// One lot that lasts, one that ends within the course, and one that the notice calls back.
fn stock(site: PathBuf, order: &CheckedOrder, opens: Timestamp, homes: u32) -> Result<(), Stop> {
    let product = order
        .main_product()
        .ok_or_else(|| Stop::unusable("the demonstration order has no product"))?;
    let lots: [(&str, Date, u32); 3] = [
        ("QD4471A", date(2032, 2, 29), homes.saturating_mul(4)),
        ("QD2907", date(2031, 4, 10), homes),
        ("QD3112", date(2031, 12, 31), homes.saturating_mul(2)),
    ];
    let received = lots.map(|(lot, expiry, packs)| {
        at_site(SiteEvent::LotReceived {
            lot: LotName {
                product: product.key.clone(),
                lot: lot.to_owned(),
            },
            expiry,
            packs,
            each: product.pack_size.unwrap_or(1),
            gtin: None,
        })
    });
    let mut record = SiteRecord::open(Some(site))?;
    record.write(&Now::wall_only(opens), Some(order), received.into())
}

fn write(path: &Path, text: &str) -> Result<(), Stop> {
    fs::write(path, text).map_err(|error| cannot(path, &error.to_string()))
}

fn cannot(path: &Path, why: &str) -> Stop {
    Stop::unusable(format!("cannot write {}: {why}", path.display()))
}
