//! Papers and calendars, read by programs that share no code with ours.
//!
//! Needs pdftotext, pdftoppm, pdfinfo and pdffonts (poppler), mutool (mupdf), zbarimg, and Python with icalendar; something missing is a failure.
#![cfg(feature = "system")]
#![allow(clippy::unwrap_used, reason = "a test ends where something is missing")]

#[path = "system/structure.rs"]
mod structure;

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::process::Command;

use hearthdose_core::exchange::{self, DeviceRandom, Message, Slip, SlipLine, SlipUnit};
use hearthdose_core::household::HouseholdId;
use hearthdose_core::order::CheckedOrder;
use hearthdose_core::schedule;
use hearthdose_ui::paper::{BottleLabel, Paper, SlipSheet, bottle_labels, slip};
use hearthdose_ui::text::{Language, Words};
use jiff::civil::date;
use serde_json::Value;

struct Folder(PathBuf);

impl Folder {
    fn new(name: &str) -> Folder {
        let path = std::env::temp_dir().join(format!("hearthdose-{name}-{}", std::process::id()));
        std::fs::create_dir_all(&path).unwrap();
        Folder(path)
    }

    fn at(&self, name: &str) -> String {
        self.0.join(name).to_str().unwrap().to_owned()
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

fn demo(path: &str) -> String {
    let path = root().join("demo-data").join(path);
    path.to_str().unwrap().to_owned()
}

fn program() -> String {
    std::env::var("HEARTHDOSE_PROGRAM").unwrap_or_else(|_| {
        let own = std::env::current_exe().unwrap();
        let path = own.ancestors().nth(2).unwrap().join("hearthdose");
        path.to_str().unwrap().to_owned()
    })
}

/// Standard output of a program that must succeed.
fn run(program: &str, arguments: &[&str]) -> String {
    let output = Command::new(program)
        .args(arguments)
        .output()
        .unwrap_or_else(|error| panic!("{program}: {error}"));
    let said = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{program} {arguments:?}: {said}");
    String::from_utf8(output.stdout).unwrap()
}

/// Prints the papers of a household file; gives the file and what was said.
fn print(folder: &Folder, household: &str, more: &[&str]) -> (String, Value) {
    let out = folder.at("papers.pdf");
    let (order, data) = (demo("orders/quillmere-doxy-1.toml"), folder.at("data"));
    let mut arguments = vec![
        "print",
        "--household",
        household,
        "--order",
        &order,
        "--out",
        &out,
        "--data",
        &data,
        "--at",
        "2031-04-02T16:00:00-05:00",
        "--json",
    ];
    arguments.extend(more);
    let said = run(&program(), &arguments);
    (out, serde_json::from_str(&said).unwrap())
}

/// Text with its line ends and runs of spaces as single spaces.
fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The pages as two readers see them, which must not differ in their words.
fn pages(file: &str) -> Vec<String> {
    let poppler = run("pdftotext", &["-raw", file, "-"]);
    let mupdf = run("mutool", &["draw", "-q", "-F", "txt", file]);
    let of = |text: &str| -> Vec<String> {
        let pages = text.split('\u{c}').map(flat);
        pages.filter(|page| !page.is_empty()).collect()
    };
    let (one, other) = (of(&poppler), of(&mupdf));
    assert_eq!(one.len(), other.len());
    for (one, other) in one.iter().zip(&other) {
        let words = |page: &str| {
            let mut words: Vec<String> = page.split(' ').map(str::to_owned).collect();
            words.sort();
            words
        };
        assert_eq!(words(one), words(other));
    }
    one
}

/// Texts of the codes on a page, by a decoder that is not ours, from a picture at the resolution of an office scanner.
fn codes(folder: &Folder, file: &str) -> Vec<String> {
    run(
        "pdftoppm",
        &["-r", "150", "-gray", "-png", file, &folder.at("page")],
    );
    let mut pictures: Vec<PathBuf> = std::fs::read_dir(&folder.0)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "png"))
        .collect();
    pictures.sort();
    let mut texts = Vec::new();
    for picture in pictures {
        let output = Command::new("zbarimg")
            .args(["-q", "--raw", "-Sdisable", "-Sqrcode.enable"])
            .arg(&picture)
            .output()
            .unwrap();
        let said = String::from_utf8(output.stdout).unwrap();
        texts.extend(said.lines().map(str::to_owned));
        std::fs::remove_file(picture).unwrap();
    }
    texts
}

