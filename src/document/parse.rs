//! The text of a model to its tree; goes on after an error of notation, and reports all.

use super::error::{ErrorList, InputError};
use super::node::{Name, Node, Span, Value};
use super::parser::{Parser, Within};
use super::scan::Scan;
use super::source::Source;

/// How a model file begins and ends.
const FORM: &str = "begin the file with `(`, end it with `)`, and write lines such as `title: \"Tonight\",` between";

/// What was made of a text.
#[derive(Debug)]
pub struct Parsed {
    /// The tree.
    pub root: Node,
    /// What is wrong with its notation, in the order of the text.
    pub errors: ErrorList,
    /// The byte from which on the tree cannot be trusted, since brackets do not pair up.
    pub trusted: u32,
}

/// Reads a text as a tree.
pub fn parse(source: &Source) -> Parsed {
    let mut parser = Parser::new(source);
    let root = parser.document();
    let trusted = parser.scan.trusted;
    parser.scan.report_foreign();
    let mut errors = parser.scan.errors;
    errors.sort();
    Parsed {
        root,
        errors,
        trusted,
    }
}

/// Reads a text that holds one value of any kind, as a writer wrote it.
pub(super) fn parse_value(text: &str) -> Node {
    let source = Source::new("", text);
    Parser::new(&source).value(Within::Items)
}

impl Parser<'_> {
    fn document(&mut self) -> Node {
        self.scan.space();
        while self.scan.takes("#!") {
            let rest = self.scan.rest();
            self.scan.at += rest.find(']').map_or(rest.len(), |end| end + 1);
            self.scan.space();
        }
        let (start, rest) = (self.scan.at, self.scan.rest());
        let broken = Node::free(Value::Broken);
        if rest.is_empty() {
            if !self.scan.lost {
                let help = "print one of the same kind with `coldsoak catalogue` and change it; a night begins with `(` and ends with `)`";
                let error = InputError::of(&self.scan.source.file, "the file is empty");
                self.scan.errors.add(error.suggest(help));
            }
            return broken;
        }
        let word = rest.trim_start_matches(|c: char| c.is_alphanumeric() || c == '_');
        if !word.trim_start().starts_with('(') && !rest.starts_with(')') {
            let line = rest.lines().next().unwrap_or("").trim_end().len();
            let message = match rest.starts_with('{') {
                true => {
                    "the file begins with `{`, and its names are perhaps in quotes: that is JSON"
                }
                false => "the file does not begin with a round bracket",
            };
            let span = Span::new(start, start + line);
            self.scan.error(span, message.to_owned(), FORM.to_owned());
            return broken;
        }
        let root = self.value(Within::Items);
        self.scan.space();
        if let Some(c) = self.scan.peek() {
            let at = self.scan.at;
            let line = self.scan.rest().lines().next().unwrap_or("");
            let (end, message) = match c {
                ')' | ']' | '}' => (
                    1,
                    format!("this `{c}` closes nothing: no bracket is open here"),
                ),
                _ => (
                    line.trim_end().len().max(c.len_utf8()),
                    "more text follows after the last bracket is closed".to_owned(),
                ),
            };
            let help = "take it out, or look for a bracket that closes too early above";
            self.scan
                .error(Span::new(at, at + end), message, help.to_owned());
        }
        root
    }

    pub(super) fn value(&mut self, within: Within) -> Node {
        self.scan.space();
        let start = self.scan.at;
        let node = |scan: &Scan, value| Node {
            span: Span::new(start, scan.at),
            value,
        };
        if let Some(text) = self.scan.quoted() {
            return node(&self.scan, Value::Text(text));
        }
        match self.scan.peek() {
            Some('(') => {
                let value = self.group(None);
                return node(&self.scan, value);
            }
            Some('[') => {
                let value = Value::List(self.items(Within::Items));
                return node(&self.scan, value);
            }
            Some('{') => {
                let value = Value::Map(self.entries());
                return node(&self.scan, value);
            }
            _ => {}
        }
        let word = self.scan.word();
        let end = self.scan.at;
        if word.is_empty() {
            // No value: a bracket, a comma, or a letter that begins none.
            if !matches!(self.scan.peek(), None | Some(',' | ')' | ']' | '}')) {
                self.scan.take();
                let text = self.scan.text()[start..self.scan.at].to_owned();
                return node(&self.scan, Value::Word(text));
            }
            return Node {
                span: Span::new(start, start),
                value: Value::Word(String::new()),
            };
        }
        let span = Span::new(start, end);
        if within != Within::Items
            && let Some(number) = self.scan.decimal_comma(word, start)
        {
            return node(&self.scan, Value::Number(number));
        }
        if let Some(number) = self.scan.number(word, span) {
            return node(&self.scan, Value::Number(number));
        }
        self.scan.space();
        if self.scan.peek() == Some('(') {
            let text = word.strip_prefix("r#").unwrap_or(word).to_owned();
            let value = self.group(Some(Name { text, span }));
            return node(&self.scan, value);
        }
        self.scan.at = end;
        if within == Within::Record {
            self.unquoted();
        }
        let text = &self.scan.text()[start..self.scan.at];
        node(&self.scan, Value::Word(text.to_owned()))
    }

    /// Takes the other words of a text without quotes along, such as those of `own night`.
    fn unquoted(&mut self) {
        loop {
            let end = self.scan.at;
            let rest = self.scan.rest();
            let blank = rest.len() - rest.trim_start_matches([' ', '\t']).len();
            self.scan.at += blank;
            let more = blank > 0 && !self.scan.word().is_empty();
            if !more || self.scan.rest().trim_start().starts_with([':', '=', '(']) {
                self.scan.at = end;
                return;
            }
        }
    }
}
