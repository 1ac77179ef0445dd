//! Every part of the engine and its bay: how warm at the departure, and since when.

use super::threshold::{CrossingTimes, first_on_s};
use crate::trace::{CellInfo, Trace};
use serde::Serialize;
use std::collections::BTreeMap;

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
    pub reached: CrossingTimes,
    /// Its coldest cell over the threshold at the departure, K.
    pub margin_k: f64,
}

/// Every part of a trace, in the order of its first cells; `row` are all columns at the departure.
pub(super) fn parts(trace: &Trace, row: &[f64], threshold_c: f64) -> Vec<PartFinding> {
    let mut cells: BTreeMap<&str, Vec<&CellInfo>> = BTreeMap::new();
    let mut order = Vec::new();
    for cell in &trace.legend.cells {
        let of_part = cells.entry(&cell.part).or_default();
        if of_part.is_empty() {
            order.push(cell.part.as_str());
        }
        of_part.push(cell);
    }
    let from_s = first_on_s(trace);
    let part = |name| part(trace, &cells[name], row, threshold_c, from_s);
    order.into_iter().map(part).collect()
}

fn part(
    trace: &Trace,
    cells: &[&CellInfo],
    row: &[f64],
    threshold_c: f64,
    from_s: f64,
) -> PartFinding {
    let lowest = |row: &[f64]| {
        let temps = cells.iter().map(|c| row[c.column]);
        temps.fold(f64::INFINITY, f64::min)
    };
    let series: Vec<f64> = (0..trace.len()).map(|k| lowest(trace.sample(k))).collect();
    let capacity: f64 = cells.iter().map(|c| c.heat_capacity_j_per_k).sum();
    let heat = cells
        .iter()
        .map(|c| c.heat_capacity_j_per_k * row[c.column]);
    let min_c = lowest(row);
    PartFinding {
        part: cells[0].part.clone(),
        label: cells[0].label.clone(),
        engine: cells[0].engine,
        temp_c: if capacity > 0.0 && cells.len() > 1 {
            heat.sum::<f64>() / capacity
        } else {
            min_c
        },
        min_c,
        reached: CrossingTimes::of(&trace.times_s, &series, threshold_c, from_s),
        margin_k: min_c - threshold_c,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::test_traces::Handmade;

    #[test]
    fn the_coldest_cell_of_a_part_decides_and_the_mean_is_weighted() {
        let mut night = Handmade::hours(&[0.0, 1.0, 2.0]);
        night.cell("case", &[0.0, 10.0, 10.0]).heat_capacity_j_per_k = 3000.0;
        night.cell("sump", &[0.0, 4.0, 8.0]);
        night.cell("case", &[0.0, 0.0, 6.0]);
        let trace = night.trace();
        let found = parts(&trace, trace.sample(2), 3.0);
        assert_eq!(found.len(), 2);
        let case = &found[0];
        assert_eq!(
            (case.part.as_str(), case.temp_c, case.min_c),
            ("case", 9.0, 6.0)
        );
        assert_eq!((case.margin_k, case.reached.hold.hours()), (3.0, Some(1.5)));
        assert_eq!((found[1].temp_c, found[1].min_c), (8.0, 8.0));
        assert_eq!(found[1].reached.first.hours(), Some(0.75));
    }

    /// Weighing one cell by its heat capacity would bend its last digit: 1234 x -7.7 / 1234 is -7.700000000000001.
    #[test]
    fn a_part_in_one_piece_is_as_warm_as_its_coldest_cell_to_the_last_digit() {
        let mut night = Handmade::hours(&[0.0]);
        night.cell("sump", &[-7.7]).heat_capacity_j_per_k = 1234.0;
        let trace = night.trace();
        let sump = parts(&trace, trace.sample(0), 4.0).remove(0);
        assert_eq!((sump.temp_c, sump.min_c), (-7.7, -7.7));
    }

    #[test]
    fn a_cut_part_whose_cells_hold_no_heat_is_told_by_its_coldest_cell() {
        let mut night = Handmade::hours(&[0.0]);
        for temp_c in [5.0, 2.0] {
            night.cell("baffle", &[temp_c]).heat_capacity_j_per_k = 0.0;
        }
        let trace = night.trace();
        let baffle = parts(&trace, trace.sample(0), 4.0).remove(0);
        assert_eq!((baffle.temp_c, baffle.min_c), (2.0, 2.0));
    }
}
