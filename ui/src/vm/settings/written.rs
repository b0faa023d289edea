//! The settings as a small text: a first line that names the format, then one `name value` a line.

use super::{Settings, choose};

const FIRST: &str = "hearthdose settings 1";

/// The settings as they are kept.
pub fn write(settings: &Settings) -> String {
    let say = |yes: bool| if yes { "yes" } else { "no" };
    let Settings {
        language,
        size,
        dark,
        contrast,
        still,
        sound,
        flash,
    } = *settings;
    let lines = [
        FIRST.to_owned(),
        format!("language {}", language.code()),
        format!("size {size}"),
        format!("dark {}", say(dark)),
        format!("contrast {}", say(contrast)),
        format!("still {}", say(still)),
        format!("sound {}", say(sound)),
        format!("flash {}", say(flash)),
    ];
    lines.join("\n") + "\n"
}

/// What a text says, and whether every line of it was understood; what was not keeps its usual value.
///
/// A line that is missing is no damage: an older version did not know it.
pub fn read(text: &str) -> (Settings, bool) {
    let mut settings = Settings::default();
    let mut lines = text.lines();
    let mut whole = lines.next() == Some(FIRST) && text.ends_with('\n');
    for line in lines {
        whole &= choose(&mut settings, &line.replacen(' ', ":", 1));
    }
    (settings, whole)
}

#[cfg(test)]
mod tests {
    use super::super::SIZES;
    use super::*;
    use crate::text::Language;

    const SPANISH: &str = "hearthdose settings 1\nlanguage es\nsize 150\ndark yes\ncontrast yes\n\
        still yes\nsound no\nflash no\n";

    fn spanish() -> Settings {
        Settings {
            language: Language::Spanish,
            size: 150,
            dark: true,
            contrast: true,
            still: true,
            sound: false,
            flash: false,
        }
    }

    #[test]
    fn what_is_kept_is_read_again() {
        assert_eq!(write(&spanish()), SPANISH);
        assert_eq!(read(SPANISH), (spanish(), true));
        assert!(SIZES.contains(&Settings::default().size));
    }

    #[test]
    fn a_line_of_an_older_version_may_be_missing() {
        let settings = Settings {
            dark: true,
            ..Settings::default()
        };
        let old = "hearthdose settings 1\ndark yes\n";
        assert_eq!(read(old), (settings, true));
    }

    #[test]
    fn what_is_not_understood_keeps_its_usual_value_and_is_noticed() {
        let usual = Settings::default();
        let dark = Settings {
            dark: true,
            ..usual
        };
        for (text, settings) in [
            ("", usual),
            ("\0\0\0", usual),
            ("hearthdose settings 2\n", usual),
            ("hearthdose settings 1\nsize 300\ndark yes\n", dark),
            ("hearthdose settings 1\nlanguage xx\ndark yes\n", dark),
            ("hearthdose settings 1\ndark yes\nstill may", dark),
            ("hearthdose settings 1\ndark yes\nsmell no\n", dark),
            ("hearthdose settings 1\ndark yes", dark),
        ] {
            assert_eq!(read(text), (settings, false), "{text:?}");
        }
    }
}