/// Sizes of all letters, and how near anything comes to the edge, as mupdf measures them.
fn sizes(file: &str) -> Vec<f32> {
    let text = run("mutool", &["draw", "-q", "-F", "stext", file]);
    let sizes = text.split("<font ").skip(1).map(|font| {
        let (_, size) = font.split_once("size=\"").unwrap();
        size.split_once('"').unwrap().0.parse().unwrap()
    });
    sizes.collect()
}

fn assert_says(pages: &[String], sentences: &[&str]) {
    let all = pages.join(" ");
    for sentence in sentences {
        let begins: String = sentence.chars().take(12).collect();
        let near = all.find(&begins).map(|at| &all[at..]);
        let near: String = near.unwrap_or_default().chars().take(200).collect();
        assert!(
            all.contains(sentence),
            "{sentence:?} is not there, but {near:?}"
        );
    }
}

/// What every paper of these orders has on every page; the numbers are those of the order file.
fn assert_framed(pages: &[String], strip: &str, page: &str, of: &str) {
    let count = pages.len();
    for (at, text) in pages.iter().enumerate() {
        let number = format!("{page} {} {of} {count}", at + 1);
        for part in [strip, "555-0100", "555-0142", &number] {
            assert!(
                text.contains(part),
                "{part:?} is not on page {}: {text}",
                at + 1
            );
        }
    }
}

/// Whoever has only this paper finds who takes what, when, how, what to do otherwise and whom to call.
#[test]
fn a_sheet_says_everything_in_english() {
    let folder = Folder::new("sheet");
    let (file, said) = print(&folder, &demo("households/tarn-4.toml"), &[]);
    let pages = pages(&file);
    assert_framed(&pages, "Practice only", "Page", "of");
    assert_says(
        &pages,
        &[
            "Tarn household",
            "Quillmere Health District, revision 1",
            // From the chart of the order: 148 lb swallows one tablet whole, 131 lb, 45 lb and 31 lb 4 oz.
            "Odile 148 lb 1 whole tablet",
            "Sunniva 131 lb 4 teaspoons (20 mL)",
            "Bram 45 lb 2 teaspoons (10 mL)",
            "Pim 31 lb 4 oz 1½ teaspoons (7.5 mL)",
            "Morning dose, 8:00 a.m.",
            "Night dose, 8:00 p.m.",
            // Sixty days from 3 April; ten days in the first supply.
            "The last dose is on Sunday, June 1.",
            "Get more tablets by Saturday, April 12. Call 555-0163.",
            // Recipe.
            "4 teaspoons (20 mL) of water into each bowl",
            "Wait 5 minutes. You may wait longer.",
            "It keeps 24 hours",
            "Never pour two bowls together.",
            "Never keep a dose that has food or drink in it.",
            "Odile swallows the tablet.",
            // Gap of 8 hours and a window of 6 before the next dose, 12 hours later.
            "Morning dose: until 12 noon, give it.",
            "Morning dose: from 2:00 p.m. on, skip it.",
            "Night dose: until 12 at night, give it.",
            "Night dose: from 2:00 a.m. on, skip it.",
            "It came back up",
            "Somebody would not take it",
            "Stop the medicine. Call the emergency number now. Call 555-0100 now for this.",
            "555-0122",
            "This does not replace your doctor or nurse.",
        ],
    );
    let print = run("sha256sum", &[&demo("orders/quillmere-doxy-1.toml")]);
    let mark: Vec<&str> = (0..5).map(|at| &print[4 * at..4 * at + 4]).collect();
    assert_says(&pages, &[&format!("Mark: {}", mark.join(" "))]);
    assert_eq!(codes(&folder, &file), [said["code"].as_str().unwrap()]);
    // 120 rounds; a box for each of four people is told by its page only in the picture, but every round has its day.
    let chart = pages.join(" ");
    for day in [
        "Thu, April 3 8:00 a.m.",
        "Wed, April 30 8:00 p.m.",
        "Sun, June 1 8:00 p.m.",
    ] {
        assert!(chart.contains(day), "{day}");
    }
}

