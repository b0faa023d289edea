//! Where the desktop program keeps its orders and records.

use std::env;
use std::ffi::OsString;
use std::path::PathBuf;

/// `--data`, else `HEARTHDOSE_DATA`, else `hearthdose` in the user's data folder (XDG Base Directory Specification 0.8).
///
/// None when no home is known.
pub fn data_folder(asked_for: Option<PathBuf>) -> Option<PathBuf> {
    choose(asked_for, |name| env::var_os(name))
}

fn choose(
    asked_for: Option<PathBuf>,
    variable: impl Fn(&str) -> Option<OsString>,
) -> Option<PathBuf> {
    let set = |name: &str| {
        variable(name)
            .filter(|value| !value.is_empty())
            .map(PathBuf::from)
    };
    if let Some(folder) = asked_for.or_else(|| set("HEARTHDOSE_DATA")) {
        return Some(folder);
    }
    // The specification has relative paths ignored.
    let shared = set("XDG_DATA_HOME").filter(|path| path.is_absolute());
    let shared = shared.or_else(|| set("HOME").map(|home| home.join(".local/share")));
    shared.map(|folder| folder.join("hearthdose"))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn chosen(asked_for: Option<&str>, variables: &[(&str, &str)]) -> Option<PathBuf> {
        let find = |name: &str| {
            variables
                .iter()
                .find(|(key, _)| *key == name)
                .map(|(_, value)| OsString::from(value))
        };
        choose(asked_for.map(PathBuf::from), find)
    }

    #[test]
    fn the_nearest_wish_rules() {
        let home = ("HOME", "/home/ines");
        let shared = ("XDG_DATA_HOME", "/data");
        let own = ("HEARTHDOSE_DATA", "/own");
        assert_eq!(
            chosen(Some("here"), &[home, shared, own]),
            Some(PathBuf::from("here"))
        );
        assert_eq!(
            chosen(None, &[home, shared, own]),
            Some(PathBuf::from("/own"))
        );
        assert_eq!(
            chosen(None, &[home, shared]),
            Some(PathBuf::from("/data/hearthdose"))
        );
        assert_eq!(
            chosen(None, &[home, ("XDG_DATA_HOME", "data")]),
            Some(PathBuf::from("/home/ines/.local/share/hearthdose"))
        );
        assert_eq!(
            chosen(None, &[home, ("HEARTHDOSE_DATA", "")]),
            Some(PathBuf::from("/home/ines/.local/share/hearthdose"))
        );
        assert_eq!(chosen(None, &[]), None);
    }
}
