//! Why a weather file cannot be used.

use std::ops::Range;

/// What is wrong with a weather file, where in its text, and what to do.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{message}")]
pub struct WeatherError {
    /// What is wrong.
    pub message: String,
    /// What to write instead.
    pub suggestion: Option<String>,
    /// The bytes of the text that are wrong, if it is not the whole file.
    pub span: Option<Range<usize>>,
    /// The key of the night's weather that the error is about: `station`, `month`, `zone` or `wind`.
    pub key: Option<&'static str>,
}

impl WeatherError {
    pub(super) fn new(message: impl Into<String>) -> Self {
        Self {
            message: message.into(),
            suggestion: None,
            span: None,
            key: None,
        }
    }
    pub(super) fn suggest(mut self, suggestion: impl Into<String>) -> Self {
        self.suggestion = Some(suggestion.into());
        self
    }
    pub(super) fn at(mut self, span: Range<usize>) -> Self {
        self.span = Some(span);
        self
    }
    pub(super) fn key(mut self, key: &'static str) -> Self {
        self.key = Some(key);
        self
    }
}
