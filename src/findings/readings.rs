//! Groups of parts read as one, as a thermometer would.

use crate::trace::{ColumnInfo, ReadingNote, Trace};
use serde::Serialize;

/// The temperature of a group.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct GroupTemperature {
    /// Its key in machine output.
    pub key: String,
    /// What people call it.
    pub label: String,
    /// Its temperature, °C.
    pub temp_c: f64,
}

/// The groups of a legend in one row of its columns.
pub(super) fn groups(legend: &ColumnInfo, row: &[f64]) -> Vec<GroupTemperature> {
    let group = |note: &ReadingNote| GroupTemperature {
        key: note.key.clone(),
        label: note.label.clone(),
        temp_c: mean(row, &note.columns),
    };
    legend.readings.iter().map(group).collect()
}

/// The weighted mean of some columns of a row; the weights sum to one.
pub(super) fn mean(row: &[f64], columns: &[(usize, f64)]) -> f64 {
    columns.iter().map(|&(c, weight)| weight * row[c]).sum()
}

/// The weighted mean of some columns at every sample.
pub(super) fn series(trace: &Trace, columns: &[(usize, f64)]) -> Vec<f64> {
    (0..trace.len())
        .map(|k| mean(trace.sample(k), columns))
        .collect()
}

/// The layers of the oil as columns with equal weights; none without oil.
pub(super) fn oil_columns(legend: &ColumnInfo) -> Option<Vec<(usize, f64)>> {
    let layers = &legend.oil.as_ref()?.layers;
    let weight = 1.0 / layers.len() as f64;
    (!layers.is_empty()).then(|| layers.iter().map(|&c| (c, weight)).collect())
}

/// All columns at a time; not-a-number throughout if nothing was recorded.
pub(super) fn row_at(trace: &Trace, time_s: f64) -> Vec<f64> {
    if trace.is_empty() {
        return vec![f64::NAN; trace.legend.columns.len()];
    }
    trace.at(time_s)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::test_traces::Handmade;

    #[test]
    fn a_group_is_the_weighted_mean_of_its_columns() {
        let mut night = Handmade::hours(&[0.0, 1.0]);
        let head = night.cell("head", &[0.0, 20.0]).column;
        let barrel = night.cell("barrel", &[0.0, 10.0]).column;
        night.reading("cylinder", &[head, barrel]);
        let trace = night.trace();
        assert_eq!(groups(&trace.legend, trace.sample(1))[0].temp_c, 15.0);
        assert_eq!(
            series(&trace, &trace.legend.readings[0].columns),
            [0.0, 15.0]
        );
        assert_eq!(row_at(&trace, 1800.0)[head], 10.0);
    }
}
