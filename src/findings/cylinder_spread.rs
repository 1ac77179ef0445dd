//! How far the cylinders differ from each other.

use super::readings::mean;
use crate::trace::{ColumnInfo, Trace};
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
pub(super) fn spread_k(legend: &ColumnInfo, row: &[f64]) -> Option<f64> {
    let cylinders = || legend.cylinders.iter().map(|c| mean(row, &c.columns));
    Some(cylinders().reduce(f64::max)? - cylinders().reduce(f64::min)?)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::test_traces::Handmade;

    #[test]
    fn unevenness_is_warmest_minus_coldest_and_keeps_its_largest() {
        let mut night = Handmade::hours(&[0.0, 1.0, 2.0, 3.0]).leaving(2.0);
        night.cylinder("l1", &[0.0, 10.0, 12.0, 99.0]);
        night.cylinder("r1", &[0.0, -4.0, 7.0, 0.0]);
        night.cylinder("r2", &[0.0, 3.0, 8.0, 0.0]);
        let trace = night.trace();
        let found = Unevenness::of(&trace, trace.sample(2)).expect("there are cylinders");
        assert_eq!(
            (found.at_departure_k, found.max_k, found.max_at_h),
            (5.0, 14.0, 1.0)
        );
        let bare = Handmade::hours(&[0.0]).trace();
        assert_eq!(Unevenness::of(&bare, bare.sample(0)), None);
    }

    #[test]
    fn a_spread_that_is_largest_at_the_departure_or_twice_as_large_has_its_hour() {
        let found = |left: &[f64]| {
            let mut night = Handmade::hours(&[0.0, 1.0, 2.0, 3.0]).leaving(2.0);
            night.cylinder("left", left);
            night.cylinder("right", &[0.0]);
            let trace = night.trace();
            let found = Unevenness::of(&trace, trace.sample(2)).expect("there are cylinders");
            (found.max_k, found.max_at_h)
        };
        assert_eq!(found(&[0.0, 10.0, 12.0, 99.0]), (12.0, 2.0));
        assert_eq!(
            found(&[14.0, 14.0, 5.0, 99.0]),
            (14.0, 0.0),
            "the first of them"
        );
    }
}
