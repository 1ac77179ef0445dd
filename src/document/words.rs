//! How one of a few words is read.

use super::names::{nearest, renamed};
use super::node::{Node, Value};
use super::reader::Reader;
use std::borrow::{Borrow, Cow};

/// The most words that are listed in a message.
const MOST_LISTED: usize = 6;

impl Reader<'_> {
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
}

/// a, b or c.
pub(super) fn or<S: Borrow<str>>(words: &[S]) -> String {
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
