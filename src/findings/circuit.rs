//! What the circuit had to carry, and for how long.
//!
//! *Source* of the three hours and of the 80 percent of the breaker: NEC Art. 100 and 210.20(A) (continuous load;
//! article numbers from memory). Local codes decide.

use crate::scenario::circuit::Circuit;
use crate::trace::{SwitchCause, Trace};
use serde::Serialize;

/// A load is continuous when it lasts this long, s.
const CONTINUOUS_S: f64 = 3.0 * 3600.0;
/// Slack for sums of watts and of seconds, so that rounding does not split a run.
const ROUNDING: f64 = 1e-6;

/// Currents from the beginning to the departure, from the rated power of the heaters that were on at once.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CircuitFinding {
    /// The largest current of the heaters, A.
    pub peak_current_a: f64,
    /// Current of whatever else is on the circuit, A.
    pub other_current_a: f64,
    /// Rating of the breaker, A.
    pub breaker_a: f64,
    /// The largest current with the other load, over the rating of the breaker.
    pub load_share: f64,
    /// The largest current with the other load that lasted three hours or more, A. A thermostat's pauses do not
    /// interrupt it: on a colder night there would be none.
    pub continuous_current_a: f64,
    /// That current over the rating of the breaker; good practice keeps it to 0.8.
    pub continuous_share: f64,
    /// Whether any heater current lasted three hours or more.
    pub continuous: bool,
}

impl CircuitFinding {
    /// What the heaters of a trace asked of a circuit until the departure.
    pub fn of(trace: &Trace, circuit: &Circuit) -> Self {
        let volts = circuit.volts.si();
        let breaker_a = circuit.breaker.si();
        let other_current_a = circuit.other_load.si() / volts;
        let on = loads(trace, |heater| trace.on_spans(heater));
        let peak_current_a = on.iter().map(|l| l.watts).fold(0.0, f64::max) / volts;
        let plugged = loads(trace, |heater| plugged_spans(trace, heater));
        let lasting_a = lasting_w(&plugged) / volts;
        let continuous_current_a = lasting_a + other_current_a;
        Self {
            peak_current_a,
            other_current_a,
            breaker_a,
            load_share: (peak_current_a + other_current_a) / breaker_a,
            continuous_current_a,
            continuous_share: continuous_current_a / breaker_a,
            continuous: lasting_a > 0.0,
        }
    }
}

/// A span of time and the rated power that was on during it.
struct Load {
    from_s: f64,
    to_s: f64,
    watts: f64,
}

/// The rated power that was on, span by span until the departure, from the spans of each heater.
fn loads(trace: &Trace, spans: impl Fn(usize) -> Vec<(f64, f64)>) -> Vec<Load> {
    let mut edges = Vec::new();
    for (h, note) in trace.legend.heaters.iter().enumerate() {
        for (from, to) in spans(h) {
            if from < trace.departure_s {
                edges.push((from, note.rated_w));
                edges.push((to.min(trace.departure_s), -note.rated_w));
            }
        }
    }
    // Off before on: heaters that take turns do not overlap.
    edges.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
    let mut watts = 0.0;
    let mut loads = Vec::new();
    for pair in edges.windows(2) {
        watts += pair[0].1;
        if pair[1].0 > pair[0].0 {
            loads.push(Load {
                from_s: pair[0].0,
                to_s: pair[1].0,
                watts,
            });
        }
    }
    loads
}

/// The largest power that was on for three hours or more without a break, W.
fn lasting_w(loads: &[Load]) -> f64 {
    let lasts = |least_w: f64| {
        let mut run_s = 0.0;
        loads.iter().any(|l| {
            let enough = l.watts >= least_w - ROUNDING;
            run_s = if enough {
                run_s + l.to_s - l.from_s
            } else {
                0.0
            };
            run_s >= CONTINUOUS_S - ROUNDING
        })
    };
    let levels = loads.iter().map(|l| l.watts);
    levels
        .filter(|&w| w > ROUNDING && lasts(w))
        .fold(0.0, f64::max)
}

/// The spans during which a heater was on, or only held off by its thermostat for a while.
fn plugged_spans(trace: &Trace, heater: usize) -> Vec<(f64, f64)> {
    let resumed = |time_s: f64| {
        trace.switchings.iter().any(|s| {
            s.heater == heater && s.on && s.cause == SwitchCause::Thermostat && s.time_s == time_s
        })
    };
    let mut spans: Vec<(f64, f64)> = Vec::new();
    for (from, to) in trace.on_spans(heater) {
        match spans.last_mut() {
            Some(last) if resumed(from) => last.1 = to,
            _ => spans.push((from, to)),
        }
    }
    spans
}
