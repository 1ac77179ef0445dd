//! A choice of a comparison, and what it means that one cannot be computed.

use crate::night::NightError;
use crate::scenario::document::Scenario;

/// A choice: a name, and the night it makes.
#[derive(Debug, Clone, PartialEq)]
pub struct Choice {
    /// What it is called.
    pub name: String,
    /// The night it makes.
    pub scenario: Scenario,
}

/// A choice that could not be computed.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("{choice}: {source}")]
pub struct CompareError {
    /// Which choice.
    pub choice: String,
    /// Why.
    pub source: NightError,
}
