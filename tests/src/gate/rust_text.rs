//! Rust source taken apart into code, comments and string literals.
//!
//! Not a parser: it only knows where comments and literals begin and end, which is what the checks need.
//! `code` has one character for each of the source, with comments and the insides of literals blanked,
//! so that line numbers and positions stay true.
//! Slint sources have the same comments and strings and go through it as well.

/// A piece of the source with the line it begins on (from 1) and its character position in `code`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Piece {
    pub line: usize,
    pub at: usize,
    pub text: String,
}

#[derive(Debug, Default)]
pub struct RustText {
    pub code: Vec<char>,
    /// Without their slashes and stars.
    pub comments: Vec<Piece>,
    /// Without their quotes, escapes left as written.
    pub strings: Vec<Piece>,
}

/// A name in the code.
#[derive(Clone, Copy, Debug)]
pub struct Word<'a> {
    pub line: usize,
    pub at: usize,
    pub text: &'a [char],
}

impl Word<'_> {
    pub fn is(&self, name: &str) -> bool {
        self.text.iter().copied().eq(name.chars())
    }

    pub fn name(&self) -> String {
        self.text.iter().collect()
    }
}

impl RustText {
    pub fn new(source: &str) -> Self {
        let mut reader = Reader {
            source: source.chars().collect(),
            at: 0,
            line: 1,
            out: Self::default(),
        };
        reader.run();
        reader.out
    }

    /// Names and numbers of the code, in order.
    pub fn words(&self) -> Vec<Word<'_>> {
        let mut words = Vec::new();
        let (mut line, mut start) = (1, None);
        for (at, &letter) in self.code.iter().enumerate() {
            match (is_word(letter), start) {
                (true, None) => start = Some(at),
                (false, Some(from)) => {
                    words.push(self.word(line, from, at));
                    start = None;
                }
                _ => {}
            }
            if letter == '\n' {
                line += 1;
            }
        }
        if let Some(from) = start {
            words.push(self.word(line, from, self.code.len()));
        }
        words
    }

    fn word(&self, line: usize, from: usize, to: usize) -> Word<'_> {
        Word {
            line,
            at: from,
            text: self.code.get(from..to).unwrap_or_default(),
        }
    }

    /// True when the code goes on with `what` at `at`.
    pub fn follows(&self, at: usize, what: &str) -> bool {
        let rest = self.code.get(at..).unwrap_or_default();
        let mut rest = rest.iter();
        what.chars().all(|letter| rest.next() == Some(&letter))
    }

    /// True when the code before `at` ends with `what`.
    pub fn precedes(&self, at: usize, what: &str) -> bool {
        let length = what.chars().count();
        at >= length && self.follows(at - length, what)
    }

    /// First position at or after `at` that holds no white space.
    pub fn skip_space(&self, at: usize) -> usize {
        let rest = self.code.get(at..).unwrap_or_default();
        at + rest.iter().take_while(|c| c.is_whitespace()).count()
    }
}

pub fn is_word(letter: char) -> bool {
    letter.is_alphanumeric() || letter == '_'
}

struct Reader {
    source: Vec<char>,
    at: usize,
    line: usize,
    out: RustText,
}

impl Reader {
    fn peek(&self, ahead: usize) -> Option<char> {
        self.source.get(self.at + ahead).copied()
    }

    /// Moves on by one; the character stays in the code when `keep` is set.
    fn step(&mut self, keep: bool) -> Option<char> {
        let letter = self.peek(0)?;
        self.at += 1;
        if letter == '\n' {
            self.line += 1;
        }
        let kept = keep || letter == '\n';
        self.out.code.push(if kept { letter } else { ' ' });
        Some(letter)
    }

    fn run(&mut self) {
        while let Some(letter) = self.peek(0) {
            match letter {
                '/' if self.peek(1) == Some('/') => self.line_comment(),
                '/' if self.peek(1) == Some('*') => self.block_comment(),
                '"' => self.string(None),
                'r' if !self.inside_word() && self.raw_hashes().is_some() => {
                    let hashes = self.raw_hashes();
                    self.string(hashes);
                }
                '\'' => self.quote(),
                _ => {
                    self.step(true);
                }
            }
        }
    }

    /// A raw string may carry a `b` or `c` before its `r`; any other letter there is part of a name.
    fn inside_word(&self) -> bool {
        let before = |back: usize| self.at.checked_sub(back).map(|at| self.source[at]);
        match before(1) {
            Some('b' | 'c') => before(2).is_some_and(is_word),
            Some(letter) => is_word(letter),
            None => false,
        }
    }

