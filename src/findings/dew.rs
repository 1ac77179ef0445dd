//! Engine surfaces in the bay that stand below the dew point of the bay's air.

use super::condensation::{BELOW_DEW_K, dew_series};
use super::spans::Spans;
use crate::trace::Trace;
use serde::Serialize;

/// The engine surface that was longest below the dew point of its pocket.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct OutsideDew {
    /// The part.
    pub part: String,
    /// What people call it.
    pub label: String,
    /// The pocket of air.
    pub pocket: String,
    /// Hours, from the beginning to the departure, more than 0.1 K below that pocket's dew (frost) point.
    pub hours: f64,
}

impl OutsideDew {
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
