//! Two running programs, a home's and a site's, each on a display and a bus of its own.
//!
//! The home's code goes to the site as a picture of its screen; the receipt goes home through a scanner that types.
//! What the site's screen shows is read by a reader that shares no code with the program.

use std::path::Path;
use std::process::Command;

use hearthdose_core::record::{Event, SiteEvent, fold};
use hearthdose_core::store::Store;

use super::assistive::Folder;
use super::bus::Bus;
use super::display::Display;
use super::program::{self, Program};

const ORDER: &str = concat!(
    env!("CARGO_MANIFEST_DIR"),
    "/../demo-data/orders/quillmere-doxy-1.toml"
);

pub fn hands(bus: &Bus, words: &[&str]) {
    let done = bus
        .script("hands.py")
        .args(words)
        .output()
        .expect("the hands move");
    let said = String::from_utf8_lossy(&done.stderr);
    let faults: Vec<&str> = said
        .lines()
        .filter(|line| !line.is_empty() && !line.contains("dbind-WARNING"))
        .collect();
    assert!(done.status.success(), "{words:?}: {faults:#?}");
}

/// The one code on a screen, by zbar.
fn read_aloud(picture: &Path) -> String {
    let done = Command::new("zbarimg")
        .args(["--quiet", "--raw", "-Sdisable", "-Sqrcode.enable"])
        .arg(picture)
        .output()
        .expect("zbarimg runs");
    let text = String::from_utf8(done.stdout).expect("text");
    text.trim_end_matches(['\r', '\n']).to_owned()
}

#[test]
fn a_home_and_a_site_exchange_codes_in_two_windows() {
    let (home_display, site_display) = (Display::start(1180, 820), Display::start(1180, 820));
    let (home_bus, site_bus) = (Bus::start(&home_display), Bus::start(&site_display));
    let (home_folder, site_folder) = (Folder::fresh("at-home"), Folder::fresh("at-site"));
    let downloads = site_folder.path().join("Downloads");
    std::fs::create_dir_all(&downloads).expect("a folder");
    std::fs::copy(ORDER, downloads.join("order.toml")).expect("the order");
    // Packs that came in; the window finds them in the same record.
    let received = Command::new(program::program())
        .args(["site", "receive", "--order", ORDER, "--lot", "QD9000"])
        .args(["--expires", "2099-05-31", "--packs", "40"])
        .env("HEARTHDOSE_DATA", site_folder.path())
        .output()
        .expect("the command runs");
    assert!(received.status.success(), "{received:?}");

    let home = Program::heard(&home_display, home_folder.path(), &home_bus);
    let words = [
        "wait:What do you want to do?",
        "press:Practice first",
        "press:Show code",
    ];
    hands(&home_bus, &words);
    let picture = downloads.join("code.png");
    home_display.picture().save(&picture).expect("a picture");

    let site = Program::heard(&site_display, site_folder.path(), &site_bus);
    let words = [
        "press:Help at a site",
        "press:Doxycycline after the Quillmere release",
        "press:We work by these",
        "wait:What is this site called?",
        "type:Quillmere old mill",
        "wait:Next in line",
        "press:Look for pictures",
        "wait:What goes out",
    ];
    hands(&site_bus, &words);
    site_display.wait_for_usual();
    let usual = site_display.usual().expect("the main button");
    site_display.click(usual.centre());
    // The mark as another run of the program tells it.
    let named = Command::new(program::program())
        .args(["site", "name", "--order", ORDER, "--json"])
        .env("HEARTHDOSE_DATA", site_folder.path())
        .output()
        .expect("the command runs");
    let named: serde_json::Value = serde_json::from_slice(&named.stdout).expect("what it says");
    let mark = named["mark"].as_str().expect("a mark");
    assert_eq!(mark.len(), 24, "80 bits as five groups of four: {mark}");
    assert_eq!(named["name"], "Quillmere old mill");
    let shown_there = format!("wait:Mark of this desk: {mark}");
    hands(&site_bus, &["wait:Handed out", &shown_there]);
    let shown = site_folder.path().join("receipt.png");
    site_display.picture().save(&shown).expect("a picture");
    let receipt = read_aloud(&shown);

    let typed = format!("type:{receipt}");
    let shown_here = format!("wait:{mark}");
    let words = [
        "press:Read a receipt",
        &typed,
        "wait:Is this on the desk's paper?",
        &shown_here,
        "press:Yes, the same mark",
        "wait:Is this what you got?",
        "press:Yes, the same",
    ];
    hands(&home_bus, &words);
    drop((home, site));

    let (store, _) =
        Store::open(&site_folder.path().join("site.sqlite")).expect("the site's record");
    let out: u64 = store
        .facts()
        .expect("facts")
        .iter()
        .filter_map(|fact| match &fact.event {
            Event::Site {
                site: SiteEvent::HandedOut { lines, .. },
            } => Some(lines.clone()),
            _ => None,
        })
        .flatten()
        .map(|line| u64::from(line.packs) * u64::from(line.each))
        .sum();
    let (store, _) =
        Store::open(&home_folder.path().join("practice.sqlite")).expect("the home's record");
    let state = fold(&store.facts().expect("facts"));
    let lot = |lot: &Option<String>| lot.as_deref() == Some("QD9000");
    let came: u64 = state
        .packs
        .iter()
        .filter(|pack| lot(&pack.lot))
        .map(|pack| u64::from(pack.tablets))
        .sum();
    assert!(out > 0, "nothing was handed out");
    let desks: Vec<(&str, bool)> = state
        .desks
        .values()
        .map(|desk| (desk.site.as_str(), desk.same))
        .collect();
    assert_eq!(desks, [("Quillmere old mill", true)]);
    assert_eq!(came, out, "what went out of the site came into the home");
}