#[test]
fn a_sheet_in_spanish_on_a4_names_who_has_no_dose_and_whom_to_call() {
    let folder = Folder::new("hoja");
    let home = demo("households/ferrow-9.toml");
    let (file, said) = print(&folder, &home, &["--language", "es", "--paper", "a4"]);
    let about = run("pdfinfo", &[&file]);
    assert!(about.contains("595.28 x 841.89 pts (A4)"), "{about}");
    let pages = pages(&file);
    assert_framed(&pages, "Solo para practicar", "Página", "de");
    assert_says(
        &pages,
        &[
            "Anselm 151 lb Sin dosis. Llame al 555-0142. Anselm no debe tomar doxiciclina.",
            "Lene 149 lb Todavía sin dosis. Llame al 555-0142.",
            "Nils 8 lb 9 oz Todavía sin dosis. Llame al 555-0142.",
            // One month old on 14 April: from then on the first line of the chart.
            "Desde las 8:00 a. m. del lunes 14 de abril: ½ cucharadita (2.5 mL)",
            "Runa 70 lb 3 cucharaditas (15 mL)",
            "Haga cada tazón una sola vez, para todo el hogar.",
        ],
    );
    // Milk is not for Edda, who is allergic to it.
    let all = pages.join(" ");
    let formula = all.split("Fórmula infantil").nth(1).unwrap();
    assert!(!formula.split("Leche").next().unwrap().contains("Edda"));
    assert_eq!(codes(&folder, &file), [said["code"].as_str().unwrap()]);
}

#[test]
fn nothing_is_smaller_than_twelve_points_and_both_cuts_of_the_typeface_are_inside() {
    let folder = Folder::new("letters");
    for paper in ["letter", "a4"] {
        let home = demo("households/ferrow-9.toml");
        let (file, _) = print(&folder, &home, &["--paper", paper]);
        let sizes = sizes(&file);
        assert!(sizes.len() > 100);
        let least = sizes.iter().copied().fold(f32::MAX, f32::min);
        assert!(least >= 11.99, "{least}");
        let fonts = run("pdffonts", &[&file]);
        let lines: Vec<&str> = fonts.lines().skip(2).collect();
        assert_eq!(lines.len(), 2, "{fonts}");
        for line in lines {
            // Embedded, cut down to what is used, with the letters that it shows.
            assert!(
                line.contains("Andika") && line.contains("yes yes yes"),
                "{line}"
            );
        }
    }
}

