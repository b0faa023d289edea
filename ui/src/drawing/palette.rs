//! The colours of the drawings: each light fill with its dark counterpart.
//!
//! Invariant: no light colour stands twice, so that a light drawing can be turned dark by its colours alone.
//! Where two things look alike by day and differ by night, one of them is a shade off that no eye sees
//! (paper of labels and tags beside enamel, blue cloth beside the blue band of the bowl).

/// One thing that is drawn, by day and by night.
pub(super) struct Colour {
    pub light: &'static str,
    pub dark: &'static str,
}

const fn colour(light: &'static str, dark: &'static str) -> Colour {
    Colour { light, dark }
}

pub(super) const INK: Colour = colour("#2B211A", "#F7ECD9");
pub(super) const ENAMEL: Colour = colour("#FFFDF6", "#6B6156");
pub(super) const INSIDE: Colour = colour("#E9DDC4", "#453D35");
pub(super) const BAND: Colour = colour("#3E5C76", "#8FB0CE");
pub(super) const WATER: Colour = colour("#B9D8DC", "#3B6870");
pub(super) const RIPPLE: Colour = colour("#6FA3AA", "#8CBDC3");
pub(super) const TABLET: Colour = colour("#F6E2A0", "#C9AB55");
pub(super) const TABLET_SIDE: Colour = colour("#DDBD63", "#8C7130");
pub(super) const MIXTURE: Colour = colour("#EFD07A", "#E0B84A");
pub(super) const HAZE: Colour = colour("#D9D9AC", "#6B733F");
pub(super) const CRUMB: Colour = colour("#8A6412", "#5A3E08");
pub(super) const MILK: Colour = colour("#FFFFFF", "#EFE6D6");
pub(super) const GROUND: Colour = colour("#84705C", "#A3917A");

/// Every colour a drawing may use.
pub(super) const ALL: &[Colour] = &[
    INK,
    ENAMEL,
    INSIDE,
    BAND,
    WATER,
    RIPPLE,
    TABLET,
    TABLET_SIDE,
    MIXTURE,
    HAZE,
    CRUMB,
    MILK,
    GROUND,
    colour("#C98158", "#95583A"), // clay
    colour("#E2B093", "#693E29"), // clay inside
    colour("#DADEDD", "#737878"), // steel
    colour("#C69C66", "#7E5E37"), // wood
    colour("#E6D2AB", "#8A7550"), // straw
    colour("#8F5F42", "#7A4E34"), // cocoa
    colour("#FFFDF8", "#3B3026"), // paper of labels, tags and sheets
    colour("#C48F63", "#A67750"), // skin
    colour("#4A3425", "#2A1D14"), // hair
    colour("#3E5C77", "#4A6C8E"), // blue cloth
    colour("#9A4B36", "#A3543D"), // red cloth
    colour("#8A2F22", "#F0C0B0"), // spots on skin
    colour("#7D2413", "#EE8F78"), // brick
    colour("#E3A530", "#E3A530"), // sun, the same by day and by night
];

/// Exchanges every light colour for its dark one, in one pass, so that no colour is exchanged twice.
pub(super) fn darken(light: &str) -> String {
    let mut pieces = light.split('#');
    let mut out = pieces.next().unwrap_or_default().to_owned();
    for piece in pieces {
        let found = ALL.iter().find_map(|c| {
            let rest = piece.strip_prefix(c.light.strip_prefix('#')?)?;
            Some((c.dark, rest))
        });
        match found {
            Some((dark, rest)) => {
                out.push_str(dark);
                out.push_str(rest);
            }
            None => {
                out.push('#');
                out.push_str(piece);
            }
        }
    }
    out
}
