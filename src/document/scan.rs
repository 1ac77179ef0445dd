//! Letters to white space, texts in quotes, and words, with every error of their notation.

use super::error::{ErrorList, InputError};
use super::node::Span;
use super::source::Source;

/// Quotes that are none here.
const FOREIGN: [char; 12] = ['\'', '“', '”', '„', '‟', '‘', '’', '‚', '«', '»', '‹', '›'];
/// What a word processor writes for a minus.
const DASHES: [char; 3] = ['−', '–', '—'];

/// A place in a text, moving forward.
pub(super) struct Scan<'s> {
    pub source: &'s Source,
    pub at: usize,
    pub errors: ErrorList,
    /// Whether brackets do not pair up: what follows is not looked at.
    pub lost: bool,
    /// The byte from which on nothing can be trusted, since brackets or comments do not pair up.
    pub trusted: u32,
    /// The key whose value is being read.
    pub key: Option<Span>,
    line_start: usize,
    foreign: Option<(Span, usize)>,
}

pub(super) fn is_word(c: char) -> bool {
    c.is_alphanumeric() || matches!(c, '_' | '.' | '-' | '+' | '#' | '%' | '/' | '°')
}

impl<'s> Scan<'s> {
    pub fn new(source: &'s Source) -> Self {
        Self {
            source,
            at: 0,
            errors: ErrorList::default(),
            lost: false,
            trusted: u32::MAX,
            key: None,
            line_start: 0,
            foreign: None,
        }
    }
    pub fn text(&self) -> &'s str {
        &self.source.text
    }
    pub fn rest(&self) -> &'s str {
        &self.text()[self.at..]
    }
    pub fn peek(&self) -> Option<char> {
        self.rest().chars().next()
    }
    pub fn take(&mut self) {
        self.at += self.peek().map_or(0, char::len_utf8);
    }
    pub fn takes(&mut self, wanted: &str) -> bool {
        let there = self.rest().starts_with(wanted);
        if there {
            self.at += wanted.len();
        }
        there
    }

    /// Reports an error, unless all that follows is lost.
    pub fn error(&mut self, span: Span, message: String, suggestion: String) {
        if !self.lost {
            let error = InputError::of(&self.source.file, message);
            self.errors.add(
                error
                    .at(self.source.text.clone(), span.range())
                    .suggest(suggestion),
            );
        }
    }
    /// Gives up what follows, and what stands behind a byte.
    pub fn lose(&mut self, from: usize) {
        if !self.lost {
            self.trusted = Span::new(from, from).start;
        }
        self.lost = true;
    }
    /// A suggestion with the key it belongs to: `humidity: 0.8`.
    pub fn keyed(&self, value: &str) -> String {
        match self.key {
            Some(key) => format!("{}: {value}", &self.text()[key.range()]),
            None => value.to_owned(),
        }
    }
    /// The number of the line a byte stands in.
    pub fn line_of(&self, at: usize) -> usize {
        let place = InputError::of("", "").at(self.source.text.clone(), at..at);
        place.line_and_column().map_or(1, |(line, _)| line)
    }
    /// How far the line of this place is indented, and whether the place is the first thing on it.
    pub fn indent(&mut self) -> (usize, bool) {
        if let Some(last) = self.text()[self.line_start..self.at].rfind('\n') {
            self.line_start += last + 1;
        }
        let line = &self.text()[self.line_start..self.at];
        let blank = line.len() - line.trim_start_matches([' ', '\t']).len();
        (blank, blank == line.len())
    }

    /// Past white space and comments.
    pub fn space(&mut self) {
        loop {
            let start = self.at;
            if self.takes("//") {
                let line = self.rest().find(['\n', '\r']);
                self.at += line.unwrap_or(self.rest().len());
            } else if self.takes("/*") {
                let mut open = 1;
                while open > 0 && self.at < self.text().len() {
                    if self.takes("/*") {
                        open += 1;
                    } else if self.takes("*/") {
                        open -= 1;
                    } else {
                        self.take();
                    }
                }
                if open > 0 {
                    let line = self.line_of(start);
                    let message = format!("the comment opened in line {line} is never closed");
                    self.error(
                        Span::new(start, start + 2),
                        message,
                        "write the missing `*/` where the comment ends".to_owned(),
                    );
                    self.lose(start);
                }
            } else if self.peek().is_some_and(|c| {
                c.is_whitespace() || matches!(c, '\u{feff}' | '\u{200b}'..='\u{200f}')
            }) {
                self.take();
            } else {
                return;
            }
        }
    }

    /// A word or a number: all that is written together.
    pub fn word(&mut self) -> &'s str {
        let rest = self.rest();
        let mut end = 0;
        for (i, c) in rest.char_indices() {
            // The colon of an unquoted time.
            let clock = c == ':'
                && rest[..i].ends_with(|c: char| c.is_ascii_digit())
                && rest[..i].starts_with(|c: char| c.is_ascii_digit())
                && rest[i + 1..].starts_with(|c: char| c.is_ascii_digit());
            let comment = c == '/' && rest[i + 1..].starts_with(['/', '*']);
            if !(is_word(c) || clock || DASHES.contains(&c)) || comment {
                break;
            }
            end = i + c.len_utf8();
        }
        self.at += end;
        &rest[..end]
    }

    /// The number a word stands for, if it stands for one; a typographic minus is reported.
    pub fn number(&mut self, word: &str, span: Span) -> Option<f64> {
        if let Some(digits) = word.strip_prefix(DASHES) {
            let number = parsed(digits)?;
            let message = format!("`{word}` begins with a dash, not with a minus sign");
            let suggestion = self.keyed(&format!("-{digits}"));
            self.error(span, message, suggestion);
            return Some(-number);
        }
        parsed(word)
    }

    /// The rest of a number that is written with a decimal comma, if it is: `,5` of `1,5`.
    pub fn decimal_comma(&mut self, word: &str, start: usize) -> Option<f64> {
        let whole = word.trim_start_matches(['-', '+']);
        let digits = self.rest().strip_prefix(',')?;
        let end = digits
            .find(|c: char| !c.is_ascii_digit())
            .unwrap_or(digits.len());
        let plain = !whole.is_empty() && whole.bytes().all(|b| b.is_ascii_digit());
        if !plain || end == 0 {
            return None;
        }
        self.at += 1 + end;
        let written = format!("{word}.{}", &digits[..end]);
        let span = Span::new(start, self.at);
        let message = format!("the number `{}` has a comma", &self.text()[span.range()]);
        let suggestion = match self.text()[..start].ends_with('(') {
            true => written.clone(),
            false => self.keyed(&written),
        };
        self.error(span, message, format!("{suggestion} (a decimal point)"));
        written.parse().ok()
    }

    /// A text in quotes of any kind, if one begins here.
    pub fn quoted(&mut self) -> Option<String> {
        let start = self.at;
        let c = self.peek()?;
        if FOREIGN.contains(&c) {
            return Some(self.foreign(c));
        }
        if c == 'r' {
            let raw = &self.rest()[1..];
            let hashes = raw.len() - raw.trim_start_matches('#').len();
            if !raw[hashes..].starts_with('"') {
                return None;
            }
            self.at += 1 + hashes + 1;
            let end = format!("\"{}", "#".repeat(hashes));
            return Some(match self.rest().find(&end) {
                Some(length) => {
                    let text = self.rest()[..length].to_owned();
                    self.at += length + end.len();
                    text
                }
                None => self.never_closed(start),
            });
        }
        if !self.takes("\"") {
            return None;
        }
        let mut text = String::new();
        loop {
            let escape = self.at;
            match self.peek() {
                None | Some('\n' | '\r') => {
                    self.at = start + 1;
                    return Some(self.never_closed(start));
                }
                Some('"') => {
                    self.take();
                    return Some(text);
                }
                Some('\\') => {
                    self.take();
                    match self.escaped() {
                        Some(c) => text.extend(c),
                        None => {
                            let end = self.at.min(self.text().len());
                            let span = Span::new(escape, end);
                            let message = format!(
                                "`{}` is no character that can be written so",
                                &self.text()[span.range()]
                            );
                            let help = "write \\\\ for a backslash, or / in the name of a file";
                            self.error(span, message, help.to_owned());
                        }
                    }
                }
                Some(c) => {
                    text.push(c);
                    self.take();
                }
            }
        }
    }

    /// The character behind a backslash: one, or none at the end of a line; nothing if it is no such.
    fn escaped(&mut self) -> Option<Option<char>> {
        let c = self.peek()?;
        self.take();
        let hex = |digits: &str| {
            u32::from_str_radix(digits, 16)
                .ok()
                .and_then(char::from_u32)
        };
        Some(Some(match c {
            'n' => '\n',
            't' => '\t',
            'r' => '\r',
            '0' => '\0',
            '"' | '\'' | '\\' => c,
            'x' => {
                let c = hex(self.rest().get(..2)?)?;
                self.at += 2;
                c
            }
            'u' => {
                let inner = self.rest().strip_prefix('{')?;
                let (digits, _) = inner.split_once('}').filter(|(d, _)| d.len() <= 6)?;
                let c = hex(digits)?;
                self.at += digits.len() + 2;
                c
            }
            '\n' => {
                let rest = self.rest();
                self.at += rest.len() - rest.trim_start().len();
                return Some(None);
            }
            _ => return None,
        }))
    }

    /// Reports a quote that is not closed on its line; the text is what the line holds.
    fn never_closed(&mut self, start: usize) -> String {
        let line = self.rest().lines().next().unwrap_or("").len();
        let text = self.rest()[..line].trim_end_matches([' ', '\t', ',', ')', ']', '}', '\r']);
        self.at += text.len();
        let number = self.line_of(start);
        let message = format!("the quote opened in line {number} is never closed");
        let suggestion = match text {
            "" => "write a quote before the text as well, or take this one out".to_owned(),
            _ => self.keyed(&format!("\"{text}\"")),
        };
        self.error(Span::new(start, self.at), message, suggestion);
        text.to_owned()
    }

    /// A text in quotes that are none here, to its end or that of its line. Only the first is reported, with the number
    /// of the others.
    fn foreign(&mut self, opened: char) -> String {
        let line = self.rest().lines().next().unwrap_or("");
        let mut within = line.char_indices().skip(1);
        let length = match within.find(|(_, c)| FOREIGN.contains(c) || *c == '"') {
            Some((i, c)) => i + c.len_utf8(),
            None => line
                .trim_end_matches([' ', ',', ')', ']', '}', '\t', '\r'])
                .len()
                .max(opened.len_utf8()),
        };
        let span = Span::new(self.at, self.at + length);
        self.at += length;
        match &mut self.foreign {
            Some((_, more)) => *more += 1,
            None => self.foreign = Some((span, 0)),
        }
        let text = &self.text()[span.range()];
        text.trim_matches(|c| FOREIGN.contains(&c) || c == '"')
            .to_owned()
    }

    /// Reports the quotes that are none here.
    pub fn report_foreign(&mut self) {
        let Some((span, more)) = self.foreign else {
            return;
        };
        let there = &self.text()[span.range()];
        let inner = there.trim_matches(|c| FOREIGN.contains(&c) || c == '"');
        let kind = match there.starts_with('\'') {
            true => "single quotes",
            false => "curly quotes",
        };
        let more = match more {
            0 => String::new(),
            1 => "; one more stands below".to_owned(),
            n => format!("; {n} more stand below"),
        };
        let message = format!("`{there}` is in {kind}; write straight double quotes");
        let help =
            format!("\"{inner}\"{more} (a plain text editor leaves quotes as they are typed)");
        self.lost = false;
        self.error(span, message, help);
    }
}

/// The number of a word, if it is one.
pub(super) fn parsed(word: &str) -> Option<f64> {
    let digits = word.trim_start_matches(['-', '+']);
    let whole = |digits: &str, radix| u64::from_str_radix(digits, radix).ok();
    let other = match digits.get(..2) {
        Some("0x") => whole(&digits[2..].replace('_', ""), 16),
        Some("0b") => whole(&digits[2..].replace('_', ""), 2),
        Some("0o") => whole(&digits[2..].replace('_', ""), 8),
        _ => None,
    };
    if let Some(whole) = other {
        let number = whole as f64;
        return Some(if word.starts_with('-') {
            -number
        } else {
            number
        });
    }
    match digits.contains('_') && digits.starts_with(|c: char| c.is_ascii_digit()) {
        true => word.replace('_', "").parse().ok(),
        false => word.parse().ok(),
    }
}
