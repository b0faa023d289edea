//! An order without words in the language of the screen: what it says is shown in another one, and every such screen says so.

use hearthdose_ui::text::Language;
use hearthdose_ui::vm::view::View;

use super::{ORDER, Tour};
use crate::kitchen::World;

/// The order's file without a language.
pub fn without(order: &str, language: &str) -> String {
    let other = if language == "en" { "es" } else { "en" };
    let start = format!("{language} = \"");
    // The key stands alone, not at the end of another one.
    let found = |line: &str| {
        let mut places = line.match_indices(&start).map(|(at, _)| at);
        places.find(|at| {
            line[..*at].chars().all(|c| !c.is_alphanumeric()) || line[..*at].ends_with(' ')
        })
    };
    let mut lines = Vec::new();
    for line in order.lines() {
        let mut line = line.to_owned();
        while let Some(at) = found(&line) {
            let rest = &line[at + start.len()..];
            let end = at + start.len() + rest.find('"').expect("a closed text") + 1;
            line.replace_range(at..end, "");
        }
        let line = line.replace("{ , ", "{ ").replace(",  }", " }");
        // What had words in this language alone has none now.
        let line = line.replace("words = {  }, ", "");
        if !line.ends_with("words = {  }") {
            lines.push(line);
        }
    }
    let both = "languages = [\"en\", \"es\"]";
    lines
        .join("\n")
        .replace(both, &format!("languages = [\"{other}\"]"))
}

/// From the file to the first round of a home of one, and what there is to read.
pub fn untranslated(world: World, language: Language, show: &mut dyn FnMut(&str, &View)) {
    world.bring("order.toml", &without(ORDER, language.code()));
    let mut tour = Tour::new(world, language, show);
    tour.press("with-order");
    tour.see("untranslated-papers");
    tour.press("paper:0");
    tour.see("untranslated-order");
    tour.press("take-paper");
    tour.type_name("Odile");
    tour.see("untranslated-name");
    for id in ["next", "adult", "no", "no"] {
        tour.press(id);
    }
    tour.see("untranslated-question");
    tour.press("unsure");
    for _ in 0..4 {
        tour.press("no");
    }
    tour.see("untranslated-outcome");
    tour.kitchen.take(&hearthdose_ui::vm::view::Intent::Back);
    for _ in 0..4 {
        tour.kitchen.take(&hearthdose_ui::vm::view::Intent::Back);
    }
    for _ in 0..5 {
        tour.press("no");
    }
    for id in ["everybody", "hour:8", "start-now", "uncounted"] {
        tour.press(id);
    }
    tour.see("untranslated-today");
    for place in ["people", "ahead", "order", "record", "help"] {
        tour.press(place);
        tour.see(&format!("untranslated-{place}"));
    }
    tour.press("today");
    tour.press("begin");
    for number in 0..60 {
        let view = tour.kitchen.view();
        match crate::kitchen::usual(&view) {
            Some(id) if id == "to-today" => break,
            Some(id) => {
                if id.starts_with("food:") {
                    tour.see(&format!("untranslated-food-{number}"));
                }
                tour.press(&id);
            }
            None => {
                tour.world.pass(jiff::SignedDuration::from_secs(140));
                tour.kitchen.take(&hearthdose_ui::vm::view::Intent::Tick);
            }
        }
    }
}
