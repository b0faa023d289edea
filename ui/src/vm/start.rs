//! The first screen, and messages of the program itself.

use super::make::picture;
use super::view::{Button, Choice, Link, StartView, StepView};
use super::{Kitchen, Telling};

impl Kitchen {
    /// The language one changes to, under its own name: whoever needs it cannot read the others.
    pub(super) fn other_language(&self) -> Link {
        Link::to(
            "language",
            self.words.language().next().own_name().to_owned(),
        )
    }

    pub(super) fn start_view(&self) -> StartView {
        let say = |key: &str| self.words.say(key);
        StartView {
            name: say("name"),
            motto: say("motto"),
            question: say("start-question"),
            choices: vec![
                Choice::new(
                    "practise",
                    say("start-practise"),
                    say("start-practise-detail"),
                    "stir",
                )
                .usual(),
                Choice::new(
                    "with-order",
                    say("start-order"),
                    say("start-order-detail"),
                    "order-paper",
                ),
                Choice::new(
                    "receive-code",
                    say("receive-title"),
                    String::new(),
                    "show-code",
                ),
            ],
            note: None,
            ways: vec![
                Link::to("work-at-site", say("start-site")),
                self.other_language(),
                Link::to("settings", say("settings")),
            ],
            footer: say("not-your-clinician"),
        }
    }

    pub(super) fn telling_view(&self, telling: &Telling) -> StepView {
        let mut view = StepView::titled(telling.title.clone());
        view.small_picture = (!telling.drawing.is_empty()).then(|| picture(telling.drawing));
        view.body = vec![telling.body.clone()];
        view.amount = telling.amount.clone();
        view.after = telling.after.clone().unwrap_or_default();
        view.main = Some(Button::ready("told", telling.main.clone()));
        view.ways = if telling.file {
            self.hand_on_ways()
        } else {
            Vec::new()
        };
        view.back = false;
        view.in_the_way = true;
        view
    }
}
