//! Every part of the engine and its bay: how warm at the departure, and since when.

use super::threshold::ReachPair;
use serde::Serialize;

/// One part. Where a part is cut into several cells, its coldest cell decides.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PartFinding {
    /// The part.
    pub part: String,
    /// What people call it.
    pub label: String,
    /// Whether it counts for "warm everywhere".
    pub engine: bool,
    /// Its mean temperature at the departure, weighted by heat capacity, °C.
    pub temp_c: f64,
    /// Its coldest cell at the departure, °C; equal to `temp_c` unless the part is cut.
    pub min_c: f64,
    /// When its coldest cell came to the threshold.
    pub reached: ReachPair,
    /// Its coldest cell over the threshold at the departure, K.
    pub margin_k: f64,
}
