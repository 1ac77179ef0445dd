//! What a thermometer on one engine part should read on the way to the departure.

use crate::night::Night;
use crate::trace::{CellInfo, Trace};

/// How long before the departure it is read, s: late enough to be near the end, early enough to leave later.
const BEFORE_S: f64 = 3600.0;

/// A reading to take on the way, at one part.
#[derive(Debug, Clone, PartialEq)]
pub struct Checkpoint {
    /// When, seconds after the beginning: an hour before the departure, or half-way if the heaters come on later.
    pub time_s: f64,
    /// The engine part: of those that the air round the engine reaches, so that a probe can be put on it, the coldest
    /// at the departure; of all engine parts if air reaches none.
    pub spot: String,
    /// What people call it.
    pub label: String,
    /// Its temperature as computed, °C; of its coldest cell if it is cut into several.
    pub temp_c: f64,
    /// How fast that changes from then to the departure, K/h.
    pub rate_k_h: f64,
}

impl Checkpoint {
    /// The reading of a planned night; none without engine parts, or if no heater comes on in it.
    pub fn of(night: &Night) -> Option<Self> {
        let trace = &night.trace;
        let (time_s, leave_s) = (read_at(trace)?, trace.departure_s);
        let spot = spot(trace)?;
        let temp_c = trace.at(time_s)[spot.column];
        let leaves_c = trace.at(leave_s)[spot.column];
        Some(Self {
            time_s,
            spot: spot.part.clone(),
            label: spot.label.clone(),
            temp_c,
            rate_k_h: (leaves_c - temp_c) * 3600.0 / (leave_s - time_s),
        })
    }
}

/// When a thermometer is read, s after the beginning: an hour before departure, or half-way if the heaters come on later;
/// none if no heater comes on.
pub fn read_at(trace: &Trace) -> Option<f64> {
    let on = trace.switchings.iter().filter(|s| s.on);
    let first_on_s = on.map(|s| s.time_s).reduce(f64::min)?;
    let leave_s = trace.departure_s;
    Some((leave_s - BEFORE_S).max((first_on_s + leave_s) / 2.0))
}

/// Where the thermometer goes.
fn spot(trace: &Trace) -> Option<&CellInfo> {
    let row = trace.at(trace.departure_s);
    let coldest = |reached: bool| {
        let engine = trace.legend.cells.iter().filter(|cell| cell.engine);
        engine
            .filter(|cell| !reached || !cell.pockets.is_empty())
            .min_by(|a, b| row[a.column].total_cmp(&row[b.column]))
    };
    coldest(true).or_else(|| coldest(false))
}
