//! The typeface on paper: how wide words are, and the few letters of it that a document carries.
//!
//! A letter that the typeface does not have stops the print: a name with a gap in it could be another name.

use std::collections::BTreeMap;

use pdf_writer::types::{CidFontType, FontFlags, SystemInfo, UnicodeCmap};
use pdf_writer::{Filter, Finish, Name, Pdf, Rect, Ref, Str};
use subsetter::GlyphRemapper;
use ttf_parser::{Face, GlyphId};

use super::CannotPrint;

const REGULAR: &[u8] = include_bytes!("../../fonts/Andika-Regular.ttf");
const BOLD: &[u8] = include_bytes!("../../fonts/Andika-Bold.ttf");

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Weight {
    Regular,
    Bold,
}

/// Both weights, with the letters that were used so far.
pub(super) struct Fonts {
    regular: Cut,
    bold: Cut,
    missing: Option<char>,
}

struct Cut {
    data: &'static [u8],
    face: Face<'static>,
    used: GlyphRemapper,
    letters: BTreeMap<u16, char>,
}

impl Fonts {
    pub(super) fn load() -> Result<Fonts, CannotPrint> {
        Ok(Fonts {
            regular: Cut::load(REGULAR)?,
            bold: Cut::load(BOLD)?,
            missing: None,
        })
    }

    fn cut(&self, weight: Weight) -> &Cut {
        match weight {
            Weight::Regular => &self.regular,
            Weight::Bold => &self.bold,
        }
    }

    /// Points that a line of text is wide.
    pub(super) fn width(&self, weight: Weight, size: f32, text: &str) -> f32 {
        let cut = self.cut(weight);
        let units: f32 = text
            .chars()
            .filter_map(|letter| cut.face.glyph_index(letter))
            .map(|glyph| f32::from(cut.face.glyph_hor_advance(glyph).unwrap_or(0)))
            .sum();
        units * size / f32::from(cut.face.units_per_em())
    }

    /// The text as numbers of glyphs in the document's own cut of the typeface.
    pub(super) fn encode(&mut self, weight: Weight, text: &str) -> Vec<u8> {
        let cut = match weight {
            Weight::Regular => &mut self.regular,
            Weight::Bold => &mut self.bold,
        };
        let mut bytes = Vec::with_capacity(text.len() * 2);
        for letter in text.chars() {
            match cut.face.glyph_index(letter) {
                Some(glyph) => {
                    let own = cut.used.remap(glyph.0);
                    cut.letters.entry(own).or_insert(letter);
                    bytes.extend(own.to_be_bytes());
                }
                None => self.missing = self.missing.or(Some(letter)),
            }
        }
        bytes
    }

    /// Writes both weights into the document; their objects begin at `regular` and at `bold`, five each.
    pub(super) fn write(&self, pdf: &mut Pdf, regular: Ref, bold: Ref) -> Result<(), CannotPrint> {
        if let Some(letter) = self.missing {
            return Err(CannotPrint::NoSuchLetter(letter));
        }
        self.regular.write(pdf, regular, "HDRGLR+Andika")?;
        self.bold.write(pdf, bold, "HDBOLD+Andika-Bold")
    }
}

impl Cut {
    fn load(data: &'static [u8]) -> Result<Cut, CannotPrint> {
        Ok(Cut {
            data,
            face: Face::parse(data, 0).map_err(|_| CannotPrint::Typeface)?,
            used: GlyphRemapper::new(),
            letters: BTreeMap::new(),
        })
    }

    /// Lengths of the typeface in thousandths of its size, as PDF counts them.
    fn thousandths(&self, units: f32) -> f32 {
        units * 1000.0 / f32::from(self.face.units_per_em())
    }

    fn write(&self, pdf: &mut Pdf, first: Ref, name: &str) -> Result<(), CannotPrint> {
        let info = SystemInfo {
            registry: Str(b"Adobe"),
            ordering: Str(b"Identity"),
            supplement: 0,
        };
        let at = |place: i32| Ref::new(first.get() + place);
        let (cid, about, unicode, file) = (at(1), at(2), at(3), at(4));
        let name = Name(name.as_bytes());
        pdf.type0_font(first)
            .base_font(name)
            .encoding_predefined(Name(b"Identity-H"))
            .descendant_font(cid)
            .to_unicode(unicode);
        let mut font = pdf.cid_font(cid);
        font.subtype(CidFontType::Type2)
            .base_font(name)
            .system_info(info)
            .font_descriptor(about)
            .default_width(0.0)
            .cid_to_gid_map_predefined(Name(b"Identity"));
        let widths = self.used.remapped_gids().map(|glyph| {
            let advance = self.face.glyph_hor_advance(GlyphId(glyph)).unwrap_or(0);
            self.thousandths(f32::from(advance))
        });
        font.widths().consecutive(0, widths);
        font.finish();
        let face = &self.face;
        let cap = face.capital_height().unwrap_or_else(|| face.ascender());
        let edge = face.global_bounding_box();
        let length = |units: i16| self.thousandths(f32::from(units));
        pdf.font_descriptor(about)
            .name(name)
            .flags(FontFlags::SYMBOLIC)
            .bbox(Rect::new(
                length(edge.x_min),
                length(edge.y_min),
                length(edge.x_max),
                length(edge.y_max),
            ))
            .italic_angle(0.0)
            .ascent(length(face.ascender()))
            .descent(length(face.descender()))
            .cap_height(length(cap))
            .stem_v(if face.is_bold() { 140.0 } else { 90.0 })
            .font_file2(file);
        let mut map = UnicodeCmap::new(Name(b"Andika-UCS"), info);
        for (glyph, letter) in &self.letters {
            map.pair(*glyph, *letter);
        }
        pdf.stream(unicode, &map.finish());
        let few = subsetter::subset(self.data, 0, &self.used).map_err(|_| CannotPrint::Typeface)?;
        let packed = super::document::deflated(&few);
        pdf.stream(file, &packed)
            .filter(Filter::FlateDecode)
            .pair(Name(b"Length1"), i32::try_from(few.len()).unwrap_or(0));
        Ok(())
    }
}
