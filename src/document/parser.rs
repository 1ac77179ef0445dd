//! The state of the parsing of a text, and the pairing of its brackets.

use super::node::Span;
use super::scan::Scan;
use super::source::Source;

/// How deep brackets may be nested.
const DEEPEST: usize = 128;

/// An opening bracket: where it stands, and how far its line is indented.
struct Opened {
    at: usize,
    bracket: char,
    indent: usize,
}

/// What a value belongs to.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum Within {
    Record,
    Unit,
    Items,
}

/// A text on its way to a tree.
pub(super) struct Parser<'s> {
    pub scan: Scan<'s>,
    open: Vec<Opened>,
    /// An opening bracket whose partner seems to have closed something inside it, by the indentation.
    suspect: Option<usize>,
}

fn partner(bracket: char) -> char {
    match bracket {
        '(' => ')',
        '[' => ']',
        _ => '}',
    }
}

impl<'s> Parser<'s> {
    /// A parser at the beginning of a text.
    pub fn new(source: &'s Source) -> Self {
        Self {
            scan: Scan::new(source),
            open: Vec::new(),
            suspect: None,
        }
    }

    /// Opens a bracket; not if there are too many.
    pub fn open(&mut self) -> bool {
        let at = self.scan.at;
        if self.open.len() == DEEPEST {
            let message = format!("brackets are nested more than {DEEPEST} deep");
            let help = "a model file needs ten at most".to_owned();
            self.scan.error(Span::new(at, at + 1), message, help);
            self.scan.lose(0);
            self.scan.at = self.scan.text().len();
            return false;
        }
        let indent = self.scan.indent().0;
        let bracket = self.scan.peek().unwrap_or('(');
        self.scan.take();
        self.open.push(Opened {
            at,
            bracket,
            indent,
        });
        true
    }

    /// Whether the innermost bracket is closed here; one of another kind closes it as well, and so does the end.
    pub fn closes(&mut self) -> bool {
        self.scan.space();
        let at = self.scan.at;
        let Some(Opened {
            at: opened,
            bracket,
            indent,
        }) = self.open.last()
        else {
            return true;
        };
        let (opened, bracket, opened_indent) = (*opened, *bracket, *indent);
        let wanted = partner(bracket);
        match self.scan.peek() {
            None => {
                let culprit = self.suspect.unwrap_or(opened);
                let line = self.scan.line_of(culprit);
                let wanted = self.scan.text()[culprit..].chars().next().map(partner);
                let message = format!("the bracket opened in line {line} is never closed");
                let help = format!(
                    "write the missing `{}` where what it holds ends",
                    wanted.unwrap_or(')')
                );
                self.scan
                    .error(Span::new(culprit, culprit + 1), message, help);
                self.scan.lose(culprit);
            }
            Some(c) if c == wanted => {
                let (indent, first) = self.scan.indent();
                if first && indent < opened_indent && self.suspect.is_none() {
                    self.suspect = Some(opened);
                }
                self.scan.take();
            }
            Some(c @ (')' | ']' | '}')) => {
                let line = self.scan.line_of(opened);
                let message = format!(
                    "`{c}` stands where the `{bracket}` opened in line {line} should be closed"
                );
                let help = format!("write `{wanted}` before it, or in its place");
                self.scan.error(Span::new(at, at + 1), message, help);
                self.scan.lose(opened);
                let outer = self.open.iter().rev().skip(1);
                if !outer.into_iter().any(|o| partner(o.bracket) == c) {
                    self.scan.take();
                }
            }
            Some(_) => return false,
        }
        self.open.pop();
        true
    }

    /// The comma after a value, or the word that it is missing.
    pub fn comma(&mut self, last: usize) {
        self.scan.space();
        if self.scan.takes(",") || matches!(self.scan.peek(), None | Some(')' | ']' | '}')) {
            return;
        }
        // A quote that only ends a text.
        let rest = self.scan.rest();
        let line = rest.lines().next().unwrap_or("");
        if rest.starts_with('"') && line[1..].trim_matches([' ', ',', ')']).is_empty() {
            self.scan.quoted();
            return self.comma(self.scan.at);
        }
        let letter = self.scan.text()[..last].chars().next_back();
        let start = last - letter.map_or(0, char::len_utf8);
        self.scan.error(
            Span::new(start, last),
            "a comma is missing after this".to_owned(),
            "write `,` here".to_owned(),
        );
    }
}
