//! A document of pages: text, lines, pictures and codes at places measured in points from the top left corner.
//!
//! Black on white: pictures keep their ink and lose their colours, for any printer and any copier.

use pdf_writer::types::TabOrder;
use pdf_writer::{Content, Filter, Finish, Name, Pdf, Rect, Ref, Str, TextStr};
use qrcode::{Color, EcLevel, QrCode};

use super::font::{Fonts, Weight};
use super::picture;
use super::tags::{Tag, Tags};
use super::{CannotPrint, Paper};

/// White modules around a code (ISO/IEC 18004).
const QUIET: usize = 4;

pub(super) struct Document {
    pub(super) fonts: Fonts,
    pub(super) width: f32,
    pub(super) height: f32,
    pages: Vec<Content>,
    pub(super) tags: Tags,
}

/// A place and how wide and high what stands there is.
#[derive(Clone, Copy, Debug)]
pub(super) struct Place {
    pub x: f32,
    pub y: f32,
    pub width: f32,
    pub height: f32,
}

impl Document {
    pub(super) fn new(paper: Paper) -> Result<Document, CannotPrint> {
        let (width, height) = paper.points();
        Ok(Document {
            fonts: Fonts::load()?,
            width,
            height,
            pages: Vec::new(),
            tags: Tags::default(),
        })
    }

    pub(super) fn new_page(&mut self) {
        let mut page = Content::new();
        page.set_line_cap(pdf_writer::types::LineCapStyle::RoundCap);
        page.set_line_join(pdf_writer::types::LineJoinStyle::RoundJoin);
        self.pages.push(page);
    }

    pub(super) fn pages(&self) -> usize {
        self.pages.len()
    }

    /// Draws on the last page, as a piece of the open element or as an artifact.
    fn drawn(&mut self, draw: impl FnOnce(&mut Content)) {
        if self.pages.is_empty() {
            self.new_page();
        }
        self.drawn_on(self.pages.len() - 1, draw);
    }

    /// The same on a page that was begun before.
    fn drawn_on(&mut self, at: usize, draw: impl FnOnce(&mut Content)) {
        let mark = self.tags.mark(at);
        let Some(page) = self.pages.get_mut(at) else {
            return;
        };
        match mark {
            Some((name, number)) => {
                let mut content = page.begin_marked_content_with_properties(name);
                content.properties().identify(number);
            }
            None => {
                page.begin_marked_content(Name(b"Artifact"));
            }
        }
        draw(page);
        page.end_marked_content();
    }

    /// What `draw` draws is one picture, and `says` is read for it.
    pub(super) fn figure<T>(&mut self, says: String, draw: impl FnOnce(&mut Self) -> T) -> T {
        self.tags.begin(Tag::Figure(says));
        let drawn = draw(self);
        self.tags.end();
        drawn
    }

    /// One line of text whose letters stand on `base`.
    pub(super) fn text(&mut self, weight: Weight, size: f32, x: f32, base: f32, text: &str) {
        let last = self.pages.len().saturating_sub(1);
        self.text_on(last, weight, size, x, base, text);
    }

    /// The same on a page that was begun before.
    pub(super) fn text_on(
        &mut self,
        page: usize,
        weight: Weight,
        size: f32,
        x: f32,
        base: f32,
        text: &str,
    ) {
        let bytes = self.fonts.encode(weight, text);
        let up = self.height - base;
        let name: &[u8] = match weight {
            Weight::Regular => b"R",
            Weight::Bold => b"B",
        };
        self.drawn_on(page, |page| {
            page.begin_text()
                .set_font(Name(name), size)
                .set_text_matrix([1.0, 0.0, 0.0, 1.0, x, up])
                .show(Str(&bytes))
                .end_text();
        });
    }

    pub(super) fn line(&mut self, from: (f32, f32), to: (f32, f32), width: f32, gray: f32) {
        let height = self.height;
        self.drawn(|page| {
            page.set_stroke_gray(gray)
                .set_line_width(width)
                .move_to(from.0, height - from.1)
                .line_to(to.0, height - to.1)
                .stroke();
        });
    }

    /// An outlined box; `inside` is a gray, 1 for white.
    pub(super) fn frame(&mut self, place: Place, width: f32, inside: Option<f32>) {
        self.boxed(place, width, inside, None);
    }

