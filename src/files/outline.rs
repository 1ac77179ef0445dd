//! Where each key of a model file stands in its text, so that a problem can be shown at its line.
//!
//! A path is spelt as in [`Problem::path`](crate::scenario::check::Problem): `heaters[0].thermostat.lo`.
//! The names of variants and brackets round a single value do not count. The text is taken to be sound:
//! it has been read before; where it is not, the outline ends early.

use std::collections::BTreeSet;
use std::ops::Range;

/// How deep the brackets of a file may be nested; the reader of model files allows no more either.
const DEEPEST: usize = 128;

/// The keys and values of a text.
#[derive(Debug, Default)]
pub(super) struct Outline {
    entries: Vec<Entry>,
    /// Keys of maps that stand there a second time: the key and its bytes.
    pub twice: Vec<(String, Range<usize>)>,
}

#[derive(Debug)]
struct Entry {
    path: String,
    key: Range<usize>,
    value: Range<usize>,
}

/// A key and its value, as bytes of the text, and how much of the path asked for they are.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Found {
    /// The key; the value itself for an item of a list.
    pub key: Range<usize>,
    /// The value.
    pub value: Range<usize>,
    /// How many steps of the path are not there.
    pub missing: usize,
}

impl Outline {
    /// The outline of a text.
    pub fn of(text: &str) -> Self {
        let mut scan = Scan {
            text,
            at: 0,
            depth: 0,
            outline: Self::default(),
        };
        scan.value("");
        scan.outline
    }

    /// The value at a path, or at as much of it as is there; none if not even its first step is.
    pub fn find(&self, path: &str) -> Option<Found> {
        let (mut path, mut missing) = (path, 0);
        while !path.is_empty() {
            // The outermost of several: `W(350)`, and not the number in its brackets.
            if let Some(entry) = self.entries.iter().rev().find(|e| e.path == path) {
                return Some(Found {
                    key: entry.key.clone(),
                    value: entry.value.clone(),
                    missing,
                });
            }
            path = parent(path);
            missing += 1;
        }
        None
    }

    /// The innermost entry that a byte stands in: its path, key and value.
    pub fn around(&self, at: usize) -> Option<(&str, Range<usize>, Range<usize>)> {
        self.entries
            .iter()
            .filter(|e| e.key.start <= at && at < e.value.end.max(e.key.end))
            .min_by_key(|e| e.value.end.max(e.key.end) - e.key.start)
            .map(|e| (e.path.as_str(), e.key.clone(), e.value.clone()))
    }

    /// Every entry at exactly this path, as key and value, in the order of the text.
    pub fn all_at(&self, path: &str) -> Vec<(Range<usize>, Range<usize>)> {
        let mut all: Vec<_> = self
            .entries
            .iter()
            .filter(|e| e.path == path)
            .map(|e| (e.key.clone(), e.value.clone()))
            .collect();
        all.sort_by_key(|(key, _)| key.start);
        all
    }

    /// The text in quotes at exactly this path.
    pub fn quoted<'t>(&self, path: &str, text: &'t str) -> Option<&'t str> {
        let found = self.find(path).filter(|found| found.missing == 0)?;
        text[found.value].strip_prefix('"')?.strip_suffix('"')
    }
}

/// A path without its last step.
fn parent(path: &str) -> &str {
    path.rfind(['.', '[']).map_or("", |at| &path[..at])
}

struct Scan<'t> {
    text: &'t str,
    at: usize,
    depth: usize,
    outline: Outline,
}

