//! What stands in brackets: items, named entries, and keys with values.

use super::node::{Name, Node, Span, Value};
use super::parser::{Parser, Within};
use super::scan::parsed;

impl Parser<'_> {
    pub(super) fn items(&mut self, within: Within) -> Vec<Node> {
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

    pub(super) fn entries(&mut self) -> Vec<(Name, Node)> {
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
    pub(super) fn group(&mut self, word: Option<Name>) -> Value {
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
    pub(super) fn keyed(&mut self, name: Name, entries: &mut Vec<(Name, Node)>) {
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
    pub(super) fn keys_follow(&mut self) -> bool {
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