    fn boxed(&mut self, place: Place, width: f32, inside: Option<f32>, dashes: Option<[f32; 2]>) {
        let up = self.height - place.y - place.height;
        self.drawn(|page| {
            page.set_stroke_gray(0.0).set_line_width(width);
            if let Some(dashes) = dashes {
                page.set_dash_pattern(dashes, 0.0);
            }
            page.rect(place.x, up, place.width, place.height);
            match inside {
                Some(gray) => {
                    page.set_fill_gray(gray);
                    page.fill_nonzero_and_stroke().set_fill_gray(0.0);
                }
                None => {
                    page.stroke();
                }
            }
            if dashes.is_some() {
                page.set_dash_pattern([], 0.0);
            }
        });
    }

    /// A box that is cut out: a broken outline.
    pub(super) fn cut_lines(&mut self, place: Place) {
        self.boxed(place, 0.75, None, Some([3.0, 4.0]));
    }

    /// A drawing by name, as large as fits into the place, in its middle.
    pub(super) fn picture(&mut self, name: &str, place: Place) {
        let Some(svg) = crate::drawing::svg(name, false) else {
            return;
        };
        let height = self.height;
        self.drawn(|page| picture::draw(page, &svg, place, height));
    }

    /// A text as a code of level M with its quiet zone; nothing where it is too long for one code.
    pub(super) fn code(&mut self, text: &str, x: f32, y: f32, side: f32) -> Option<()> {
        let code = QrCode::with_error_correction_level(text, EcLevel::M).ok()?;
        let across = code.width();
        let module = side / f32::from(u16::try_from(across + 2 * QUIET).ok()?);
        let height = self.height;
        self.drawn(|page| {
            page.set_fill_gray(0.0);
            for (row, colors) in code.to_colors().chunks(across).enumerate() {
                let mut at = 0;
                while at < across {
                    let run = colors[at..]
                        .iter()
                        .take_while(|color| **color == Color::Dark)
                        .count();
                    if run > 0 {
                        let from =
                            |place: usize| f32::from(u16::try_from(place).unwrap_or(0)) * module;
                        let down = y + from(row + QUIET + 1);
                        page.rect(x + from(at + QUIET), height - down, from(run), module);
                    }
                    at += run.max(1);
                }
            }
            page.fill_nonzero();
        });
        Some(())
    }

    /// The finished file.
    pub(super) fn finish(mut self, title: &str, language: &str) -> Result<Vec<u8>, CannotPrint> {
        let mut pdf = Pdf::new();
        let (catalog, tree, info) = (Ref::new(1), Ref::new(2), Ref::new(3));
        let (regular, bold) = (Ref::new(4), Ref::new(9));
        let count = i32::try_from(self.pages.len()).unwrap_or(i32::MAX / 4);
        let page = |at: i32| Ref::new(14 + 2 * at);
        let structure = page(count);
        let mut root = pdf.catalog(catalog);
        root.pages(tree).lang(TextStr(language));
        root.pair(Name(b"StructTreeRoot"), structure);
        root.mark_info().marked(true);
        root.viewer_preferences().display_doc_title(true);
        root.finish();
        pdf.document_info(info)
            .title(TextStr(title))
            .producer(TextStr("Hearthdose"));
        pdf.pages(tree).kids((0..count).map(page)).count(count);
        for (at, content) in (0..count).zip(std::mem::take(&mut self.pages)) {
            let own = page(at);
            let stream = Ref::new(own.get() + 1);
            let mut sheet = pdf.page(own);
            sheet
                .parent(tree)
                .media_box(Rect::new(0.0, 0.0, self.width, self.height))
                .tab_order(TabOrder::StructureOrder)
                .contents(stream);
            // A page without a piece of the structure is in no list of it.
            if usize::try_from(at).is_ok_and(|at| at < self.tags.pages()) {
                sheet.struct_parents(at);
            }
            sheet
                .resources()
                .fonts()
                .pair(Name(b"R"), regular)
                .pair(Name(b"B"), bold);
            sheet.finish();
            let packed = deflated(content.finish().as_slice());
            pdf.stream(stream, &packed).filter(Filter::FlateDecode);
        }
        let page_at = |at: usize| page(i32::try_from(at).unwrap_or(0));
        self.tags
            .write(&mut pdf, structure, structure.get() + 1, page_at);
        self.fonts.write(&mut pdf, regular, bold)?;
        Ok(pdf.finish())
    }
}

pub(super) fn deflated(bytes: &[u8]) -> Vec<u8> {
    miniz_oxide::deflate::compress_to_vec_zlib(bytes, 6)
}
