//! The state of a typed reading: where it is, and what it has found wrong, each with its place and what to write.

use super::error::{ErrorList, InputError};
use super::node::{Node, Span, Value};
use super::path::under;
use super::source::Source;
use super::suggest::on_one_line;
use std::borrow::Cow;

/// The most letters of a value that are repeated in a message.
const MOST_SHOWN: usize = 48;

/// What a reading has found so far, and where it is.
pub struct Reader<'s> {
    pub(super) source: Option<&'s Source>,
    pub(super) path: String,
    /// The key whose value is read, and the value.
    pub(super) field: Option<(Span, Span)>,
    pub(super) trusted: u32,
    pub(super) errors: ErrorList,
    pub(super) ignored: Vec<String>,
}

impl<'s> Reader<'s> {
    /// A reader of a tree that stands in no text.
    pub(super) fn free() -> Self {
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
        let after = source.text.get(of.end as usize..value.end as usize);
        match (before, after) {
            (Some(before), Some(after)) if inside => {
                on_one_line(format!("{before}{write}{after}")).unwrap_or_else(|| write.to_owned())
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
    pub(super) fn below<T>(&mut self, step: &str, read: impl FnOnce(&mut Self) -> T) -> T {
        let length = self.path.len();
        self.path = match step.starts_with('[') {
            true => format!("{}{step}", self.path),
            false => under(&self.path, Some(step)),
        };
        let read = read(self);
        self.path.truncate(length);
        read
    }
}
