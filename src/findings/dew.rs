//! Engine surfaces in the bay that stand below the dew point of the bay's air.

use serde::Serialize;

/// The engine surface that was longest below the dew point of its pocket.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct OutsideDew {
    /// The part.
    pub part: String,
    /// What people call it.
    pub label: String,
    /// The pocket of air.
    pub pocket: String,
    /// Hours, from the beginning to the departure, more than 0.1 K below that pocket's dew (frost) point.
    pub hours: f64,
}
