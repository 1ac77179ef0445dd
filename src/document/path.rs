//! Values by their paths: `heaters[0].kind.flow`, with or without the words of choices.

use super::names::nearest;
use super::node::{Node, Value};

/// Why a value was not found or not set.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum PathError {
    /// The path leads nowhere.
    #[error("there is no number at `{path}`{}", near.as_ref().map_or(String::new(), |n| format!("; did you mean `{n}`?")))]
    Unknown {
        /// The path.
        path: String,
        /// The path of a number that is spelt most like it.
        near: Option<String>,
    },
    /// What was set is no value that can stand there: a wrong unit, or a number out of its range.
    #[error("`{path}` cannot be set: {why}")]
    Refused {
        /// The path.
        path: String,
        /// What the reader said.
        why: String,
    },
}

/// A path as it is spelt here, with an index in square brackets: `heaters.0.power` is `heaters[0].power`.
pub fn spelt(path: &str) -> String {
    let mut spelt = String::new();
    for step in path.replace('[', ".").replace(']', "").split('.') {
        if step.parse::<usize>().is_ok() {
            spelt += &format!("[{step}]");
        } else {
            spelt += if spelt.is_empty() { "" } else { "." };
            spelt += step;
        }
    }
    spelt
}

enum Step<'p> {
    Key(&'p str),
    Index(usize),
}

/// The first step of a path and the rest of it. A number is an index with or without square brackets.
fn step(path: &str) -> Option<(Step<'_>, &str)> {
    let path = path.strip_prefix(['.', '[']).unwrap_or(path);
    let end = path.find(['.', '[', ']']).unwrap_or(path.len());
    let (head, rest) = path.split_at(end);
    let rest = rest.strip_prefix(']').unwrap_or(rest);
    match head.parse() {
        _ if head.is_empty() => None,
        Ok(index) => Some((Step::Index(index), rest)),
        Err(_) => Some((Step::Key(head), rest)),
    }
}

/// What a step of a path leads to from a value.
enum Next {
    /// Into the entry, item or brackets of this number.
    Into(usize),
    /// The word before the brackets: the same value.
    Here,
    /// Into the one value in the brackets, the step still to be taken.
    Through,
}

impl Node {
    fn next(&self, step: &Step) -> Option<Next> {
        let word = match &self.value {
            Value::Group(word, _) | Value::Record(word, _) => word.as_ref(),
            _ => None,
        };
        match (step, &self.value) {
            (Step::Index(i), Value::List(items)) if *i < items.len() => Some(Next::Into(*i)),
            (Step::Index(i), Value::Group(_, items)) if items.len() > 1 && *i < items.len() => {
                Some(Next::Into(*i))
            }
            (Step::Key(key), _) if word.is_some_and(|word| word.text == *key) => Some(Next::Here),
            (Step::Key(key), Value::Record(_, entries) | Value::Map(entries)) => {
                let found = entries.iter().position(|(name, _)| name.text == *key);
                found.map(Next::Into)
            }
            (_, Value::Group(_, items)) if items.len() == 1 => Some(Next::Through),
            _ => None,
        }
    }

    /// Whether it is a word with one value in brackets, other than a number in its unit.
    fn holds_one(&self) -> bool {
        matches!(&self.value, Value::Group(Some(_), items) if items.len() == 1)
            && self.measured().is_none()
    }

    /// The value at a path, if there is one.
    pub fn at(&self, path: &str) -> Option<&Node> {
        let (node, rest) = self.furthest(path);
        rest.is_empty().then_some(node)
    }

    /// A path without the words of choices; none if it leads nowhere.
    pub fn plain_path(&self, path: &str) -> Option<String> {
        let (mut node, mut path, mut plain) = (self, path, String::new());
        while let Some((step, rest)) = step(path) {
            match node.next(&step)? {
                Next::Into(i) => {
                    match step {
                        Step::Key(key) => plain = under(&plain, Some(key)),
                        Step::Index(index) => plain += &format!("[{index}]"),
                    }
                    node = match &node.value {
                        Value::Map(entries) | Value::Record(_, entries) => &entries[i].1,
                        _ => &node.items()[i],
                    };
                    path = rest;
                }
                Next::Here => path = rest,
                Next::Through => node = &node.items()[0],
            }
        }
        Some(plain)
    }

