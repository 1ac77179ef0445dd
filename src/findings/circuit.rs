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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::findings::handmade::Handmade;
    use crate::quantity::Power;

    fn circuit(other_w: f64) -> Circuit {
        Circuit {
            other_load: Power::W(other_w),
            ..Circuit::default()
        }
    }
    fn night() -> Handmade {
        Handmade::hours(&[0.0, 12.0])
    }

    #[test]
    fn eighty_percent_of_a_fifteen_ampere_breaker_is_1440_watts() {
        // NEC 210.20(A), V-calc: 15 A at 120 V carries 12 A, 1440 W, as a continuous load.
        let mut night = night();
        night.plugged("fan", 1200.0, 0.0, 9.0);
        let found = CircuitFinding::of(&night.trace(), &circuit(240.0));
        assert_eq!((found.peak_current_a, found.other_current_a), (10.0, 2.0));
        assert_eq!((found.continuous_current_a, found.continuous), (12.0, true));
        assert!((found.continuous_share - 0.8).abs() < 1e-12);
        assert_eq!(found.load_share, found.continuous_share);
    }

    #[test]
    fn a_load_is_continuous_from_three_hours_on() {
        for (hours, continuous) in [(2.99, false), (3.0, true)] {
            let mut night = night();
            night.plugged("fan", 1500.0, 1.0, 1.0 + hours);
            let found = CircuitFinding::of(&night.trace(), &circuit(0.0));
            assert_eq!((found.continuous, found.peak_current_a), (continuous, 12.5));
        }
    }

    #[test]
    fn what_lasts_is_the_load_all_share_for_three_hours() {
        let mut night = night();
        night.plugged("pad", 240.0, 0.0, 6.0);
        night.plugged("fan", 600.0, 2.0, 9.0);
        night.plugged("lamp", 120.0, 4.0, 5.0);
        let found = CircuitFinding::of(&night.trace(), &circuit(0.0));
        // 840 W from 2 to 6 h; 960 W for one hour only.
        assert_eq!(
            (found.continuous_current_a, found.peak_current_a),
            (7.0, 8.0)
        );
    }

    #[test]
    fn heaters_that_take_turns_do_not_add_up() {
        let mut night = night();
        night.plugged("fan", 600.0, 0.0, 4.0);
        night.plugged("pad", 240.0, 4.0, 8.0);
        let found = CircuitFinding::of(&night.trace(), &circuit(0.0));
        assert_eq!(found.peak_current_a, 5.0);
    }

    #[test]
    fn a_thermostats_pauses_do_not_interrupt_but_unplugging_does() {
        let run = |cause: SwitchCause| {
            let mut night = night();
            night.heater("pad", 240.0, &[0.0]);
            for (hour, on) in [(0.0, true), (2.0, false), (2.5, true), (4.5, false)] {
                night.switch(
                    hour,
                    0,
                    on,
                    if hour == 0.0 {
                        SwitchCause::Hours
                    } else {
                        cause
                    },
                );
            }
            CircuitFinding::of(&night.trace(), &circuit(0.0)).continuous
        };
        assert!(run(SwitchCause::Thermostat));
        assert!(!run(SwitchCause::Hours));
    }

    #[test]
    fn what_is_plugged_in_after_the_departure_does_not_count() {
        let mut night = night().leaving(6.0);
        night.plugged("fan", 600.0, 4.0, 12.0);
        night.plugged("late", 1200.0, 7.0, 12.0);
        let found = CircuitFinding::of(&night.trace(), &circuit(0.0));
        assert_eq!((found.peak_current_a, found.continuous), (5.0, false));
    }
}
