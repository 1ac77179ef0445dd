//! How cold changes the clearance of the main bearings: an aluminium case shrinks more than a steel crankshaft.

use serde::Serialize;

/// One main bearing at the departure.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ClearanceFinding {
    /// What people call it.
    pub label: String,
    /// Change of the diametral clearance against 20 °C, micrometres (negative: tighter).
    pub change_um: f64,
    /// The case around it, °C.
    pub case_c: f64,
    /// Its journal, °C.
    pub crank_c: f64,
    /// Whether the case is warmer than the journal, which loosens it.
    pub case_warmer_than_crank: bool,
}
