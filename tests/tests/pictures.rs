//! Every screen drawn with real fonts, at phone and desktop size, in two languages, light and dark, at 100 and 200 %.
//!
//! With HEARTHDOSE_PICTURES set to a folder the pictures are kept there to be looked at.

use std::path::PathBuf;

use hearthdose_tests::kitchen::World;
use hearthdose_tests::tour;
use hearthdose_tests::voices::{self, Voice};
use hearthdose_ui::headless::Headless;
use hearthdose_ui::text::Language;
use hearthdose_ui::vm::view::View;

/// Width, height, percent of text, dark.
type Look = (u32, u32, u16, bool);

const ENGLISH: &[Look] = &[
    (390, 844, 100, false),
    (360, 640, 100, false),
    (1180, 820, 100, true),
    (390, 844, 200, false),
];
/// Of the two languages that nobody speaks, a round and a home.
const TRIAL: &[Look] = &[
    (360, 640, 100, false),
    (360, 640, 200, false),
    (1180, 820, 100, false),
];
const SPANISH: &[Look] = &[(360, 640, 100, true), (1180, 820, 200, false)];

/// A message that is not there is shown as its key, in brackets.
fn missing(value: &serde_json::Value) -> Option<String> {
    match value {
        serde_json::Value::String(text) => {
            (text.starts_with('[') && text.ends_with(']')).then(|| text.clone())
        }
        serde_json::Value::Array(all) => all.iter().find_map(missing),
        serde_json::Value::Object(all) => all.values().find_map(missing),
        _ => None,
    }
}

#[test]
fn every_screen_is_drawn() {
    let keep = std::env::var_os("HEARTHDOSE_PICTURES").map(PathBuf::from);
    let headless = Headless::new().expect("a window in memory");
    let mut drawn = 0;
    let stretched: (&str, Option<Voice>) = ("stretched", Some(voices::stretched));
    let leftward: (&str, Option<Voice>) = ("leftward", Some(voices::leftward));
    for (language, (code, voice), looks) in [
        (Language::English, ("en", None), ENGLISH),
        (Language::Spanish, ("es", None), SPANISH),
        (Language::English, stretched, TRIAL),
        (Language::English, leftward, TRIAL),
    ] {
        let mut show = |name: &str, view: &View| {
            let value = serde_json::to_value(view).expect("a view is plain");
            // A stretched text stands in brackets too.
            let missing = missing(&value).filter(|_| voice.is_none());
            assert_eq!(missing, None, "{name} asks for a message that is not there");
            for (width, height, scale, dark) in looks {
                drawn += 1;
                let mut view = view.clone();
                view.scale = *scale;
                view.dark = *dark;
                let picture = headless.render(&view, *width, *height);
                let first = picture.pixels.first_chunk::<3>().copied();
                let mut pixels = picture.pixels.as_chunks::<3>().0.iter();
                let plain = pixels.all(|pixel| Some(*pixel) == first);
                assert!(!plain, "{name} is blank at {width} x {height}");
                if let Some(folder) = &keep {
                    let file = format!("{name}-{code}-{width}-{scale}.png");
                    picture.save_png(&folder.join(file)).expect("a picture");
                }
            }
        };
        let home = World::new(&format!("draw-{code}")).speaking(voice);
        tour::practice(home, language, &mut show);
        if voice.is_some() {
            continue;
        }
        tour::two_orders(World::new(&format!("two-{code}")), language, &mut show);
        tour::site(World::new(&format!("site-{code}")), language, &mut show);
        tour::everywhere(World::new(&format!("tour-{code}")), language, &mut show);
        let other = World::new(&format!("untranslated-{code}"));
        tour::untranslated(other, language, &mut show);
    }
    assert!(drawn > 400, "only {drawn} pictures");
}
