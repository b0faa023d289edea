//! Every screen drawn with real fonts, at phone and desktop size, in two languages, light and dark, at 100 and 200 %.
//!
//! With HEARTHDOSE_PICTURES set to a folder the pictures are kept there to be looked at.

use std::path::PathBuf;

use hearthdose_tests::kitchen::World;
use hearthdose_tests::tour;
use hearthdose_ui::headless::Headless;
use hearthdose_ui::text::Language;

#[test]
fn every_screen_is_drawn() {
    let keep = std::env::var_os("HEARTHDOSE_PICTURES").map(PathBuf::from);
    let headless = Headless::new().expect("a window in memory");
    let mut screens = 0;
    for language in Language::ALL {
        let code = language.code();
        tour::everywhere(
            World::new(&format!("tour-{code}")),
            language,
            &mut |name, view| {
                screens += 1;
                let dark = language == Language::Spanish;
                for (width, height, scale) in [
                    (390, 844, 100),
                    (360, 640, 100),
                    (1180, 820, 100),
                    (390, 844, 200),
                ] {
                    let mut view = view.clone();
                    view.scale = scale;
                    view.dark = dark;
                    let picture = headless.render(&view, width, height);
                    let first = picture
                        .pixels
                        .first_chunk::<3>()
                        .copied()
                        .unwrap_or_default();
                    let plain = picture.pixels.chunks(3).all(|pixel| pixel == first);
                    assert!(!plain, "{name} is blank at {width} x {height}");
                    if let Some(folder) = &keep {
                        let file = format!("{screens:03}-{name}-{code}-{width}-{scale}.png");
                        picture.save_png(&folder.join(file)).expect("a picture");
                    }
                }
            },
        );
    }
    assert!(screens > 100, "only {screens} screens");
}
