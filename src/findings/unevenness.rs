//! How far the cylinders differ from each other.

use super::readings::mean;
use crate::trace::{Legend, Trace};
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

impl Unevenness {
    /// The spread at the departure, whose columns are `row`, and the largest until then.
    pub fn of(trace: &Trace, row: &[f64]) -> Option<Self> {
        let at_departure_k = spread_k(&trace.legend, row)?;
        let (mut max_k, mut max_at_h) = (at_departure_k, trace.departure_s / 3600.0);
        for (k, &t) in trace.times_s.iter().enumerate() {
            let here = spread_k(&trace.legend, trace.sample(k))?;
            if t < trace.departure_s && here > max_k {
                (max_k, max_at_h) = (here, t / 3600.0);
            }
        }
        Some(Self {
            at_departure_k,
            max_k,
            max_at_h,
        })
    }
}

/// The warmest cylinder minus the coldest in one row, K; none without cylinders.
pub(super) fn spread_k(legend: &Legend, row: &[f64]) -> Option<f64> {
    let cylinders = || legend.cylinders.iter().map(|c| mean(row, &c.columns));
    Some(cylinders().reduce(f64::max)? - cylinders().reduce(f64::min)?)
}
