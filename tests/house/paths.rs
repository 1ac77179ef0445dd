//! What a source file names: every path in it, braces opened, its own items, its test code left out.

use super::pieces::{Kind, pieces};
use std::collections::BTreeSet;

/// A path in a source file.
#[derive(Debug, Clone, PartialEq)]
pub struct Named {
    /// Its words, such as `crate`, `physics`, `air`.
    pub words: Vec<String>,
    /// The name an import brings into scope; none for a path in code and for `*`.
    pub brings: Option<String>,
    /// Where it stands.
    pub place: Place,
}

/// Where a path stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Place {
    /// In a `use`, with or without `pub`.
    Import {
        /// With `pub`.
        public: bool,
        /// It ends in `*`.
        all: bool,
    },
    /// Anywhere else.
    Code,
}

/// What is known of one source file.
#[derive(Debug, Default)]
pub struct Source {
    /// Every path.
    pub paths: Vec<Named>,
    /// Names of its own functions, types, constants and macros.
    pub items: BTreeSet<String>,
    /// Modules that are declared for tests only.
    pub test_modules: BTreeSet<String>,
}

/// Reads a source file.
pub fn source(text: &str) -> Source {
    let mut found = Source::default();
    let tokens = without_tests(tokens(text), &mut found.test_modules);
    let mut at = 0;
    while at < tokens.len() {
        let word = tokens[at].as_str();
        let after = tokens.get(at + 1).map_or("", String::as_str);
        let before = at.checked_sub(1).map_or("", |i| tokens[i].as_str());
        if word == "use" && before != "$" {
            let public = before == "pub" || before == ")";
            at = import(&tokens, at + 1, &[], public, &mut found.paths);
        } else if is_word(word) && after == "::" && before != "::" && before != "in" {
            let mut words = vec![word.to_owned()];
            while tokens.get(at + 1).is_some_and(|t| t == "::")
                && tokens.get(at + 2).is_some_and(|t| is_word(t))
            {
                words.push(tokens[at + 2].clone());
                at += 2;
            }
            found.paths.push(Named {
                words,
                brings: None,
                place: Place::Code,
            });
        } else if ITEMS.contains(&word) && is_word(after) {
            found.items.insert(after.to_owned());
        } else if word == "macro_rules" && after == "!" {
            found.items.extend(tokens.get(at + 2).cloned());
        }
        at += 1;
    }
    found
}

/// Words before the name of an item.
const ITEMS: [&str; 8] = [
    "fn", "struct", "enum", "trait", "type", "const", "static", "union",
];

fn is_word(token: &str) -> bool {
    token.starts_with(|c: char| c.is_alphabetic() || c == '_')
}

/// One import from `at` on, after `prefix`; returns where it ends.
fn import(
    tokens: &[String],
    mut at: usize,
    prefix: &[String],
    public: bool,
    found: &mut Vec<Named>,
) -> usize {
    let mut words = prefix.to_vec();
    let mut leaf = |words: &[String], brings: Option<String>, all: bool| {
        found.push(Named {
            words: words.to_vec(),
            brings,
            place: Place::Import { public, all },
        });
    };
    loop {
        match tokens.get(at).map(String::as_str) {
            Some("{") => {
                at += 1;
                while tokens.get(at).is_some_and(|t| t != "}") {
                    at = import(tokens, at, &words, public, found);
                    if tokens.get(at).is_some_and(|t| t == ",") {
                        at += 1;
                    }
                }
                return at + 1;
            }
            Some("*") => {
                leaf(&words, None, true);
                return at + 1;
            }
            Some("self") if !prefix.is_empty() && words.len() == prefix.len() => at += 1,
            Some("::") => {
                at += 1;
                continue;
            }
            Some("as") => {
                leaf(&words, tokens.get(at + 1).cloned(), false);
                return at + 2;
            }
            Some(word) if is_word(word) => {
                words.push(word.to_owned());
                at += 1;
            }
            _ => return at,
        }
        if tokens.get(at).is_none_or(|t| t != "::" && t != "as") {
            leaf(&words, words.last().cloned(), false);
            return at;
        }
    }
}

/// The tokens without any item under `#[cfg(test)]`; modules so declared are collected.
fn without_tests(tokens: Vec<String>, modules: &mut BTreeSet<String>) -> Vec<String> {
    let mark = ["#", "[", "cfg", "(", "test", ")", "]"];
    let mut kept = Vec::with_capacity(tokens.len());
    let mut at = 0;
    while at < tokens.len() {
        if !tokens[at..].iter().take(mark.len()).eq(mark.iter()) {
            kept.push(tokens[at].clone());
            at += 1;
            continue;
        }
        let mut depth = 0;
        at += mark.len();
        while let Some(token) = tokens.get(at) {
            if token == "mod" && depth == 0 {
                modules.extend(tokens.get(at + 1).cloned());
            }
            match token.as_str() {
                "{" | "(" | "[" => depth += 1,
                "}" | ")" | "]" => depth -= 1,
                _ => {}
            }
            at += 1;
            let ends = token == ";" || token == "}";
            if ends && depth == 0 {
                break;
            }
        }
    }
    kept
}

/// Words, `::` and single signs of the code.
fn tokens(text: &str) -> Vec<String> {
    let mut found = Vec::new();
    let code = pieces(text)
        .into_iter()
        .filter(|(kind, _)| *kind == Kind::Code);
    for (_, mut rest) in code {
        while let Some(c) = rest.chars().next() {
            let length = if c.is_alphanumeric() || c == '_' {
                let end = rest.find(|c: char| !(c.is_alphanumeric() || c == '_'));
                end.unwrap_or(rest.len())
            } else if rest.starts_with("::") {
                2
            } else {
                c.len_utf8()
            };
            if !c.is_whitespace() {
                found.push(rest[..length].to_owned());
            }
            rest = &rest[length..];
        }
    }
    found
}
