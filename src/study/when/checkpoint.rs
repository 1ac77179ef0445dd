//! What a thermometer should read on the way, at a spot a pilot can reach.

use crate::night::Night;
use crate::trace::Trace;

/// How long before the departure the thermometer is read, s.
const BEFORE_S: f64 = 3600.0;
/// The group that is read if the engine has it: the back of the case is reached through the oil door or from
/// beneath, and lags behind the heater. Common practice, no source.
const SPOT: &str = "rear";

/// A reading to take on the way.
#[derive(Debug, Clone, PartialEq)]
pub struct Checkpoint {
    /// When, seconds after the beginning: an hour before the departure, or half-way if the heaters come on later.
    pub time_s: f64,
    /// The key of the group or part that is read.
    pub spot: String,
    /// What people call it.
    pub label: String,
    /// What it should read at least, °C.
    pub temp_c: f64,
    /// How fast it changes from then to the departure, K/h.
    pub rate_k_h: f64,
}

impl Checkpoint {
    /// The reading of a planned night; none without engine parts, or if no heater comes on in it.
    pub fn of(night: &Night) -> Option<Self> {
        let trace = &night.trace;
        let on = trace.switchings.iter().filter(|s| s.on);
        let first_on_s = on.map(|s| s.time_s).reduce(f64::min)?;
        let leave_s = trace.departure_s;
        let time_s = (leave_s - BEFORE_S).max((first_on_s + leave_s) / 2.0);
        let (spot, label, columns) = spot(trace)?;
        let read = |t: f64| -> f64 {
            let row = trace.at(t);
            columns.iter().map(|&(c, weight)| weight * row[c]).sum()
        };
        let temp_c = read(time_s);
        Some(Self {
            time_s,
            spot,
            label,
            temp_c,
            rate_k_h: (read(leave_s) - temp_c) * 3600.0 / (leave_s - time_s),
        })
    }
}

/// A spot: its key, what people call it, and its columns with their weights.
type Spot = (String, String, Vec<(usize, f64)>);

/// The back of the case; without such a group the first group, without groups the first engine part.
fn spot(trace: &Trace) -> Option<Spot> {
    let readings = &trace.legend.readings;
    let group = readings.iter().find(|r| r.key == SPOT).or(readings.first());
    let part = || {
        let cell = trace.legend.cells.iter().find(|cell| cell.engine)?;
        Some((
            cell.part.clone(),
            cell.label.clone(),
            vec![(cell.column, 1.0)],
        ))
    };
    group
        .map(|r| (r.key.clone(), r.label.clone(), r.columns.clone()))
        .or_else(part)
}
