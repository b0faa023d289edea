//! The structure of a paper, as another program tells it to a screen reader.

use super::{Folder, demo, flat, pages, print, run};

/// The course of the demo order is 60 days of two rounds.
const ROUNDS: usize = 120;

/// What another program finds of the structure: each element on a line, indented by its depth, the text of a piece in quotes.
fn structure(file: &str) -> String {
    run("pdfinfo", &["-struct-text", file])
}

/// A screen reader has one title, sections, tables with heads, and words for each code and each box.
#[test]
fn another_reader_finds_titles_tables_and_what_stands_for_pictures() {
    let folder = Folder::new("structure");
    let (file, _) = print(&folder, &demo("households/tarn-4.toml"), &[]);
    assert!(run("pdfinfo", &[&file]).contains("Tagged:          yes"));
    let found = structure(&file);
    let kinds: Vec<&str> = found
        .lines()
        .map(str::trim)
        .filter(|line| !line.starts_with('"'))
        .map(|line| line.split(|c: char| !c.is_alphanumeric()).next().unwrap())
        .collect();
    let count = |kind: &str| kinds.iter().filter(|found| **found == kind).count();
    assert_eq!((count("Document"), count("H1")), (1, 1));
    assert!(count("H2") >= 4, "{kinds:?}");
    // Sixty days of two rounds: a row for each, and one over each table.
    let tables = count("Table");
    assert!(tables >= 1);
    assert_eq!(count("TR"), ROUNDS + tables);
    // When and bowls, then four people, in every row.
    assert_eq!(count("TH"), 6 * tables + ROUNDS);
    assert_eq!(count("TD"), ROUNDS * 5);
    // The code, and a box for each of four people in each round.
    assert_eq!(count("Figure"), 1 + ROUNDS * 4);
    let detailed = run("pdfinfo", &["-struct", &file]);
    assert!(!detailed.contains("Error"), "{detailed}");
    // Whatever is read on the pages is in the structure, but for what stands on each of them.
    let told: String = found
        .lines()
        .filter_map(|line| line.trim().strip_prefix('"')?.strip_suffix('"'))
        .collect::<Vec<_>>()
        .join(" ");
    let told = flat(&told);
    let pages = pages(&file);
    for word in pages.iter().flat_map(|page| page.split(' ')) {
        let on_each = pages.iter().all(|page| page.contains(word));
        assert!(on_each || told.contains(word), "“{word}” is in no element");
    }
}
