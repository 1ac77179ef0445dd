//! The typed reading of a tree.

use super::error::ErrorList;
use super::limits::{Key, Rule, RuleCheck};
use super::node::{Name, Node};
use super::parse::parse;
use super::reader::Reader;
use super::reference::Types;
use super::source::Source;

/// A type that can be read from a tree.
pub trait Read: Sized {
    /// What is expected where it is read, such as `a number`.
    const WANTED: &'static str;
    /// How it is written.
    const EXAMPLE: &'static str;
    /// Reads it; none if it cannot be read, which is then reported.
    fn read(node: &Node, reader: &mut Reader) -> Option<Self>;
    /// Shows its numbers, each to be held to the rule of its key.
    fn walk(&self, _walk: &mut RuleCheck) {}
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

impl Reader<'_> {
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
            let mut walk = RuleCheck::at(&self.path, rule);
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
}
