//! The page of settings: each with all there is to choose, and what this device has or lacks.

use super::super::Kitchen;
use super::super::make::{heading, item};
use super::super::view::{Block, Link, ReadingView};
use super::SIZES;
use crate::text::Language;

impl Kitchen {
    pub(in crate::vm) fn settings_reading(&self) -> ReadingView {
        let words = &self.words;
        let now = self.settings;
        let mut view = ReadingView::titled(words.say("settings"));
        view.lead = words.say("settings-lead");
        let languages = Language::ALL.map(|language| Link {
            here: language == now.language,
            ..Link::to(
                &format!("language:{}", language.code()),
                language.own_name().to_owned(),
            )
        });
        let sizes = SIZES.map(|size| Link {
            here: size == now.size,
            ..Link::to(
                &format!("size:{size}"),
                words.say_with("settings-percent", &[("percent", u32::from(size).into())]),
            )
        });
        let either = |what: &str, yes: bool, choices: [(&str, String); 2]| {
            choices.map(|(value, label)| Link {
                here: (value == "yes") == yes,
                ..Link::to(&format!("{what}:{value}"), label)
            })
        };
        let say = |key: &str| words.say(key);
        let choices: [(String, Vec<Link>); 7] = [
            (say("settings-language"), languages.to_vec()),
            (say("settings-size"), sizes.to_vec()),
            (
                say("settings-dark"),
                either(
                    "dark",
                    now.dark,
                    [
                        ("no", say("settings-light")),
                        ("yes", say("settings-night")),
                    ],
                )
                .to_vec(),
            ),
            (
                say("settings-contrast"),
                either(
                    "contrast",
                    now.contrast,
                    [
                        ("no", say("settings-warm")),
                        ("yes", say("settings-strong")),
                    ],
                )
                .to_vec(),
            ),
            (
                say("settings-movement"),
                either(
                    "still",
                    now.still,
                    [
                        ("no", say("settings-moves")),
                        ("yes", say("settings-still")),
                    ],
                )
                .to_vec(),
            ),
            (
                say("settings-ring"),
                either(
                    "sound",
                    now.sound,
                    [
                        ("yes", say("settings-sound")),
                        ("no", say("settings-quiet")),
                    ],
                )
                .to_vec(),
            ),
            (
                say("settings-over"),
                either(
                    "flash",
                    now.flash,
                    [
                        ("yes", say("settings-flash")),
                        ("no", say("settings-no-flash")),
                    ],
                )
                .to_vec(),
            ),
        ];
        for (label, options) in choices {
            view.blocks.push(Block::Choice { label, options });
        }
        view.blocks.push(heading(say("settings-device")));
        view.blocks.extend(self.pieces());
        view
    }

    /// What this device has, and for what it lacks another way.
    fn pieces(&self) -> [Block; 5] {
        let say = |key: &str| self.words.say(key);
        let bell = self.bell.as_ref();
        let voice = self.voice.as_ref().is_some_and(|voice| voice.is_there());
        let sounds = bell.is_some_and(|bell| bell.sounds());
        let writes = bell.is_some_and(|bell| bell.writes());
        let piece = |there: bool, has: &str, lacks: &str, instead: &str| {
            if there {
                item(say(has), String::new())
            } else {
                item(say(lacks), say(instead))
            }
        };
        [
            piece(
                voice,
                "piece-voice",
                "piece-no-voice",
                "piece-no-voice-body",
            ),
            piece(
                sounds,
                "piece-sound",
                "piece-no-sound",
                "piece-no-sound-body",
            ),
            piece(
                writes,
                "piece-message",
                "piece-no-message",
                "piece-no-message-body",
            ),
            piece(
                self.has_camera(),
                "piece-camera",
                "piece-no-camera",
                "piece-no-camera-body",
            ),
            piece(
                self.reader,
                "piece-reader",
                "piece-no-reader",
                "piece-no-reader-body",
            ),
        ]
    }
}
