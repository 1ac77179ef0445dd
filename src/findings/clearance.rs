//! How cold changes the clearance of the main bearings: an aluminium case shrinks more than a steel crankshaft.

use super::readings::mean;
use crate::trace::{BearingNote, ColumnInfo};
use serde::Serialize;

/// Expansion of the cast aluminium case, 1/K.
const CASE_EXPANSION_PER_K: f64 = 23e-6;
/// Expansion of the steel journal, 1/K.
const CRANK_EXPANSION_PER_K: f64 = 12e-6;
/// Clearances are given against this temperature, °C.
pub const REFERENCE_C: f64 = 20.0;

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
pub(super) fn clearances(legend: &ColumnInfo, row: &[f64]) -> Vec<ClearanceFinding> {
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::test_traces::Handmade;

    fn change_um(case_c: f64, crank_c: f64) -> ClearanceFinding {
        let mut night = Handmade::hours(&[0.0]);
        night.bearing(&[case_c], &[crank_c]);
        let trace = night.trace();
        clearances(&trace.legend, trace.sample(0)).remove(0)
    }

    #[test]
    fn a_cold_case_grips_the_crankshaft_as_worked_by_hand() {
        // 50 mm, 40 K colder than 20 °C both: 0.05 x 11e-6 x -40 = -22 um.
        assert!((change_um(-20.0, -20.0).change_um + 22.0).abs() < 1e-9);
        // Case -10, crank -15: 0.05 x (-690e-6 + 420e-6) = -13.5 um.
        assert!((change_um(-10.0, -15.0).change_um + 13.5).abs() < 1e-9);
        assert_eq!(change_um(20.0, 20.0).change_um, 0.0);
    }

    #[test]
    fn warming_the_case_first_loosens_it_and_the_sign_is_told() {
        let case_first = change_um(10.0, -10.0);
        let crank_first = change_um(-10.0, 10.0);
        assert!(case_first.change_um > change_um(-10.0, -10.0).change_um);
        assert!(crank_first.change_um < change_um(-10.0, -10.0).change_um);
        assert!(case_first.case_warmer_than_crank && !crank_first.case_warmer_than_crank);
        assert!(!change_um(5.0, 5.0).case_warmer_than_crank);
    }
}
