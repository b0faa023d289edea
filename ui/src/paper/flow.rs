//! Text that flows down pages: wraps at words, goes on to the next page, and leaves head and foot their place.
//!
//! Nothing is smaller than 12 points, and no block is torn that is asked for whole.

use super::document::{Document, Place};
use super::font::Weight;
use super::tags::Tag;
use super::{CannotPrint, Paper};

pub(super) const MARGIN: f32 = 46.0;
const STRIP: f32 = 24.0;
const FOOT: f32 = 40.0;

/// How a piece of text looks.
#[derive(Clone, Copy, Debug)]
pub(super) struct Style {
    pub weight: Weight,
    pub size: f32,
    /// From one line to the next.
    pub step: f32,
}

const fn style(weight: Weight, size: f32, step: f32) -> Style {
    Style { weight, size, step }
}

impl Style {
    /// Titles are larger than everything below them.
    fn tag(self) -> Tag {
        if self.size >= TITLE.size {
            Tag::Title
        } else if self.size >= SECTION.size {
            Tag::Section
        } else {
            Tag::Text
        }
    }
}

pub(super) const TITLE: Style = style(Weight::Bold, 24.0, 30.0);
pub(super) const SECTION: Style = style(Weight::Bold, 18.0, 24.0);
pub(super) const NAME: Style = style(Weight::Bold, 16.0, 21.0);
pub(super) const AMOUNT: Style = style(Weight::Bold, 15.0, 20.0);
pub(super) const BODY: Style = style(Weight::Regular, 12.5, 17.5);
pub(super) const STRONG: Style = style(Weight::Bold, 12.5, 17.5);
pub(super) const SMALL: Style = style(Weight::Regular, 12.0, 16.0);
pub(super) const SMALL_STRONG: Style = style(Weight::Bold, 12.0, 16.0);

/// What stands on every page.
#[derive(Clone, Debug, Default)]
pub(super) struct Frame {
    /// In a box at the top: that this is for practice only.
    pub strips: Vec<String>,
    /// Two lines at the bottom left.
    pub foot: [String; 2],
}

pub(super) struct Flow {
    pub(super) document: Document,
    frame: Frame,
    /// Where the next thing begins.
    pub(super) y: f32,
}

impl Flow {
    pub(super) fn new(paper: Paper, frame: Frame) -> Result<Flow, CannotPrint> {
        let mut flow = Flow {
            document: Document::new(paper)?,
            frame,
            y: 0.0,
        };
        flow.new_page();
        Ok(flow)
    }

    pub(super) fn left(&self) -> f32 {
        MARGIN
    }

    pub(super) fn width(&self) -> f32 {
        self.document.width - 2.0 * MARGIN
    }

    /// The lowest place for anything but the foot.
    pub(super) fn bottom(&self) -> f32 {
        self.document.height - MARGIN - FOOT
    }

    pub(super) fn new_page(&mut self) {
        self.document.new_page();
        self.y = MARGIN - 6.0;
        if self.frame.strips.is_empty() {
            return;
        }
        let strip = self.frame.strips.join(" ");
        let inside = self.width() - 20.0;
        let lines = self.lines(STRONG, inside, &strip);
        let count = f32::from(u16::try_from(lines.len()).unwrap_or(1));
        let height = STRIP + (count - 1.0) * STRONG.step;
        let place = Place {
            x: MARGIN,
            y: self.y,
            width: self.width(),
            height,
        };
        self.document.frame(place, 1.5, None);
        let mut base = self.y + 16.5;
        // Said once; on later pages it is there for those who hold only one of them.
        let is_first = self.document.pages() == 1;
        if is_first {
            self.document.tags.begin(Tag::Text);
        }
        for line in lines {
            self.document
                .text(STRONG.weight, STRONG.size, MARGIN + 10.0, base, &line);
            base += STRONG.step;
        }
        if is_first {
            self.document.tags.end();
        }
        self.y += height + 18.0;
    }

    /// True at the very top of a page.
    fn is_fresh(&self) -> bool {
        self.y < MARGIN + STRIP + 3.0 * STRONG.step
    }

    /// Goes to the next page where less than this is left.
    pub(super) fn room(&mut self, height: f32) {
        if self.y + height > self.bottom() && !self.is_fresh() {
            self.new_page();
        }
    }

    pub(super) fn gap(&mut self, height: f32) {
        if !self.is_fresh() {
            self.y += height;
        }
    }

    /// The text in lines that are no wider than this.
    pub(super) fn lines(&self, style: Style, width: f32, text: &str) -> Vec<String> {
        let fonts = &self.document.fonts;
        let fits = |line: &str| fonts.width(style.weight, style.size, line) <= width;
        let mut lines: Vec<String> = Vec::new();
        for word in glued(text, fits) {
            let word = word.as_str();
            match lines.last_mut() {
                Some(line) if fits(&format!("{line} {word}")) => {
                    line.push(' ');
                    line.push_str(word);
                }
                _ => lines.push(String::new()),
            }
            if let Some(line) = lines.last_mut().filter(|line| line.is_empty()) {
                line.push_str(word);
            }
            // A word that is wider than the place goes on in the next line.
            while let Some(long) = lines.last().filter(|line| !fits(line)).cloned() {
                let fitting = long
                    .char_indices()
                    .map(|(at, _)| at)
                    .skip(1)
                    .take_while(|at| fits(&long[..*at]))
                    .last();
                let Some(cut) = fitting else { break };
                let last = lines.len() - 1;
                lines[last].truncate(cut);
                lines.push(long[cut..].to_owned());
            }
        }
        lines
    }

