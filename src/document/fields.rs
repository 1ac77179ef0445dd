//! How the keys of a group are read: each once, those that are not known or missing reported.

use super::limits::Key;
use super::names::{nearest, renamed};
use super::node::{Name, Node, Span, Value};
use super::path::under;
use super::read::Read;
use super::reader::Reader;
use super::suggest::on_one_line;

/// The keys and values of a group in round brackets.
pub struct Fields<'n> {
    entries: &'n [(Name, Node)],
    /// Keys that were misspelt, and are not missing as well.
    meant: Vec<&'static str>,
    place: Span,
}

impl Reader<'_> {
    /// The keys and values of a group; reports keys that are not known.
    pub fn fields<'n>(
        &mut self,
        node: &'n Node,
        name: &str,
        keys: &'static [Key],
    ) -> Option<Fields<'n>> {
        let entries: &[(Name, Node)] = match &node.value {
            Value::Record(word, entries)
                if word.as_ref().is_none_or(|word| word.text == name) || self.path.is_empty() =>
            {
                entries
            }
            Value::Group(None, items) if items.is_empty() => &[],
            Value::Map(entries) if node.span.is_empty() => entries,
            // Brackets in brackets.
            Value::Group(word, items)
                if items.len() == 1
                    && word.as_ref().is_none_or(|word| word.text == name)
                    && matches!(items[0].value, Value::Record(None, _)) =>
            {
                items[0].entries()
            }
            _ => {
                let wanted = "a group of keys in round brackets";
                let examples = keys.iter().filter(|key| key.default.is_none()).take(3);
                let example: Vec<String> = examples
                    .map(|key| format!("{}: {}", key.name, key.example))
                    .collect();
                let example = match example.is_empty() {
                    true => "(key: value, other_key: value)".to_owned(),
                    false => format!("({})", example.join(", ")),
                };
                return self.wanted(node, wanted, Some(example));
            }
        };
        let place = match self.field {
            Some((key, value)) if key.start <= node.span.start && node.span.end <= value.end => key,
            _ => Span {
                start: node.span.start,
                end: (node.span.start + 1).min(node.span.end),
            },
        };
        let mut fields = Fields {
            entries,
            meant: Vec::new(),
            place,
        };
        let names = || keys.iter().map(|key| key.name);
        for (name, value) in entries {
            let known = keys.iter().any(|key| key.name == name.text);
            if !known {
                let new = renamed(&name.text).filter(|new| names().any(|name| name == *new));
                let near = new.or_else(|| nearest(&name.text, names()));
                fields
                    .meant
                    .extend(keys.iter().map(|key| key.name).find(|n| Some(*n) == near));
                self.unknown_key(name, value, near, names().collect());
            }
        }
        Some(fields)
    }

    fn unknown_key(&mut self, name: &Name, value: &Node, near: Option<&str>, names: Vec<&str>) {
        let there = &name.text;
        let holder = match self.path.is_empty() {
            true => String::new(),
            false => format!(" under `{}`", self.path),
        };
        let suggestion = match near {
            Some(near) => {
                let line = on_one_line(format!("{near}: {}", self.text(value)));
                line.unwrap_or_else(|| format!("{near}: ..."))
            }
            None if names.is_empty() => "take it out: nothing may stand here".to_owned(),
            None => format!("one of the keys that may stand here: {}", names.join(", ")),
        };
        self.report(
            name.span,
            format!("there is no key `{there}`{holder}"),
            Some(suggestion),
        );
        if name.span.start < self.trusted {
            self.ignored.push(under(&self.path, Some(there)));
        }
    }
}

impl<'n> Fields<'n> {
    fn find(&self, key: &Key) -> Option<&'n (Name, Node)> {
        self.entries.iter().find(|(name, _)| name.text == key.name)
    }
    /// The value of a key that must be there.
    pub fn need<T: Read>(&self, key: &'static Key, reader: &mut Reader) -> Option<T> {
        match self.find(key) {
            Some((name, node)) => reader.entry(name, node, &key.rule),
            None => {
                self.missing(key, reader);
                None
            }
        }
    }
    /// The value of a key, or its default.
    pub fn or<T: Read>(
        &self,
        key: &'static Key,
        reader: &mut Reader,
        default: impl FnOnce() -> T,
    ) -> Option<T> {
        match self.find(key) {
            Some((name, node)) => reader.entry(name, node, &key.rule),
            None => Some(default()),
        }
    }
    fn missing(&self, key: &Key, reader: &mut Reader) {
        if self.meant.contains(&key.name) || reader.trusted != u32::MAX {
            return;
        }
        let holder = match reader.path.is_empty() {
            true => String::new(),
            false => format!(" under `{}`", reader.path),
        };
        let message = format!("the key `{}` is missing{holder}", key.name);
        let suggestion = format!("{}: {}", key.name, key.example);
        reader.report(self.place, message, Some(suggestion));
    }
}
