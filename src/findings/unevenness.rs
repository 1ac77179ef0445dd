//! How far the cylinders differ from each other.

use serde::Serialize;

/// The spread over the cylinders: the warmest reading minus the coldest.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Unevenness {
    /// At the departure, K.
    pub at_departure_k: f64,
    /// The largest from the beginning to the departure, K.
    pub max_k: f64,
    /// When that was, hours after the beginning.
    pub max_at_h: f64,
}