    /// How high the text is in a place of this width.
    pub(super) fn height(&self, style: Style, width: f32, text: &str) -> f32 {
        let lines = self.lines(style, width, text).len();
        f32::from(u16::try_from(lines).unwrap_or(u16::MAX)) * style.step
    }

    /// Text at a place; returns where it ends. It stays on its page.
    pub(super) fn put(&mut self, style: Style, x: f32, y: f32, width: f32, text: &str) -> f32 {
        let mut top = y;
        self.document.tags.begin(style.tag());
        for line in self.lines(style, width, text) {
            // The letters stand so that their line has as much air above as below.
            let base = top + style.step * 0.5 + style.size * 0.36;
            self.document.text(style.weight, style.size, x, base, &line);
            top += style.step;
        }
        self.document.tags.end();
        top
    }

    /// What `set` sets belongs to one element: a table, a row of it, a cell.
    pub(super) fn within<T>(&mut self, tag: Tag, set: impl FnOnce(&mut Flow) -> T) -> T {
        self.document.tags.begin(tag);
        let done = set(self);
        self.document.tags.end();
        done
    }

    /// A paragraph over the whole width, kept together.
    pub(super) fn paragraph(&mut self, style: Style, text: &str) {
        self.indented(style, 0.0, text);
    }

    pub(super) fn indented(&mut self, style: Style, indent: f32, text: &str) {
        let (x, width) = (self.left() + indent, self.width() - indent);
        let height = self.height(style, width, text);
        self.room(height);
        self.y = self.put(style, x, self.y, width, text);
    }

    /// A paragraph behind a small square.
    pub(super) fn point(&mut self, text: &str) {
        self.room(self.height(BODY, self.width() - 18.0, text));
        let mark = Place {
            x: self.left() + 2.0,
            y: self.y + 6.0,
            width: 5.0,
            height: 5.0,
        };
        self.document.frame(mark, 1.0, Some(0.0));
        self.indented(BODY, 18.0, text);
        self.y += 3.0;
    }

    /// A section's title over a line, with room for what follows it.
    pub(super) fn section(&mut self, text: &str, follows: f32) {
        self.gap(16.0);
        let height = self.height(SECTION, self.width(), text);
        self.room(height + 8.0 + follows);
        self.paragraph(SECTION, text);
        self.rule(1.5, 0.0);
        self.y += 8.0;
    }

    pub(super) fn rule(&mut self, width: f32, gray: f32) {
        let (left, right) = (self.left(), self.left() + self.width());
        self.document
            .line((left, self.y + 1.0), (right, self.y + 1.0), width, gray);
        self.y += 2.0;
    }

    /// Writes the foot of every page and ends the document.
    pub(super) fn finish(
        mut self,
        title: &str,
        language: &str,
        number: &dyn Fn(usize, usize) -> String,
    ) -> Result<Vec<u8>, CannotPrint> {
        let of = self.document.pages();
        let base = self.document.height - MARGIN;
        let right = self.document.width - MARGIN;
        for page in 0..of {
            let text = number(page + 1, of);
            let wide = self.document.fonts.width(SMALL.weight, SMALL.size, &text);
            let first = self.lines(SMALL_STRONG, self.width(), &self.frame.foot[0]);
            let second = self.lines(SMALL, self.width() - wide - 16.0, &self.frame.foot[1]);
            let first = first.into_iter().next().unwrap_or_default();
            let second = second.into_iter().next().unwrap_or_default();
            let document = &mut self.document;
            document.text_on(page, Weight::Bold, 12.0, MARGIN, base - 16.0, &first);
            document.text_on(page, Weight::Regular, 12.0, MARGIN, base, &second);
            document.text_on(page, Weight::Regular, 12.0, right - wide, base, &text);
        }
        self.document.finish(title, language)
    }
}

/// The words of a text; what must not be torn counts as one word: "8:00 a.m.", "1½ teaspoons", "(7.5 mL)".
fn glued(text: &str, fits: impl Fn(&str) -> bool) -> Vec<String> {
    let mut words: Vec<String> = Vec::new();
    for word in text.split(' ') {
        let joined = words
            .last()
            .filter(|before| holds_on(before))
            .map(|before| format!("{before} {word}"));
        match joined.filter(|joined| fits(joined)) {
            Some(joined) => {
                words.pop();
                words.push(joined);
            }
            None => words.push(word.to_owned()),
        }
    }
    words
}

/// Whether what stands here wants the next word beside it.
fn holds_on(word: &str) -> bool {
    let last = word.rsplit(' ').next().unwrap_or(word);
    let number = last
        .chars()
        .all(|c| c.is_ascii_digit() || ":.½¼¾".contains(c));
    let open = last.starts_with('(') && !last.ends_with(')');
    let half_of_day = last == "a." || last == "p.";
    let counted = number && !last.ends_with('.');
    counted || open || half_of_day
}
