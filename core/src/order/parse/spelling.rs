//! Telling a misspelled field from an unknown one.
//!
//! A misspelled field of an order would silently fall back to a default, so it is an error; a field this version does not know is only a warning.

/// The known name that `given` most likely means, if any is close enough.
///
/// Up to two slips (a letter too many, missing, wrong, or two swapped) count in names of six letters and more, one slip in shorter ones.
/// Two slips from a field that `is_there` as well are another word: `min-dose` beside `max-dose`.
pub(super) fn meant<'a>(
    given: &str,
    known: &[&'a str],
    is_there: impl Fn(&str) -> bool,
) -> Option<&'a str> {
    let given = given.to_lowercase();
    known
        .iter()
        .map(|name| (slips(&given, name), *name))
        .filter(|(slips, name)| {
            let strict = name.chars().count() < 6 || is_there(name);
            *slips <= if strict { 1 } else { 2 }
        })
        .min()
        .map(|(_, name)| name)
}

/// Fewest single slips that turn `a` into `b` (optimal string alignment).
fn slips(a: &str, b: &str) -> usize {
    let (a, b): (Vec<char>, Vec<char>) = (a.chars().collect(), b.chars().collect());
    if a.len().abs_diff(b.len()) > 2 {
        return usize::MAX;
    }
    let mut before: Vec<usize> = Vec::new();
    let mut last: Vec<usize> = (0..=b.len()).collect();
    for (i, x) in a.iter().enumerate() {
        let mut row = vec![i + 1];
        for (j, y) in b.iter().enumerate() {
            let at = |line: &[usize], index: usize| line.get(index).copied().unwrap_or(usize::MAX);
            let wrong = at(&last, j).saturating_add(usize::from(x != y));
            let extra = at(&last, j + 1).saturating_add(1);
            let missing = at(&row, j).saturating_add(1);
            let mut best = wrong.min(extra).min(missing);
            let swapped = i > 0 && j > 0 && a.get(i - 1) == Some(y) && b.get(j - 1) == Some(x);
            if swapped {
                best = best.min(at(&before, j - 1).saturating_add(1));
            }
            row.push(best);
        }
        before = std::mem::replace(&mut last, row);
    }
    last.last().copied().unwrap_or(usize::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn slips_are_counted() {
        for (a, b, expected) in [
            ("soak", "soak", 0),
            ("soka", "soak", 1),
            ("sok", "soak", 1),
            ("suply-day", "supply-days", 2),
            ("", "mg", 2),
            ("name", "note", 2),
        ] {
            assert_eq!(slips(a, b), expected, "{a} {b}");
        }
    }

    #[test]
    fn short_names_forgive_less() {
        assert_eq!(meant("note", &["name", "phone"], |_| false), None);
        assert_eq!(
            meant("supply_days", &["supply-days"], |_| false),
            Some("supply-days")
        );
        assert_eq!(meant("Soak", &["soak", "step"], |_| false), Some("soak"));
        assert_eq!(meant("min-dose", &["max-dose"], |_| true), None);
        assert_eq!(
            meant("intervall", &["interval"], |_| true),
            Some("interval")
        );
        assert_eq!(meant("colour", &["soak", "step"], |_| false), None);
    }
}
