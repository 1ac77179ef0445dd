//! The typed reading of a tree: a reader that reports everything with its place, and goes on.

use super::error::{ErrorList, InputError};
use super::limits::{Key, Rule, Walk};
use super::names::{nearest, renamed};
use super::node::{Name, Node, Span, Value};
use super::parse::parse;
use super::path::under;
use super::reference::Types;
use super::source::Source;
use super::suggest::on_one_line;
use std::borrow::Cow;

/// The most letters of a value that are repeated in a message.
const MOST_SHOWN: usize = 48;
/// The most words that are listed in a message.
const MOST_LISTED: usize = 6;

/// A type that can be read from a tree.
pub trait Read: Sized {
    /// What is expected where it is read, such as `a number`.
    const WANTED: &'static str;
    /// How it is written.
    const EXAMPLE: &'static str;
    /// Reads it; none if it cannot be read, which is then reported.
    fn read(node: &Node, reader: &mut Reader) -> Option<Self>;
    /// Shows its numbers, each to be held to the rule of its key.
    fn walk(&self, _walk: &mut Walk) {}
    /// Adds the definitions it is made of.
    fn types(_types: &mut Types) {}
}

/// What was made of a text.
#[derive(Debug)]
pub struct Reading<T> {
    /// The value; none if any of it could not be read.
    pub value: Option<T>,
    /// The tree.
    pub root: Node,
    /// What is wrong, in the order of the text.
    pub errors: ErrorList,
    /// Paths of keys that nothing was made of.
    pub ignored: Vec<String>,
    /// Whether unknown keys are all that is wrong.
    pub only_ignored: bool,
}

/// Reads a text. There may be a value although there are errors: keys that are not known, numbers out of their limits.
pub fn read<T: Read>(source: &Source) -> Reading<T> {
    let parsed = parse(source);
    let count = parsed.errors.count();
    let mut reader = Reader {
        source: Some(source),
        errors: parsed.errors,
        trusted: parsed.trusted,
        ..Reader::free()
    };
    let value = T::read(&parsed.root, &mut reader);
    reader.errors.sort();
    Reading {
        value,
        root: parsed.root,
        only_ignored: count == 0 && reader.errors.count() == reader.ignored.len(),
        errors: reader.errors,
        ignored: reader.ignored,
    }
}

/// Reads a tree that stands in no text.
///
/// *Errors*: everything that is wrong, by path.
pub fn from_node<T: Read>(node: &Node) -> Result<T, ErrorList> {
    match read_node(node) {
        (Some(value), errors) if errors.count() == 0 => Ok(value),
        (_, errors) => Err(errors),
    }
}

/// Reads a tree that stands in no text; there may be a value although there are errors, as with [`read`].
pub fn read_node<T: Read>(node: &Node) -> (Option<T>, ErrorList) {
    let mut reader = Reader::free();
    let value = T::read(node, &mut reader);
    (value, reader.errors)
}

/// What a reading has found so far, and where it is.
pub struct Reader<'s> {
    source: Option<&'s Source>,
    path: String,
    /// The key whose value is read, and the value.
    field: Option<(Span, Span)>,
    trusted: u32,
    errors: ErrorList,
    ignored: Vec<String>,
}

/// The keys and values of a group in round brackets.
pub struct Fields<'n> {
    entries: &'n [(Name, Node)],
    /// Keys that were misspelt, and are not missing as well.
    meant: Vec<&'static str>,
    place: Span,
}

