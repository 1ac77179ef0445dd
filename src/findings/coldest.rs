//! The coldest engine part at an instant.

use serde::Serialize;

/// The coldest engine part.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Coldest {
    /// The part.
    pub part: String,
    /// What people call it.
    pub label: String,
    /// The lowest temperature among engine parts, °C.
    pub temp_c: f64,
}
