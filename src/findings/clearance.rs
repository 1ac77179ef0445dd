//! How cold changes the clearance of the main bearings: an aluminium case shrinks more than a steel crankshaft.

use super::readings::mean;
use crate::trace::{BearingNote, Legend};
use serde::Serialize;

/// Expansion of the cast aluminium case, 1/K.
const CASE_EXPANSION_PER_K: f64 = 23e-6;
/// Expansion of the steel journal, 1/K.
const CRANK_EXPANSION_PER_K: f64 = 12e-6;
/// Clearances are told against this temperature, °C.
const REFERENCE_C: f64 = 20.0;

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

/// The bearings in one row of a legend's columns.
///
/// ```text
/// change = d (23e-6 (T_case - 20) - 12e-6 (T_crank - 20))
/// ```
///
/// with d the diameter of the journal and temperatures in °C. *Source*: expansions of aluminium and steel of the
/// ASM Handbook (from memory; a cast case may have 21e-6).
pub(super) fn clearances(legend: &Legend, row: &[f64]) -> Vec<ClearanceFinding> {
    let finding = |bearing: &BearingNote| {
        let (case_c, crank_c) = (mean(row, &bearing.case), mean(row, &bearing.crank));
        let strain = CASE_EXPANSION_PER_K * (case_c - REFERENCE_C)
            - CRANK_EXPANSION_PER_K * (crank_c - REFERENCE_C);
        ClearanceFinding {
            label: bearing.label.clone(),
            change_um: bearing.diameter_m * strain * 1e6,
            case_c,
            crank_c,
            case_warmer_than_crank: case_c > crank_c,
        }
    };
    legend.bearings.iter().map(finding).collect()
}
