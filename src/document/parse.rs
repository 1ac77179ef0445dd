//! The text of a model to its tree; goes on after an error of notation, and reports all.

use super::error::{ErrorList, InputError};
use super::node::{Name, Node, Span, Value};
use super::scan::{Scan, parsed};
use super::source::Source;

/// How deep brackets may be nested.
const DEEPEST: usize = 128;
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
    let mut parser = Parser {
        scan: Scan::new(source),
        open: Vec::new(),
        suspect: None,
    };
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
    let mut parser = Parser {
        scan: Scan::new(&source),
        open: Vec::new(),
        suspect: None,
    };
    parser.value(Within::Items)
}

/// An opening bracket: where it stands, and how far its line is indented.
struct Opened {
    at: usize,
    bracket: char,
    indent: usize,
}

/// What a value belongs to.
#[derive(Clone, Copy, PartialEq)]
enum Within {
    Record,
    Unit,
    Items,
}

struct Parser<'s> {
    scan: Scan<'s>,
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

    fn value(&mut self, within: Within) -> Node {
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

    /// Opens a bracket; not if there are too many.
    fn open(&mut self) -> bool {
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
    fn closes(&mut self) -> bool {
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
    fn comma(&mut self, last: usize) {
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

    fn items(&mut self, within: Within) -> Vec<Node> {
        let mut items = Vec::new();
        let outer = self.scan.key;
        if self.open() {
            while !self.closes() {
                let item = self.value(within);
                self.comma(self.scan.at.max(item.span.end as usize));
                items.push(item);
                self.scan.key = outer;
            }
        }
        items
    }

    fn entries(&mut self) -> Vec<(Name, Node)> {
        let mut entries: Vec<(Name, Node)> = Vec::new();
        let outer = self.scan.key;
        if self.open() {
            while !self.closes() {
                let key = self.value(Within::Items);
                let text = match key.value {
                    Value::Text(text) => text,
                    _ => {
                        let word = &self.scan.text()[key.span.range()];
                        let message = format!("the name `{word}` is not in quotes");
                        let help = format!("\"{word}\": ...");
                        self.scan.error(key.span, message, help);
                        self.scan.text()[key.span.range()].to_owned()
                    }
                };
                let name = Name {
                    text,
                    span: key.span,
                };
                self.keyed(name, &mut entries);
                self.scan.key = outer;
            }
        }
        entries
    }

    /// What stands in round brackets: keys with values, or values alone.
    fn group(&mut self, word: Option<Name>) -> Value {
        if !self.keys_follow() {
            let within = match word {
                Some(_) => Within::Unit,
                None => Within::Items,
            };
            return Value::Group(word, self.items(within));
        }
        let mut entries: Vec<(Name, Node)> = Vec::new();
        let outer = self.scan.key;
        if self.open() {
            while !self.closes() {
                let start = self.scan.at;
                let quoted = self.scan.quoted();
                let text = match &quoted {
                    Some(text) => text.clone(),
                    None => self.scan.word().to_owned(),
                };
                if text.is_empty() {
                    self.scan.take();
                }
                let span = Span::new(start, self.scan.at);
                let text = text.strip_prefix("r#").unwrap_or(&text).to_owned();
                self.scan.space();
                let there = &self.scan.text()[span.range()];
                let colon = self.scan.rest().starts_with([':', '=']);
                if quoted.is_some() && colon {
                    let message = format!("the key `{there}` stands in quotes");
                    let help = format!("{text}: ...");
                    self.scan.error(span, message, help);
                } else if !colon && (quoted.is_some() || !is_key(&text)) {
                    let message = format!("`{there}` stands where a key is expected");
                    let help = "keys and values stand in pairs: key: value".to_owned();
                    self.scan.error(span, message, help);
                    self.comma(span.end as usize);
                    continue;
                }
                self.keyed(Name { text, span }, &mut entries);
                self.scan.key = outer;
            }
        }
        Value::Record(word, entries)
    }

    /// The colon, the value and the comma behind a key; a key that is there already is reported.
    fn keyed(&mut self, name: Name, entries: &mut Vec<(Name, Node)>) {
        self.scan.space();
        let here = self.scan.at;
        if self.scan.peek().is_none() {
            // The bracket is never closed, which is reported.
            return;
        }
        if !self.scan.takes(":") {
            let there = &self.scan.text()[name.span.range()];
            self.scan.takes("=");
            self.scan.space();
            let value = self.scan.rest().lines().next().unwrap_or("");
            let value = value[..value.find([',', ')', '(']).unwrap_or(value.len())].trim_end();
            let value = if value.is_empty() { "..." } else { value };
            let message = format!("a colon is missing after `{there}`");
            let help = format!("{there}: {value}");
            self.scan.error(name.span, message, help);
            if self.scan.at == here && self.scan.rest().starts_with([',', ')', ']', '}']) {
                self.comma(self.scan.at);
                return;
            }
        }
        self.scan.key = Some(name.span);
        let value = self.value(Within::Record);
        self.comma(self.scan.at.max(value.span.end as usize));
        if entries.iter().any(|(other, _)| other.text == name.text) {
            let message = format!("the key `{}` stands there twice", name.text);
            let help = "take one of the two out".to_owned();
            self.scan.error(name.span, message, help);
        } else {
            entries.push((name, value));
        }
    }

    /// Whether a key and its colon, or what was meant as such, stand behind the bracket that opens here.
    fn keys_follow(&mut self) -> bool {
        let (start, lost) = (self.scan.at, self.scan.lost);
        self.scan.lost = true;
        self.scan.take();
        self.scan.space();
        let quoted = self.scan.rest().starts_with('"');
        let word = match quoted {
            true => self.scan.quoted().unwrap_or_default(),
            false => self.scan.word().to_owned(),
        };
        let before = self.scan.at;
        self.scan.space();
        let rest = self.scan.rest();
        let value = |c: char| c == '"' || c == '[' || c.is_ascii_digit();
        let found = rest.starts_with([':', '='])
            || !quoted && is_key(&word) && self.scan.at > before && rest.starts_with(value);
        self.scan.at = start;
        self.scan.lost = lost;
        found && !word.is_empty()
    }
}

fn is_key(word: &str) -> bool {
    word.starts_with(|c: char| c.is_alphabetic() || c == '_') && parsed(word).is_none()
}
