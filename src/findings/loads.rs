//! The power that the heaters of a trace take together, span by span.

use crate::trace::{SwitchCause, Trace};

/// A load is continuous when it lasts this long, s.
const CONTINUOUS_S: f64 = 3.0 * 3600.0;
/// Slack for sums of watts and of seconds, so that rounding does not split a run.
pub(super) const ROUNDING: f64 = 1e-6;

/// A span of time and the rated power that was on during it.
pub(super) struct Load {
    from_s: f64,
    to_s: f64,
    pub watts: f64,
}

/// The rated power that was on, span by span until the departure, from the spans of each heater.
pub(super) fn loads(trace: &Trace, spans: impl Fn(usize) -> Vec<(f64, f64)>) -> Vec<Load> {
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
pub(super) fn lasting_w(loads: &[Load]) -> f64 {
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

/// The spans during which a heater was on, or only held off by its thermostat for a while. One that is unplugged while its
/// thermostat holds it off leaves no switching behind and counts as plugged in, which errs on the careful side.
pub(super) fn plugged_spans(trace: &Trace, heater: usize) -> Vec<(f64, f64)> {
    let by_thermostat = |time_s: f64, on: bool| {
        trace.switchings.iter().any(|s| {
            s.heater == heater
                && s.on == on
                && s.cause == SwitchCause::Thermostat
                && s.time_s == time_s
        })
    };
    let mut spans: Vec<(f64, f64)> = Vec::new();
    for (from, to) in trace.on_spans(heater) {
        match spans.last_mut() {
            Some(last) if by_thermostat(last.1, false) && by_thermostat(from, true) => last.1 = to,
            _ => spans.push((from, to)),
        }
    }
    spans
}
