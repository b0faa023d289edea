//! Files on their way out: what they are, as other programs are told, and the folder of older systems.

use std::io;
use std::path::{Component, Path};

/// Media type of a file by its ending; what has none that is known is only bytes.
pub fn media_type(name: &str) -> &'static str {
    match name.rsplit_once('.').map(|(_, ending)| ending) {
        Some("pdf") => "application/pdf",
        Some("ics") => "text/calendar",
        Some("png") => "image/png",
        _ => "application/octet-stream",
    }
}

/// Keeps a file whole or not at all, in place of one of the same name.
///
/// # Errors
/// The folder cannot be written.
pub fn keep(folder: &Path, name: &str, bytes: &[u8]) -> io::Result<()> {
    std::fs::create_dir_all(folder)?;
    let draft = folder.join(format!("{name}.part"));
    std::fs::write(&draft, bytes)?;
    std::fs::rename(&draft, folder.join(name))
}

/// A folder as a file manager or a computer shows it: without what only the system calls so.
pub fn place(folder: &Path) -> String {
    let parts = folder.components().filter_map(|part| match part {
        Component::Normal(name) => name.to_str(),
        _ => None,
    });
    let parts: Vec<&str> = parts.collect();
    let seen = parts.iter().rposition(|part| *part == "Android");
    parts.get(seen.unwrap_or(0)..).unwrap_or_default().join("/")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_left_has_the_type_that_other_programs_look_for() {
        for (name, expected) in [
            ("hearthdose-home.pdf", "application/pdf"),
            ("hearthdose.ics", "text/calendar"),
            ("hearthdose-code.png", "image/png"),
            ("shift-1f.shift", "application/octet-stream"),
            ("pdf", "application/octet-stream"),
        ] {
            assert_eq!(media_type(name), expected, "{name}");
        }
    }

    #[test]
    fn a_folder_is_told_as_people_find_it() {
        let folder = Path::new("/storage/emulated/0/Android/data/org.hearthdose.app/files");
        assert_eq!(place(folder), "Android/data/org.hearthdose.app/files");
    }

    #[test]
    fn a_newer_file_takes_the_place_of_the_older() {
        let folder =
            std::env::temp_dir().join(format!("hearthdose-leaving-{}", std::process::id()));
        for bytes in [&b"first"[..], b"second"] {
            assert!(keep(&folder, "hearthdose.ics", bytes).is_ok());
        }
        let there = std::fs::read_dir(&folder).map(Iterator::count);
        assert_eq!(there.ok(), Some(1));
        let bytes = std::fs::read(folder.join("hearthdose.ics"));
        assert_eq!(bytes.ok().as_deref(), Some(&b"second"[..]));
        assert!(std::fs::remove_dir_all(folder).is_ok());
    }
}
