//! The definitions of keys as data, from which `docs/reference.md` is made.

use super::limits::Key;
use std::collections::BTreeMap;

/// A type of an input, with its keys or its words.
#[derive(Debug)]
pub struct Definition {
    /// What it is.
    pub doc: String,
    /// The keys of a group.
    pub keys: &'static [Key],
    /// The words of a choice.
    pub words: Vec<Word>,
}

/// A word of a choice.
#[derive(Debug, Clone, Copy)]
pub struct Word {
    /// The word.
    pub name: &'static str,
    /// What it means.
    pub doc: &'static str,
    /// The value in its brackets.
    pub value: Option<&'static Key>,
    /// The keys in its brackets.
    pub keys: &'static [Key],
}

/// All types that an input is made of, by name.
#[derive(Debug, Default)]
pub struct Types {
    /// Groups and choices.
    pub definitions: BTreeMap<&'static str, Definition>,
    /// Quantities with their units, the one they are kept in first.
    pub units: BTreeMap<&'static str, &'static [&'static str]>,
}

impl Types {
    /// Adds a type and what it is made of, unless it is there already.
    pub fn add(&mut self, name: &'static str, definition: Definition, inner: &[fn(&mut Self)]) {
        if self.definitions.contains_key(name) {
            return;
        }
        self.definitions.insert(name, definition);
        for types in inner {
            types(self);
        }
    }
    /// Adds a choice of words alone: each with its meaning.
    pub fn add_words(
        &mut self,
        name: &'static str,
        doc: &str,
        words: &[(&'static str, &'static str)],
    ) {
        let word = |(name, doc): &(&'static str, &'static str)| Word {
            name,
            doc,
            value: None,
            keys: &[],
        };
        let definition = Definition {
            doc: doc.to_owned(),
            keys: &[],
            words: words.iter().map(word).collect(),
        };
        self.add(name, definition, &[]);
    }
}
