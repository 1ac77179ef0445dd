//! Engine surfaces in the bay that stand below the dew point of the bay's air.

use super::condensation::{BELOW_DEW_K, dew_series};
use super::spans::Spans;
use crate::trace::Trace;
use serde::Serialize;

/// The engine surface that was longest below the dew point of its pocket.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SurfaceCondensation {
    /// The part.
    pub part: String,
    /// What people call it.
    pub label: String,
    /// The pocket of air.
    pub pocket: String,
    /// Hours, from the beginning to the departure, more than 0.1 K below that pocket's dew (frost) point.
    pub hours: f64,
}

impl SurfaceCondensation {
    /// The engine surface longest below its pocket's dew point until the departure; none if none ever was. Of
    /// equals the first is named.
    pub fn of(trace: &Trace) -> Option<Self> {
        let legend = &trace.legend;
        let dews: Vec<Vec<f64>> = (legend.pockets.iter())
            .map(|pocket| dew_series(trace, pocket.temperature, pocket.vapour))
            .collect();
        let mut longest: Option<Self> = None;
        for cell in legend.cells.iter().filter(|cell| cell.engine) {
            for &p in &cell.pockets {
                let below = dews[p].iter().zip(trace.column(cell.column));
                let below = below.map(|(dew, temp)| dew - temp - BELOW_DEW_K);
                let hours = Spans::above_zero(&trace.times_s, below)
                    .until(trace.departure_s)
                    .hours();
                if hours > longest.as_ref().map_or(0.0, |l| l.hours) {
                    longest = Some(Self {
                        part: cell.part.clone(),
                        label: cell.label.clone(),
                        pocket: legend.pockets[p].label.clone(),
                        hours,
                    });
                }
            }
        }
        longest
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::test_traces::Handmade;

    #[test]
    fn the_surface_longest_below_its_own_pockets_dew_point_is_named() {
        // PsychroLib: 20 °C and 10.3720 g/m3 have their dew point at 12.007 °C; the other pocket is dry.
        let mut night = Handmade::hours(&[0.0, 10.0]);
        let damp = night.pocket("rear", &[20.0], &[10.3720]);
        let dry = night.pocket("floor", &[20.0], &[0.0]);
        night.cell("sump", &[-30.0]).pockets = vec![dry];
        night.cell("mags", &[21.907, 1.907]).pockets = vec![dry, damp];
        night.cell("gen", &[21.907, 6.0]).pockets = vec![damp];
        let firewall = night.cell("firewall", &[-30.0]);
        firewall.pockets = vec![damp];
        firewall.engine = false;
        let found = SurfaceCondensation::of(&night.trace()).expect("one is below");
        assert_eq!(
            (found.part.as_str(), found.pocket.as_str()),
            ("mags", "the rear air")
        );
        // It falls 2 K an hour and is 0.1 K below the dew point after 5 h.
        assert!((found.hours - 5.0).abs() < 0.03, "{}", found.hours);
    }

    #[test]
    fn none_is_named_when_none_is_below() {
        let mut night = Handmade::hours(&[0.0, 10.0]);
        let damp = night.pocket("rear", &[20.0], &[10.3720]);
        night.cell("mags", &[11.95]).pockets = vec![damp];
        assert_eq!(SurfaceCondensation::of(&night.trace()), None);
    }
}
