//! The coldest engine part at an instant.

use crate::trace::{ColumnInfo, Trace};
use serde::Serialize;

/// Parts closer than this to the coldest share its rank, K; the earlier one is named. The
/// temperature given is the lowest all the same.
const TIE_K: f64 = 0.05;

/// The coldest engine part.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Coldest {
    /// The part; the first in the order of the engine of those within 0.05 K of the lowest.
    pub part: String,
    /// What people call it.
    pub label: String,
    /// The lowest temperature among engine parts, °C.
    pub temp_c: f64,
}

impl Coldest {
    /// The coldest engine part in one row of a legend's columns; none if there is no engine part.
    pub fn of(legend: &ColumnInfo, row: &[f64]) -> Option<Self> {
        let lowest = lowest(legend, row)?;
        let named = legend
            .cells
            .iter()
            .find(|cell| cell.engine && row[cell.column] <= lowest + TIE_K)?;
        Some(Self {
            part: named.part.clone(),
            label: named.label.clone(),
            temp_c: lowest,
        })
    }
}

/// The lowest temperature among engine parts in one row, °C.
fn lowest(legend: &ColumnInfo, row: &[f64]) -> Option<f64> {
    let engine = legend.cells.iter().filter(|cell| cell.engine);
    engine.map(|cell| row[cell.column]).reduce(f64::min)
}

/// The lowest temperature among engine parts at every sample, °C; empty if there is no engine part.
pub(super) fn lowest_series(trace: &Trace) -> Vec<f64> {
    (0..trace.len())
        .filter_map(|k| lowest(&trace.legend, trace.sample(k)))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::test_traces::Handmade;

    fn named(temps_c: [f64; 3]) -> Coldest {
        let mut night = Handmade::hours(&[0.0]);
        for (name, temp) in ["nose", "sump", "carb"].into_iter().zip(temps_c) {
            night.cell(name, &[temp]);
        }
        night.cell("skin", &[-30.0]).engine = false;
        let trace = night.trace();
        Coldest::of(&trace.legend, trace.sample(0)).expect("there are engine parts")
    }

    #[test]
    fn a_tie_within_a_twentieth_of_a_kelvin_goes_to_the_earlier_part() {
        assert_eq!(named([3.0, 1.04, 1.0]).part, "sump");
        assert_eq!(named([3.0, 1.06, 1.0]).part, "carb");
        assert_eq!(named([1.0, 1.04, 1.0]).label, "the nose");
    }

    #[test]
    fn the_value_is_the_lowest_whoever_is_named() {
        assert_eq!(named([3.0, 1.04, 1.0]).temp_c, 1.0);
    }

    #[test]
    fn without_engine_parts_none_is_coldest() {
        let mut night = Handmade::hours(&[0.0]);
        night.cell("skin", &[-30.0]).engine = false;
        let trace = night.trace();
        assert_eq!(Coldest::of(&trace.legend, trace.sample(0)), None);
        assert!(lowest_series(&trace).is_empty());
    }
}
