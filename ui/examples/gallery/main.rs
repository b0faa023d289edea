//! Draws sample views of every kind into a directory: `cargo run -p hearthdose-ui --example gallery -- DIR [PART OF NAME]`.
//!
//! All names, places and numbers are invented. The samples only show how a screen looks; no rule made them.

mod parts;
mod places;
mod steps;

use hearthdose_ui::headless::{Headless, HeadlessError};
use hearthdose_ui::vm::view::{Link, Screen, View};
use parts::link;
use std::path::PathBuf;

fn main() -> Result<(), HeadlessError> {
    let dir = PathBuf::from(
        std::env::args()
            .nth(1)
            .unwrap_or_else(|| "gallery".to_owned()),
    );
    let only = std::env::args().nth(2).unwrap_or_default();
    std::fs::create_dir_all(&dir).map_err(image_error)?;
    let headless = Headless::new()?;
    let save = |name: &str, view: &View, width: u32, height: u32| -> Result<(), HeadlessError> {
        if !name.contains(&only) {
            return Ok(());
        }
        headless
            .render(view, width, height)
            .save_png(&dir.join(format!("{name}.png")))
    };
    for (name, screen) in screens() {
        let view = view(screen);
        save(&format!("{name}-390"), &view, 390, 844)?;
        save(&format!("{name}-360"), &view, 360, 640)?;
        save(&format!("{name}-1180"), &view, 1180, 820)?;
        let mut dark = view.clone();
        dark.dark = true;
        save(&format!("{name}-dark"), &dark, 390, 844)?;
        save(&format!("{name}-dark-1180"), &dark, 1180, 820)?;
        let mut big = view.clone();
        big.scale = 200;
        save(&format!("{name}-200"), &big, 390, 844)?;
        save(&format!("{name}-200-all"), &big, 390, 2600)?;
        save(&format!("{name}-200-360"), &big, 360, 640)?;
        save(&format!("{name}-200-1180"), &big, 1180, 820)?;
        let mut middle = view.clone();
        middle.scale = 140;
        save(&format!("{name}-140"), &middle, 390, 844)?;
        save(&format!("{name}-tablet"), &view, 768, 1024)?;
    }
    Ok(())
}

fn image_error(error: std::io::Error) -> HeadlessError {
    HeadlessError::Write(error.into())
}

fn view(screen: Screen) -> View {
    View {
        strip: Some("Invented order. Practice only.".into()),
        shelf: [
            "Today",
            "People",
            "Bowls",
            "Order",
            "Record",
            "Show code",
            "Be careful",
        ]
        .iter()
        .map(|word| Link {
            here: *word == "Today",
            ..link(word)
        })
        .collect(),
        household: "Tarn household\n4 people".into(),
        back_word: "Back".into(),
        help: Some(link("Help")),
        dark: false,
        scale: 100,
        screen,
    }
}

fn screens() -> Vec<(&'static str, Screen)> {
    vec![
        ("a-start", Screen::Start(places::start())),
        ("b-today", Screen::Today(places::today(false))),
        ("b-today-many", Screen::Today(places::today(true))),
        ("c-gather", Screen::step(steps::gather())),
        ("d-soak", Screen::step(steps::soak())),
        ("e-crush", Screen::step(steps::crush())),
        ("f-smooth", Screen::step(steps::smooth())),
        ("g-stir", Screen::step(steps::stir())),
        ("h-measure", Screen::step(steps::measure())),
        ("h-measure-four", Screen::step(steps::measure_four())),
        ("h-measure-long", Screen::step(steps::measure_long())),
        ("i-food", Screen::step(steps::food())),
        ("j-give", Screen::step(steps::give())),
        ("k-outcome", Screen::step(steps::outcome())),
        ("l-cover", Screen::step(steps::cover())),
        ("m-throw", Screen::step(places::throw())),
        ("n-hold", Screen::step(places::hold())),
        ("o-wrong", Screen::step(places::wrong())),
        ("p-cautions", Screen::Reading(places::cautions())),
        ("q-contacts", Screen::Reading(places::contacts())),
        ("r-order", Screen::Reading(places::order())),
    ]
}
