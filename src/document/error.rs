//! What is wrong with an input: where, why, and what to write instead.

use super::node::Span;
use std::fmt;
use std::ops::Range;
use std::sync::Arc;

/// The most errors that are printed; the rest are counted.
pub const MOST_PRINTED: usize = 20;
/// The most errors that are kept; the rest are counted.
const MOST_KEPT: usize = 200;
/// Something wrong with an input.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct InputError {
    /// The file, as the user named it.
    pub file: String,
    /// Its text, shared by all of its errors, and the bytes that are wrong, if the place is known.
    pub place: Option<(Arc<str>, Span)>,
    /// The path of the value, such as `heaters[0].place`; empty if it is about the whole.
    pub path: String,
    /// What is wrong, in one sentence.
    pub message: String,
    /// What to write or to do instead.
    pub suggestion: Option<String>,
}

impl InputError {
    /// An error of a whole file.
    pub fn of(file: &str, message: impl Into<String>) -> Self {
        Self {
            file: file.to_owned(),
            place: None,
            path: String::new(),
            message: message.into(),
            suggestion: None,
        }
    }
    /// The same error at a place in the file's text.
    pub fn at(mut self, text: impl Into<Arc<str>>, bytes: Range<usize>) -> Self {
        self.place = Some((text.into(), Span::new(bytes.start, bytes.end)));
        self
    }
    /// The same error with what to do about it.
    pub fn suggest(mut self, suggestion: impl Into<String>) -> Self {
        self.suggestion = Some(suggestion.into());
        self
    }
    /// As [`InputError::suggest`].
    pub fn help(self, suggestion: impl Into<String>) -> Self {
        self.suggest(suggestion)
    }
    /// The same error with the path of the value.
    pub fn path(mut self, path: impl Into<String>) -> Self {
        self.path = path.into();
        self
    }
    /// Line and column of the place, from one, in characters.
    pub fn line_and_column(&self) -> Option<(usize, usize)> {
        let (text, span) = self.place.as_ref()?;
        let before = text.get(..span.start as usize)?;
        let lines = before.replace("\r\n", "\n").replace('\r', "\n");
        let column = lines.rsplit('\n').next().unwrap_or("").chars().count() + 1;
        Some((lines.matches('\n').count() + 1, column))
    }
    /// The text at the place, as far as it stands on one line.
    pub fn there(&self) -> Option<&str> {
        let (text, span) = self.place.as_ref()?;
        text.get(span.range())?.lines().next()
    }
    /// The error with the word `warning` in it.
    pub fn warned(&self) -> String {
        self.printed("warning: ")
    }

    fn printed(&self, word: &str) -> String {
        let place = match self.line_and_column() {
            Some((line, column)) => format!("{}, line {line}, column {column}", self.file),
            None if self.path.is_empty() => self.file.clone(),
            None => format!("{}, {}", self.file, self.path),
        };
        let message = self.message.trim_end_matches('.');
        let suggestion = self.suggestion.as_ref();
        let suggestion = suggestion.map_or(String::new(), |what| format!("\n    Try: {what}"));
        format!("{place}: {word}{message}.{suggestion}")
    }
}

impl fmt::Display for InputError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.printed(""))
    }
}

impl std::error::Error for InputError {}

/// Errors of several files, in the order in which they were found, each once.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct ErrorList {
    kept: Vec<InputError>,
    more: usize,
}

impl ErrorList {
    /// Adds an error, if it is not there yet.
    pub fn add(&mut self, error: InputError) {
        if self.kept.len() >= MOST_KEPT {
            self.more += 1;
        } else if !self.kept.contains(&error) {
            self.kept.push(error);
        }
    }
    /// How many there are.
    pub fn count(&self) -> usize {
        self.kept.len() + self.more
    }
    /// Those that are kept; a hopeless file has more.
    pub fn kept(&self) -> &[InputError] {
        &self.kept
    }
    /// Those that are kept, and one that counts the others.
    pub fn into_kept(self) -> Vec<InputError> {
        let mut kept = self.kept;
        if self.more > 0 {
            let file = kept.first().map_or("", |error| &error.file);
            let error = InputError::of(file, format!("{} more errors are not listed", self.more));
            kept.push(error);
        }
        kept
    }
    /// Sorts them by their places.
    pub(super) fn sort(&mut self) {
        let start = |error: &InputError| error.place.as_ref().map_or(0, |(_, span)| span.start);
        self.kept.sort_by_key(start);
    }
}

impl Extend<InputError> for ErrorList {
    fn extend<E: IntoIterator<Item = InputError>>(&mut self, errors: E) {
        errors.into_iter().for_each(|error| self.add(error));
    }
}

impl fmt::Display for ErrorList {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let printed = self.kept.iter().take(MOST_PRINTED);
        let lines: Vec<String> = printed.map(InputError::to_string).collect();
        f.write_str(&lines.join("\n"))?;
        match self.count() - lines.len() {
            0 => Ok(()),
            more => write!(f, "\n{more} more errors"),
        }
    }
}