impl<'s> Reader<'s> {
    fn free() -> Self {
        Self {
            source: None,
            path: String::new(),
            field: None,
            trusted: u32::MAX,
            errors: ErrorList::default(),
            ignored: Vec::new(),
        }
    }
    /// Whether what is read stands in no text.
    pub fn is_free(&self) -> bool {
        self.source.is_none()
    }
    /// The path of what is read.
    pub fn path(&self) -> &str {
        &self.path
    }
    /// The text of a node as the user wrote it; as it would be written, if it stands in no text.
    pub fn text<'n>(&self, node: &'n Node) -> Cow<'n, str>
    where
        's: 'n,
    {
        if let Some(source) = self.source
            && let Some(text) = source.text.get(node.span.range())
            && !text.is_empty()
        {
            return Cow::Borrowed(text);
        }
        match &node.value {
            Value::Text(text) => format!("\"{text}\"").into(),
            Value::Word(word) => word.as_str().into(),
            Value::Number(number) => number.to_string().into(),
            Value::List(_) => "[".into(),
            Value::Map(_) => "{".into(),
            Value::Group(Some(word), _) | Value::Record(Some(word), _) => word.text.as_str().into(),
            _ => "(".into(),
        }
    }

    /// Reports an error at a place; a suggestion replaces what stands there.
    pub fn report(&mut self, span: Span, message: String, suggestion: Option<String>) {
        if span.start >= self.trusted {
            return;
        }
        let file = self.source.map_or("", |source| &source.file);
        let mut error = InputError::of(file, message).path(self.path.clone());
        error.suggestion = suggestion;
        if let Some(source) = self.source {
            let line = source.text[span.range()].lines().next().unwrap_or("");
            let start = span.start as usize;
            error = error.at(source.text.clone(), start..start + line.trim_end().len());
        }
        self.errors.add(error);
    }

    /// What is to be written in place of a value, with its key and what else stands in its brackets.
    pub fn instead(&self, of: Span, write: &str) -> String {
        let key = self.path.rsplit('.').next().unwrap_or("");
        let short = match key.contains('[') || key.is_empty() {
            true => write.to_owned(),
            false => format!("{key}: {write}"),
        };
        let (Some(source), Some((key, value))) = (self.source, self.field) else {
            return short;
        };
        let inside = key.start <= of.start && of.end <= value.end;
        let before = source.text.get(key.start as usize..of.start as usize);
        let behind = source.text.get(of.end as usize..value.end as usize);
        match (before, behind) {
            (Some(before), Some(behind)) if inside => {
                on_one_line(format!("{before}{write}{behind}")).unwrap_or_else(|| write.to_owned())
            }
            _ => short,
        }
    }

    /// Reports that something else is expected than what stands there.
    pub fn wanted<T>(&mut self, node: &Node, wanted: &str, write: Option<String>) -> Option<T> {
        if matches!(node.value, Value::Broken) {
            return None;
        }
        let there = self.text(node).into_owned();
        let there = there.lines().next().unwrap_or("").trim_end();
        let message = match there.char_indices().nth(MOST_SHOWN) {
            _ if there.is_empty() => format!("{wanted} is missing"),
            Some((cut, _)) => format!("{wanted} is needed here; found `{}...`", &there[..cut]),
            None => format!("{wanted} is needed here; found `{there}`"),
        };
        let write = write.map(|write| self.instead(node.span, &write));
        self.report(node.span, message, write);
        None
    }

    /// Reads what stands at a key or in a list, with one more step of the path.
    fn below<T>(&mut self, step: &str, read: impl FnOnce(&mut Self) -> T) -> T {
        let length = self.path.len();
        self.path = match step.starts_with('[') {
            true => format!("{}{step}", self.path),
            false => under(&self.path, Some(step)),
        };
        let read = read(self);
        self.path.truncate(length);
        read
    }
    /// Reads an item of a list.
    pub fn item<T: Read>(&mut self, i: usize, node: &Node) -> Option<T> {
        self.below(&format!("[{i}]"), |reader| T::read(node, reader))
    }
    /// Reads the value of a key, whose numbers are to keep a rule.
    pub fn entry<T: Read>(&mut self, name: &Name, node: &Node, rule: &'static Rule) -> Option<T> {
        let outer = self.field.replace((name.span, node.span));
        let read = self.below(&name.text, |reader| reader.held(node, rule));
        self.field = outer;
        read
    }
    /// A value held to a rule; it is returned although it breaks it.
    fn held<T: Read>(&mut self, node: &Node, rule: &'static Rule) -> Option<T> {
        let value = T::read(node, self)?;
        if rule.holds_something() {
            let mut walk = Walk::at(&self.path, rule);
            value.walk(&mut walk);
            for found in walk.into_found().into_iter().filter(|f| !f.warning) {
                let below = &found.path[self.path.len()..];
                let span = node.at(below).unwrap_or(node).span;
                let outer = std::mem::replace(&mut self.path, found.path);
                let suggestion = found.instead.map(|write| self.instead(span, &write));
                self.report(span, found.message, suggestion);
                self.path = outer;
            }
        }
        Some(value)
    }
    /// Reads the one value in the brackets of a word.
    pub fn inner<T: Read>(
        &mut self,
        key: &'static Key,
        node: &Node,
        inner: Option<&Node>,
    ) -> Option<T> {
        match inner {
            Some(inner) => self.held(inner, &key.rule),
            None => {
                let wanted = format!("`{}` with a value in brackets", key.name);
                let write = format!("{}({})", key.name, key.example);
                self.wanted(node, &wanted, Some(write))
            }
        }
    }

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

    /// Which of a few words stands here, and what stands in its brackets.
    pub fn word<'n>(
        &mut self,
        node: &'n Node,
        words: &'static [&'static str],
        holders: &[(&str, &str)],
    ) -> Option<(usize, Option<Cow<'n, Node>>)> {
        let (word, span, payload) = match &node.value {
            Value::Word(word) => (word, node.span, None),
            Value::Text(word) if node.span.is_empty() => (word, node.span, None),
            Value::Map(entries) if node.span.is_empty() && entries.len() == 1 => {
                let (name, inner) = &entries[0];
                (&name.text, name.span, Some(Cow::Borrowed(inner)))
            }
            Value::Group(Some(name), items) => {
                let payload = match items.as_slice() {
                    [one] => Cow::Borrowed(one),
                    several => Cow::Owned(Node {
                        span: match (several.first(), several.last()) {
                            (Some(first), Some(last)) => first.span.to(last.span),
                            _ => node.span,
                        },
                        value: Value::Group(None, several.to_vec()),
                    }),
                };
                (&name.text, name.span, Some(payload))
            }
            Value::Record(Some(name), entries) => {
                let payload = Node {
                    span: node.span,
                    value: Value::Record(None, entries.clone()),
                };
                (&name.text, name.span, Some(Cow::Owned(payload)))
            }
            Value::Text(word) => {
                let holder = holders.iter().find(|(_, held)| held.ends_with("in quotes"));
                let write = match holder.filter(|_| !words.contains(&word.as_str())) {
                    Some((holder, _)) => Some(format!("{holder}(\"{word}\")")),
                    None => near_word(word, words),
                };
                return self.wanted(node, &one_of(words), write);
            }
            _ => return self.wanted(node, &one_of(words), near_word("", words)),
        };
        if let Some(i) = words.iter().position(|known| known == word) {
            return Some((i, payload));
        }
        let there = Node {
            span,
            value: Value::Word(word.clone()),
        };
        self.wanted(&there, &one_of(words), near_word(word, words))
    }

    /// A number in one of these units, as the number of the unit and the number. `called` is the quantity.
    pub fn measured(
        &mut self,
        node: &Node,
        units: &[&str],
        called: &str,
        example: &str,
    ) -> Option<(usize, f64)> {
        let found = node.measured();
        let written = match &node.value {
            Value::Group(Some(_), items) if items.len() == 1 => self.text(&items[0]),
            _ => self.text(node),
        };
        let number = leading_number(written.trim_matches('"').trim());
        let shown = if number.is_empty() { example } else { number };
        let spelt: Vec<String> = units
            .iter()
            .map(|unit| format!("{unit}({shown})"))
            .collect();
        let message = match found {
            Some((number, Some(unit))) => match units.iter().position(|known| *known == unit) {
                Some(_) if !number.is_finite() => {
                    let help = "write the number itself; neither NaN nor inf can be computed with";
                    let message = "the number must be finite".to_owned();
                    self.report(node.span, message, Some(help.to_owned()));
                    return None;
                }
                Some(i) => return Some((i, number)),
                None => format!("`{unit}` is no unit of {called}"),
            },
            Some((_, None)) => format!("the number {written} has no unit"),
            None => {
                let write = or(&spelt);
                return self.wanted(node, called, Some(write));
            }
        };
        let span = match &node.value {
            Value::Group(Some(unit), _) => unit.span,
            _ => node.span,
        };
        let help = format!(
            "{} ({called} needs its unit)",
            self.instead(node.span, &or(&spelt))
        );
        self.report(span, message, Some(help));
        None
    }
}

/// a, b or c.
fn or<S: std::borrow::Borrow<str>>(words: &[S]) -> String {
    match words {
        [] => String::new(),
        [one] => one.borrow().to_owned(),
        [all @ .., last] => format!("{} or {}", all.join(", "), last.borrow()),
    }
}

/// What is expected where one of these words must stand.
fn one_of(words: &[&str]) -> String {
    match words.len() {
        0..=MOST_LISTED => or(&words
            .iter()
            .map(|word| format!("`{word}`"))
            .collect::<Vec<_>>()),
        many => format!("one of {many} words"),
    }
}

/// The word that was meant, or all of them.
fn near_word(word: &str, words: &[&str]) -> Option<String> {
    let new = renamed(word).filter(|new| words.contains(new));
    let near = new.or_else(|| nearest(word, words.iter().copied()));
    Some(near.map_or_else(|| or(words), str::to_owned))
}

/// The number a text such as `-9 C` begins with.
pub(super) fn leading_number(text: &str) -> &str {
    let end = text
        .find(|c: char| !(c.is_ascii_digit() || matches!(c, '-' | '.' | '+')))
        .unwrap_or(text.len());
    match text[..end].parse::<f64>() {
        Ok(_) => &text[..end],
        Err(_) => "",
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