/// No letter lies outside the margins, and no two lines of text lie on each other.
#[test]
fn text_keeps_to_the_page_and_to_its_own_place() {
    let folder = Folder::new("places");
    for (home, language) in [("tarn-4", "en"), ("ferrow-9", "es"), ("alder-1", "es")] {
        let home = demo(&format!("households/{home}.toml"));
        let (file, _) = print(&folder, &home, &["--language", language]);
        let text = run("pdftotext", &["-bbox-layout", &file, "-"]);
        let number = |part: &str, name: &str| -> f32 {
            let (_, rest) = part.split_once(&format!(" {name}=\"")).unwrap();
            rest.split_once('"').unwrap().0.parse().unwrap()
        };
        for (page, text) in text.split("<page ").skip(1).enumerate() {
            let mut boxes: Vec<[f32; 4]> = Vec::new();
            for word in text.split("<word").skip(1) {
                let [left, top, right, bottom] =
                    ["xMin", "yMin", "xMax", "yMax"].map(|name| number(word, name));
                assert!(
                    left >= 45.0 && right <= 612.0 - 45.0,
                    "page {}: {word}",
                    page + 1
                );
                assert!(
                    top >= 30.0 && bottom <= 792.0 - 30.0,
                    "page {}: {word}",
                    page + 1
                );
                // A line is told a third higher than its letters are.
                let third = (bottom - top) / 3.0;
                boxes.push([left + 0.5, top + third, right - 0.5, bottom - third]);
            }
            for (at, one) in boxes.iter().enumerate() {
                for other in &boxes[at + 1..] {
                    let apart = one[2] <= other[0]
                        || other[2] <= one[0]
                        || one[3] <= other[1]
                        || other[3] <= one[1];
                    assert!(apart, "page {}: {one:?} and {other:?}", page + 1);
                }
            }
        }
    }
}

/// A bowl that is kept has a label; one teaspoon and a half of a bowl of four serves one child twice.
#[test]
fn a_kept_bowl_has_a_label_with_its_end() {
    let folder = Folder::new("labels");
    let home = folder.at("home.toml");
    std::fs::write(
        &home,
        "time-zone = \"America/Chicago\"\nstart = \"2031-04-03\"\nrounds = [\"08:00\", \"20:00\"]\n[[person]]\nname = \"Pim\"\nborn = \"2028-07-19\"\nweight = \"31 lb 4 oz\"\ncleared = true\n",
    )
    .unwrap();
    let (file, _) = print(&folder, &home, &[]);
    let pages = pages(&file);
    // 8 minutes from water to the first spoon: five to soak, three to crush and stir.
    assert_says(
        &pages,
        &[
            "Bowl 1 Doxycycline, 100 mg in 4 teaspoons (20 mL) For Pim 1½ teaspoons (7.5 mL) at 8:00 p.m. Thursday, April 3",
            "Made at 7:52 a.m. Thursday, April 3",
            "Throw away after 7:52 a.m. Friday, April 4",
            "New: 1 Keep 1, to 7:52 a.m. Fri",
            "covered bowl",
        ],
    );
}

fn order() -> CheckedOrder {
    let bytes = std::fs::read(demo("orders/quillmere-doxy-1.toml")).unwrap();
    CheckedOrder::from_bytes(&bytes).unwrap()
}

