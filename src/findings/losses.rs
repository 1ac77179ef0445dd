//! Where the heat went during the last hour before the departure.

use super::readings::row_at;
use crate::trace::{LossPath, Trace};
use serde::Serialize;

/// Losses are averaged over this long before the departure, s.
const SPAN_S: f64 = 3600.0;

/// Heat lost by one path.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PathLoss {
    /// The path.
    pub path: LossPath,
    /// Averaged over the last hour before the departure (the whole night if it is shorter), W.
    pub watts: f64,
}

/// The mean loss by every path a trace records, over the last hour before the departure, whose columns are `row`.
pub(super) fn losses(trace: &Trace, row: &[f64]) -> Vec<PathLoss> {
    let span_s = SPAN_S.min(trace.departure_s);
    let before = row_at(trace, trace.departure_s - span_s);
    let loss = |&(path, column): &(LossPath, usize)| PathLoss {
        path,
        watts: (row[column] - before[column]) / span_s,
    };
    trace.legend.losses.iter().map(loss).collect()
}
