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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::test_traces::Handmade;

    #[test]
    fn losses_are_averaged_over_the_last_hour_before_the_departure() {
        let mut night = Handmade::hours(&[0.0, 1.0, 2.0, 3.0, 4.0]).leaving(3.5);
        // 3.6 MJ an hour is a kilowatt; the last hour lies half in one span and half in the next.
        night.loss(LossPath::Gaps, &[0.0, 3.6e6, 7.2e6, 7.56e6, 8.64e6]);
        night.loss(LossPath::Skins, &[0.0, 0.0, 0.0, 0.36e6, 0.72e6]);
        let trace = night.trace();
        let found = losses(&trace, &trace.at(trace.departure_s));
        assert_eq!(found[0].path, LossPath::Gaps);
        assert!((found[0].watts - 200.0).abs() < 1e-9, "{}", found[0].watts);
        assert!((found[1].watts - 100.0).abs() < 1e-9);
    }

    #[test]
    fn a_night_of_half_an_hour_is_averaged_whole() {
        let mut night = Handmade::hours(&[0.0, 0.5]);
        night.loss(LossPath::Duct, &[0.0, 0.36e6]);
        let trace = night.trace();
        assert!((losses(&trace, trace.sample(1))[0].watts - 200.0).abs() < 1e-9);
    }
}
