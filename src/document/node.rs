//! The tree of a text: numbers, texts, words, lists, maps, and what stands in round brackets.

use serde::de::{Deserialize, Deserializer, Error, MapAccess, SeqAccess, Visitor};
use std::collections::BTreeSet;
use std::fmt;
use std::ops::Range;

/// Bytes of a text; empty for what came from JSON, from Python or from code.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Span {
    /// The first byte.
    pub start: u32,
    /// The byte after the last.
    pub end: u32,
}

impl Span {
    /// The span between two bytes.
    pub fn new(start: usize, end: usize) -> Self {
        let fit = |at| u32::try_from(at).unwrap_or(u32::MAX);
        Self {
            start: fit(start),
            end: fit(end),
        }
    }
    /// As a range of bytes.
    pub fn range(self) -> Range<usize> {
        self.start as usize..self.end as usize
    }
    /// Whether it holds nothing.
    pub fn is_empty(self) -> bool {
        self.start == self.end
    }
    /// From the first byte of this to the last of another.
    pub fn to(self, other: Self) -> Self {
        Self {
            start: self.start,
            end: other.end,
        }
    }
}

/// A key, or the word before brackets, with its place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Name {
    /// The word.
    pub text: String,
    /// Where it stands.
    pub span: Span,
}

/// A value with its place.
#[derive(Debug, Clone, PartialEq)]
pub struct Node {
    /// Where it stands, from the word before its brackets to the last bracket.
    pub span: Span,
    /// What stands there.
    pub value: Value,
}

/// What a text can hold.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// `-9.5`.
    Number(f64),
    /// `"shut"`.
    Text(String),
    /// `always`, `true`; the empty word where a value is missing.
    Word(String),
    /// `[1, 2]`.
    List(Vec<Node>),
    /// `{ "UL": 1 }`.
    Map(Vec<(Name, Node)>),
    /// `degC(-9)`, `("sump", 0.5)`.
    Group(Option<Name>, Vec<Node>),
    /// `steady(outdoors: degC(-9))`, `(title: "x")`.
    Record(Option<Name>, Vec<(Name, Node)>),
    /// What could not be read and has been reported.
    Broken,
}

impl Node {
    /// A node that stands in no text.
    pub fn free(value: Value) -> Self {
        Self {
            span: Span::default(),
            value,
        }
    }
    /// A number, with its unit or plain.
    pub fn number(number: f64, unit: Option<&str>) -> Self {
        let plain = Self::free(Value::Number(number));
        match unit {
            None => plain,
            Some(unit) => {
                let name = Name {
                    text: unit.to_owned(),
                    span: Span::default(),
                };
                Self::free(Value::Group(Some(name), vec![plain]))
            }
        }
    }
    /// The number and its unit, if it is one: `kg(22)`, or a plain number.
    pub fn measured(&self) -> Option<(f64, Option<&str>)> {
        match &self.value {
            Value::Number(number) => Some((*number, None)),
            Value::Group(Some(unit), items) => match items.as_slice() {
                [
                    Node {
                        value: Value::Number(number),
                        ..
                    },
                ] => Some((*number, Some(&unit.text))),
                _ => None,
            },
            // As JSON has it.
            Value::Map(entries) if self.span.is_empty() => match entries.as_slice() {
                [
                    (
                        unit,
                        Node {
                            value: Value::Number(number),
                            ..
                        },
                    ),
                ] => Some((*number, Some(&unit.text))),
                _ => None,
            },
            _ => None,
        }
    }
    /// The text in quotes, if it is one.
    pub fn text(&self) -> Option<&str> {
        match &self.value {
            Value::Text(text) => Some(text),
            _ => None,
        }
    }
    /// The entries of a map or of what stands in round brackets with keys.
    pub fn entries(&self) -> &[(Name, Node)] {
        match &self.value {
            Value::Map(entries) | Value::Record(_, entries) => entries,
            _ => &[],
        }
    }
    /// Where a key of its entries stands, also in brackets round a single value.
    pub fn key_span(&self, key: &str) -> Option<Span> {
        if let Value::Group(_, items) = &self.value
            && let [one] = items.as_slice()
        {
            return one.key_span(key);
        }
        let found = self.entries().iter().find(|(name, _)| name.text == key)?;
        Some(found.0.span)
    }
    /// The innermost key and its value that hold these bytes between them.
    pub fn entry_round(&self, bytes: Span) -> Option<Span> {
        let within = |round: &Span| round.start <= bytes.start && bytes.end <= round.end;
        let entries = self.entries().iter();
        let entry = entries
            .map(|(name, node)| (name.span.to(node.span), node))
            .find(|(round, _)| within(round));
        let item = || self.items().iter().find(|node| within(&node.span));
        match entry {
            Some((round, node)) => Some(node.entry_round(bytes).unwrap_or(round)),
            None => item()?.entry_round(bytes),
        }
    }
    /// The items of a list or of what stands in round brackets without keys.
    pub fn items(&self) -> &[Node] {
        match &self.value {
            Value::List(items) | Value::Group(_, items) => items,
            _ => &[],
        }
    }
    /// The paths of the keys that stand in a text, such as `covers.inlet_plug`, not those in lists.
    pub fn keys(&self) -> BTreeSet<String> {
        let mut keys = BTreeSet::new();
        self.collect_keys("", &mut keys);
        keys
    }
    fn collect_keys(&self, path: &str, keys: &mut BTreeSet<String>) {
        if let Value::Group(_, items) = &self.value
            && let [one] = items.as_slice()
        {
            one.collect_keys(path, keys);
        }
        for (name, node) in self.entries() {
            let dot = if path.is_empty() { "" } else { "." };
            let path = format!("{path}{dot}{}", name.text);
            node.collect_keys(&path, keys);
            keys.insert(path);
        }
    }
}

/// A door for JSON and Python: whatever describes itself becomes a tree without places.
impl<'de> Deserialize<'de> for Node {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_any(Door)
    }
}

struct Door;

macro_rules! numbers {
    ($($visit:ident: $type:ty),+) => {
        $(fn $visit<E: Error>(self, number: $type) -> Result<Node, E> {
            Ok(Node::free(Value::Number(number as f64)))
        })+
    };
}

impl<'de> Visitor<'de> for Door {
    type Value = Node;
    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a value")
    }
    numbers! { visit_i64: i64, visit_u64: u64, visit_f64: f64 }
    fn visit_bool<E: Error>(self, yes: bool) -> Result<Node, E> {
        Ok(Node::free(Value::Word(yes.to_string())))
    }
    fn visit_str<E: Error>(self, text: &str) -> Result<Node, E> {
        Ok(Node::free(Value::Text(text.to_owned())))
    }
    fn visit_unit<E: Error>(self) -> Result<Node, E> {
        Ok(Node::free(Value::Word("None".to_owned())))
    }
    fn visit_seq<A: SeqAccess<'de>>(self, mut from: A) -> Result<Node, A::Error> {
        let mut items = Vec::new();
        while let Some(item) = from.next_element()? {
            items.push(item);
        }
        Ok(Node::free(Value::List(items)))
    }
    fn visit_map<A: MapAccess<'de>>(self, mut from: A) -> Result<Node, A::Error> {
        let mut entries = Vec::new();
        while let Some((text, node)) = from.next_entry()? {
            let span = Span::default();
            entries.push((Name { text, span }, node));
        }
        Ok(Node::free(Value::Map(entries)))
    }
}