impl Scan<'_> {
    fn peek(&self) -> Option<char> {
        self.text[self.at..].chars().next()
    }
    fn take(&mut self) {
        self.at += self.peek().map_or(0, char::len_utf8);
    }
    fn takes(&mut self, wanted: &str) -> bool {
        let there = self.text[self.at..].starts_with(wanted);
        if there {
            self.at += wanted.len();
        }
        there
    }
    fn to(&mut self, end: &str) {
        let rest = &self.text[self.at..];
        self.at += rest.find(end).map_or(rest.len(), |at| at + end.len());
    }

    /// Past spaces, comments and `#![enable(..)]`.
    fn space(&mut self) {
        loop {
            if self.takes("//") {
                self.to("\n");
            } else if self.takes("/*") {
                let mut open = 1;
                while open > 0 && self.at < self.text.len() {
                    if self.takes("/*") {
                        open += 1;
                    } else if self.takes("*/") {
                        open -= 1;
                    } else {
                        self.take();
                    }
                }
            } else if self.takes("#!") {
                self.to("]");
            } else if self.peek().is_some_and(char::is_whitespace) {
                self.take();
            } else {
                return;
            }
        }
    }

    fn word(&mut self) {
        let is_word = |c: char| c.is_alphanumeric() || matches!(c, '_' | '.' | '-' | '+' | '#');
        while self.peek().is_some_and(is_word) {
            self.take();
        }
    }

    /// A text in quotes, raw or not; whether one stood here.
    fn quotes(&mut self) -> bool {
        let rest = self.text[self.at..].trim_start_matches('b');
        let skipped = self.text.len() - self.at - rest.len();
        let hashes = rest.strip_prefix('r').map(|raw| {
            let hashes = raw.len() - raw.trim_start_matches('#').len();
            (hashes, raw[hashes..].starts_with('"'))
        });
        if let Some((hashes, true)) = hashes {
            self.at += skipped + 1 + hashes + 1;
            self.to(&format!("\"{}", "#".repeat(hashes)));
        } else if rest.starts_with('"') {
            self.at += skipped + 1;
            while self.peek().is_some_and(|c| c != '"') {
                // A backslash takes the next character along.
                self.takes("\\");
                self.take();
            }
            self.take();
        } else {
            return false;
        }
        true
    }

    /// A value at this path; its bytes.
    fn value(&mut self, path: &str) -> Range<usize> {
        self.space();
        let start = self.at;
        if self.depth == DEEPEST {
            self.at = self.text.len();
            return start..start;
        }
        self.depth += 1;
        if !self.quotes() {
            self.word();
            let end_of_word = self.at;
            self.space();
            if self.takes("(") {
                self.group(path);
            } else if self.at > start && end_of_word > start {
                self.at = end_of_word;
            } else if self.takes("[") {
                let mut items = 0;
                while self.more("]") {
                    self.item(path, items);
                    items += 1;
                }
            } else if self.takes("{") {
                self.map(path);
            } else {
                // Not a value: past this letter, so that the scan goes on.
                self.take();
            }
        }
        self.depth -= 1;
        start..self.at
    }

    /// Whether there is more before the closing bracket, which is taken if not.
    fn more(&mut self, end: &str) -> bool {
        self.space();
        if self.takes(",") {
            self.space();
        }
        !self.takes(end) && self.at < self.text.len()
    }

    fn item(&mut self, path: &str, index: usize) {
        let path = format!("{path}[{index}]");
        let place = self.outline.entries.len();
        let value = self.value(&path);
        let key = value.clone();
        self.outline
            .entries
            .insert(place, Entry { path, key, value });
    }

    fn keyed(&mut self, path: &str, name: &str, key: Range<usize>) {
        let dot = if path.is_empty() { "" } else { "." };
        let path = format!("{path}{dot}{name}");
        let value = self.value(&path);
        self.outline.entries.push(Entry { path, key, value });
    }

    fn map(&mut self, path: &str) {
        let mut seen = BTreeSet::new();
        while self.more("}") {
            let key = self.value("");
            let name = self.text[key.clone()].trim_matches('"').to_owned();
            if !seen.insert(name.clone()) {
                self.outline.twice.push((name.clone(), key.clone()));
            }
            self.space();
            if self.takes(":") {
                self.keyed(path, &name, key);
            }
        }
    }

    /// What stands in round brackets: named fields, or values by their place.
    fn group(&mut self, path: &str) {
        let first = self.outline.entries.len();
        let mut items = 0;
        while self.more(")") {
            let key = self.at;
            self.word();
            let key = key..self.at;
            self.space();
            if !key.is_empty() && self.takes(":") {
                let name = self.text[key.clone()].to_owned();
                self.keyed(path, &name, key);
            } else {
                self.at = key.start;
                self.item(path, items);
                items += 1;
            }
        }
        if items == 1 {
            // Brackets round a single value: its path is that of the brackets.
            let inner = format!("{path}[0]");
            let shorter = path.to_owned();
            for entry in &mut self.outline.entries[first..] {
                if let Some(rest) = entry.path.strip_prefix(&inner) {
                    let rest = if shorter.is_empty() {
                        rest.trim_start_matches('.')
                    } else {
                        rest
                    };
                    entry.path = format!("{shorter}{rest}");
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEXT: &str = r#"// a (comment: with) brackets
body((
    parts: [(name: "a)", mass: kg(1.5)), (name: "b", shape: bar(length: m(1)))],
    /* blankets: { } */
    blankets: { "UL": m2K_W(0.3), "UR": m2K_W(0.2), "UL": m2K_W(0.4) },
    view: [[0.5, 0.5], [1.0, 0.0]],
    pairs: [("ä", 0.25)], note: r"raw \ ", always: never,
))"#;

    fn at(path: &str) -> &'static str {
        let found = Outline::of(TEXT).find(path).unwrap();
        assert_eq!(found.missing, 0, "{path}");
        &TEXT[found.value]
    }

    #[test]
    fn every_value_is_found_by_its_path() {
        assert_eq!(at("parts[0].name"), "\"a)\"");
        assert_eq!(at("parts[0].mass"), "kg(1.5)");
        assert_eq!(at("parts[1].shape.length"), "m(1)");
        assert_eq!(at("blankets.UR"), "m2K_W(0.2)");
        assert_eq!(at("view[1][0]"), "1.0");
        assert_eq!(at("pairs[0][0]"), "\"ä\"");
        assert_eq!(at("pairs[0][1]"), "0.25");
        assert_eq!(at("note"), "r\"raw \\ \"");
        assert_eq!(at("always"), "never");
        assert_eq!(Outline::of(TEXT).quoted("parts[1].name", TEXT), Some("b"));
    }

    #[test]
    fn what_is_not_there_is_found_at_what_is() {
        let found = Outline::of(TEXT)
            .find("parts[1].shape.section.wall")
            .unwrap();
        assert_eq!((&TEXT[found.key], found.missing), ("shape", 2));
        assert_eq!(Outline::of(TEXT).find("nothing.here"), None);
    }

    #[test]
    fn a_key_that_stands_twice_is_told() {
        let twice = Outline::of(TEXT).twice;
        assert_eq!(twice.len(), 1);
        assert_eq!(twice[0].0, "UL");
        assert!(TEXT[twice[0].1.end..].starts_with(": m2K_W(0.4)"));
    }

    #[test]
    fn a_broken_text_ends_the_scan() {
        for text in [
            "",
            "(",
            "((((",
            "{\"a",
            "r#\"",
            "(a: , b: )",
            ")]}",
            "/*",
            &"(".repeat(999),
        ] {
            Outline::of(text);
        }
    }
}