#[test]
fn a_receipt_and_its_bottles_say_what_went_out() {
    let folder = Folder::new("receipt");
    let order = order();
    let line = |person, count| SlipLine {
        person,
        product: "doxycycline 100 mg tablet".to_owned(),
        lot: Some("QD3100".to_owned()),
        expiry: Some(date(2032, 6, 30)),
        count,
        unit: SlipUnit::Tablets,
        enough_until: Some(date(2031, 4, 12)),
        extension: None,
    };
    let receipt = Slip {
        household: HouseholdId([1, 2, 3, 4, 5, 6, 7, 8]),
        issue: 1,
        site: "OLD-MILL".to_owned(),
        at: "2031-04-03T15:00:00Z".parse().unwrap(),
        order: None,
        lines: vec![line(Some(7), 20), line(None, 40)],
    };
    let secret = DeviceRandom::new([9; 32]).key("quillmere-doxy");
    let code = exchange::write(&Message::Slip(receipt.clone()), &secret).unwrap();
    let names = BTreeMap::from([(7, "Pim".to_owned())]);
    let doses = BTreeMap::from([(7, "1½ cucharaditas (7.5 mL)".to_owned())]);
    let zone = schedule::zone("America/Chicago").unwrap();
    let sheet = SlipSheet {
        order: &order,
        slip: &receipt,
        code: &code,
        mark: "1a2b-3c4d-5e6f-7081-92a3",
        zone: &zone,
        names: &names,
    };
    let words = Words::load(Language::English);
    let file = folder.at("receipt.pdf");
    std::fs::write(&file, slip(&sheet, &words, Paper::Letter).unwrap()).unwrap();
    let read = pages(&file);
    assert_framed(&read, "Practice only", "Page", "of");
    assert_says(
        &read,
        &[
            "Receipt from OLD-MILL",
            // 15:00 UTC in summer.
            "10:00 a.m. Thursday, April 3, 2031",
            "For Pim 20 tablets, doxycycline 100 mg tablet Lot QD3100. Use it until Wednesday, June 30, 2032.",
            "For the whole home 40 tablets",
            "It is enough until Saturday, April 12, 2031.",
        ],
    );
    assert_eq!(codes(&folder, &file), [code.as_str()]);
    let labels = BottleLabel::of(&sheet, &doses);
    let words = Words::load(Language::Spanish);
    let pdf = bottle_labels(&order, &labels, &words, Paper::A4).unwrap();
    let file = folder.at("labels.pdf");
    std::fs::write(&file, pdf).unwrap();
    assert_says(
        &pages(&file),
        &[
            "Pim",
            "1½ cucharaditas (7.5 mL)",
            "20 pastillas",
            "Lote QD3100.",
            "OLD-MILL",
        ],
    );
}

/// Clocks in Chicago go forward on the second Sunday of March, 9 March 2031 (Energy Policy Act of 2005).
#[test]
fn another_reader_finds_every_alarm_in_time_also_when_clocks_go_forward() {
    let folder = Folder::new("calendar");
    let home = folder.at("home.toml");
    let text = std::fs::read_to_string(demo("households/tarn-4.toml")).unwrap();
    let text = text.replace("start = \"2031-04-03\"", "start = \"2031-03-06\"");
    std::fs::write(&home, text).unwrap();
    let (order, out) = (
        demo("orders/quillmere-doxy-1.toml"),
        folder.at("rounds.ics"),
    );
    let data = folder.at("data");
    run(
        &program(),
        &[
            "calendar",
            "--household",
            &home,
            "--order",
            &order,
            "--out",
            &out,
            "--data",
            &data,
        ],
    );
    let script = root().join("tests/tests/paper/calendar.py");
    let script = script.to_str().unwrap();
    let read = run("/usr/bin/python3", &["-B", script, &out, "America/Chicago"]);
    let read: Value = serde_json::from_str(&read).unwrap();
    assert_eq!(read["version"], "2.0");
    let events = read["events"].as_array().unwrap();
    assert_eq!(events.len(), 120);
    let mut uids: Vec<&str> = events
        .iter()
        .map(|event| event["uid"].as_str().unwrap())
        .collect();
    uids.sort_unstable();
    uids.dedup();
    assert_eq!(uids.len(), 120);
    for (at, event) in events.iter().enumerate() {
        // Three minutes to gather, five to soak, three to crush and stir: eleven before the doses.
        let (time, alarm) = if at % 2 == 0 {
            ("T08:00", "07:49")
        } else {
            ("T20:00", "19:49")
        };
        assert!(event["local"].as_str().unwrap().ends_with(time), "{event}");
        assert_eq!(event["alarms"], serde_json::json!([alarm]));
        assert_eq!(event["actions"], serde_json::json!(["DISPLAY"]));
        // Three measured doses of three minutes, one tablet of one.
        assert_eq!(event["minutes"], 10.0);
    }
    let utc = |at: usize| events[at]["utc"].as_str().unwrap();
    // Saturday evening and Sunday morning: eleven hours apart.
    assert_eq!((utc(5), utc(6)), ("2031-03-09T02:00", "2031-03-09T13:00"));
    assert_eq!(events[0]["summary"], "Hearthdose, practice: morning dose");
}
