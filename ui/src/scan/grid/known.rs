//! The modules of a code that are the same in every code of its version (ISO/IEC 18004, section 6.3).

/// Where the alignment patterns are: their middle modules, those on finder patterns left out.
pub(super) fn alignments(centres: &[u32], modules: usize) -> Vec<(usize, usize)> {
    let all: Vec<usize> = centres
        .iter()
        .filter_map(|centre| usize::try_from(*centre).ok())
        .collect();
    let far = modules.saturating_sub(8);
    let on_finder = |u: usize, v: usize| (u < 8 && (v < 8 || v >= far)) || (u >= far && v < 8);
    all.iter()
        .flat_map(|v| all.iter().map(move |u| (*u, *v)))
        .filter(|(u, v)| !on_finder(*u, *v))
        .collect()
}

/// Whether a module of an alignment pattern is dark; from its middle.
pub(super) fn alignment_is_dark(across: i32, down: i32) -> bool {
    across.abs().max(down.abs()) != 1
}

/// Every module whose colour is known beforehand, with that: true is dark.
pub(super) fn known(centres: &[u32], modules: usize) -> Vec<(usize, usize, bool)> {
    let mut known = Vec::new();
    let far = modules.saturating_sub(7);
    for (left, top) in [(0, 0), (far, 0), (0, far)] {
        for down in -1i32..=7 {
            for across in -1i32..=7 {
                let place = |start: usize, off: i32| {
                    let at = i32::try_from(start).ok()? + off;
                    usize::try_from(at).ok().filter(|at| *at < modules)
                };
                if let (Some(u), Some(v)) = (place(left, across), place(top, down)) {
                    let ring = (across - 3).abs().max((down - 3).abs());
                    known.push((u, v, ring != 2 && ring != 4));
                }
            }
        }
    }
    for at in 8..modules.saturating_sub(8) {
        known.push((at, 6, at % 2 == 0));
        known.push((6, at, at % 2 == 0));
    }
    for (u, v) in alignments(centres, modules) {
        for down in -2i32..=2 {
            for across in -2i32..=2 {
                let u = u.saturating_add_signed(isize::try_from(across).unwrap_or(0));
                let v = v.saturating_add_signed(isize::try_from(down).unwrap_or(0));
                // Those on a timing line are there already.
                if u != 6 && v != 6 {
                    known.push((u, v, alignment_is_dark(across, down)));
                }
            }
        }
    }
    known
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scan::drawn;

    #[test]
    fn what_is_known_is_drawn_so() {
        // Another program's drawing: versions 1, 7 and 20 with their alignment patterns (ISO/IEC 18004, annex E).
        for (version, centres) in [(1, &[][..]), (7, &[6, 22, 38]), (20, &[6, 34, 62, 90])] {
            let frame = drawn("QUILLMERE", 1, version).unwrap();
            let modules = frame.width() - 8;
            let known = known(centres, modules);
            assert!(known.len() > 192);
            for (u, v, dark) in known {
                let pixel = frame.pixels()[(v + 4) * frame.width() + u + 4];
                assert_eq!(dark, pixel == 0, "version {version}: {u}, {v}");
            }
        }
    }
}