    fn raw_hashes(&self) -> Option<usize> {
        let hashes = (1..).take_while(|&n| self.peek(n) == Some('#')).count();
        (self.peek(hashes + 1) == Some('"')).then_some(hashes)
    }

    fn line_comment(&mut self) {
        let (line, at) = (self.line, self.at);
        let mut text = String::new();
        while self.peek(0).is_some_and(|letter| letter != '\n') {
            text.extend(self.step(false));
        }
        let text = text.trim_start_matches(['/', '!']).trim().to_owned();
        self.out.comments.push(Piece { line, at, text });
    }

    fn block_comment(&mut self) {
        let (line, at) = (self.line, self.at);
        let (mut text, mut depth) = (String::new(), 0);
        while let Some(letter) = self.peek(0) {
            let pair = (letter, self.peek(1));
            let ends = pair == ('*', Some('/'));
            if ends || pair == ('/', Some('*')) {
                text.extend(self.step(false));
                depth += if ends { -1 } else { 1 };
            }
            text.extend(self.step(false));
            if depth == 0 {
                break;
            }
        }
        let text = text
            .trim_start_matches(['/', '*', '!'])
            .strip_suffix("*/")
            .map_or(String::new(), |text| text.trim().to_owned());
        self.out.comments.push(Piece { line, at, text });
    }

    /// A string with escapes, or a raw one closed by so many hashes.
    fn string(&mut self, hashes: Option<usize>) {
        let (line, at) = (self.line, self.at);
        // The quotes stay in the code: they mark that an argument stands here.
        for _ in 0..hashes.map_or(0, |n| n + 1) {
            self.step(false);
        }
        self.step(true);
        let mut text = String::new();
        while let Some(letter) = self.peek(0) {
            match hashes {
                None if letter == '\\' => {
                    text.extend(self.step(false));
                    text.extend(self.step(false));
                    continue;
                }
                None if letter == '"' => break,
                Some(n) if letter == '"' && (1..=n).all(|k| self.peek(k) == Some('#')) => break,
                _ => text.extend(self.step(false)),
            }
        }
        self.step(true);
        for _ in 0..hashes.unwrap_or(0) {
            self.step(false);
        }
        self.out.strings.push(Piece { line, at, text });
    }

    /// A character literal, or the mark of a lifetime.
    fn quote(&mut self) {
        let escaped = self.peek(1) == Some('\\');
        if !escaped && self.peek(2) != Some('\'') {
            self.step(true);
            return;
        }
        self.step(true);
        while let Some(letter) = self.peek(0) {
            if letter == '\\' {
                self.step(false);
            } else if letter == '\'' {
                break;
            }
            self.step(false);
        }
        self.step(true);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn code(source: &str) -> String {
        RustText::new(source).code.iter().collect()
    }

    fn texts(pieces: &[Piece]) -> Vec<&str> {
        pieces.iter().map(|piece| piece.text.as_str()).collect()
    }

    #[test]
    fn comments_leave_the_code() {
        let text = RustText::new("a // one\n/* two /* three */ */ b /// four\n//! five");
        assert_eq!(
            texts(&text.comments),
            ["one", "two /* three */", "four", "five"]
        );
        assert_eq!(text.comments[2].line, 2);
        let words: Vec<String> = text.words().iter().map(Word::name).collect();
        assert_eq!(words, ["a", "b"]);
    }

    #[test]
    fn strings_are_found_and_blanked() {
        let source = "f(\"x // \\\" y\", r#\"a\"b\"#, b\"c\", br\"d\", '\"', '\\'', 'a);";
        let text = RustText::new(source);
        assert_eq!(
            texts(&text.strings),
            ["x // \\\" y", "a\"b", "c", "d"],
            "{text:?}"
        );
        assert_eq!(text.code.len(), source.chars().count());
        assert!(!code(source).contains("//"));
    }

    #[test]
    fn lines_are_counted_through_literals() {
        let text = RustText::new("\"one\ntwo\"\n// here\nname");
        assert_eq!(text.comments[0].line, 3);
        assert_eq!(text.words()[0].line, 4);
    }

    #[test]
    fn raw_names_and_lifetimes_are_no_strings() {
        let text = RustText::new("fn f<'a>(r#type: &'a str, bar: u8) { bar\"x\" }");
        assert_eq!(texts(&text.strings), ["x"]);
    }
}