    /// The value at as much of a path as is there, and the rest of the path.
    pub fn furthest<'p>(&self, path: &'p str) -> (&Node, &'p str) {
        let (mut node, mut path) = (self, path);
        while let Some((step, rest)) = step(path) {
            match node.next(&step) {
                Some(Next::Into(i)) => {
                    node = match &node.value {
                        Value::Map(entries) | Value::Record(_, entries) => &entries[i].1,
                        _ => &node.items()[i],
                    };
                    path = rest;
                }
                Some(Next::Here) => {
                    path = rest;
                    // The last step is the word of one value: that is what the path means.
                    if rest.is_empty() && node.holds_one() {
                        node = &node.items()[0];
                    }
                }
                Some(Next::Through) => node = &node.items()[0],
                None => break,
            }
        }
        (node, path)
    }

    pub(super) fn at_mut(&mut self, path: &str) -> Option<&mut Node> {
        let (mut node, mut path) = (self, path);
        while let Some((step, rest)) = step(path) {
            let next = node.next(&step)?;
            if !matches!(next, Next::Through) {
                path = rest;
            }
            let i = match next {
                Next::Here if rest.is_empty() && node.holds_one() => 0,
                Next::Here => continue,
                Next::Into(i) => i,
                Next::Through => 0,
            };
            node = match &mut node.value {
                Value::Map(entries) | Value::Record(_, entries) => &mut entries.get_mut(i)?.1,
                Value::List(items) | Value::Group(_, items) => items.get_mut(i)?,
                _ => return None,
            };
        }
        Some(node)
    }

    /// Puts a value at a path. A plain number takes the unit of the number it replaces.
    ///
    /// *Errors*: nothing stands there; the nearest path of a number is named.
    pub fn set(&mut self, path: &str, mut to: Node) -> Result<(), PathError> {
        if self.at(path).is_none() {
            return Err(self.unknown(path, &self.numbers(&[])));
        }
        let Some(there) = self.at_mut(path) else {
            return Ok(());
        };
        if let Value::Number(number) = to.value
            && let Some((_, Some(unit))) = there.measured()
        {
            to = Node::number(number, Some(unit));
        }
        *there = to;
        Ok(())
    }

    /// That there is no number at a path, and the one of these that is nearest to it.
    pub fn unknown(&self, path: &str, among: &[String]) -> PathError {
        let there = self.at(path).is_some();
        let near = nearest(path, among.iter().map(String::as_str).filter(|_| !there));
        PathError::Unknown {
            path: path.to_owned(),
            near: near.map(str::to_owned),
        }
    }

    /// Every path that leads to a number, in the order of the tree, but for what stands under some keys.
    pub fn numbers(&self, but: &[&str]) -> Vec<String> {
        let mut found = Vec::new();
        self.collect(String::new(), but, &mut found);
        found
    }

    fn collect(&self, path: String, but: &[&str], found: &mut Vec<String>) {
        if self.measured().is_some() {
            found.push(path);
            return;
        }
        match &self.value {
            Value::Group(word, items) if items.len() == 1 => {
                let path = under(&path, word.as_ref().map(|word| word.text.as_str()));
                items[0].collect(path, but, found);
            }
            Value::List(items) | Value::Group(_, items) => {
                for (i, item) in items.iter().enumerate() {
                    item.collect(format!("{path}[{i}]"), but, found);
                }
            }
            Value::Map(entries) | Value::Record(None, entries) => {
                for (name, node) in entries.iter().filter(|(n, _)| !but.contains(&&*n.text)) {
                    node.collect(under(&path, Some(&name.text)), but, found);
                }
            }
            Value::Record(Some(word), entries) => {
                let path = under(&path, Some(&word.text));
                for (name, node) in entries {
                    node.collect(under(&path, Some(&name.text)), but, found);
                }
            }
            _ => {}
        }
    }
}

/// A path with one more key.
pub(super) fn under(path: &str, key: Option<&str>) -> String {
    match key {
        None => path.to_owned(),
        Some(key) if path.is_empty() => key.to_owned(),
        Some(key) => format!("{path}.{key}"),
    }
}
