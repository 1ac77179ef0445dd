//! What the circuit had to carry, for how long, and what the cord cost of it.
//!
//! *Source*: NEC Art. 100 (a load of three hours or more is continuous), 210.20(A) (the breaker holds what is on for
//! less, and 125 percent of what is continuous) and 210.23(A)(1) (no one appliance on a cord takes more than 80 percent);
//! article numbers from memory. Local codes decide.

use crate::physics::wire::ohm_per_m;
use crate::scenario::circuit::{Circuit, Cord};
use crate::trace::{SwitchCause, Trace};
use serde::Serialize;

/// A load is continuous when it lasts this long, s.
const CONTINUOUS_S: f64 = 3.0 * 3600.0;
/// A continuous load, or an appliance on a cord, should stay within this share of the breaker.
pub const CONTINUOUS_SHARE: f64 = 0.8;
/// What a continuous load asks for besides itself, of itself: with it, 80 percent are full.
const CONTINUOUS_EXTRA: f64 = 0.25;
/// The temperature a cord's wires are taken at, °C: tables are made for it. Warm wires lose 0.4 percent more a kelvin.
const CORD_C: f64 = 20.0;
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
    /// The breaker that this asks for, A: the largest current with the other load, and a quarter of what is continuous.
    pub needed_breaker_a: f64,
    /// Mains voltage, V.
    pub volts: f64,
    /// Each heater's current, in the order of the scenario.
    pub heaters: Vec<HeaterCurrent>,
    /// What the cord takes of it, if there is one.
    pub cord: Option<CordFinding>,
}

/// The current of one heater.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct HeaterCurrent {
    /// The heater.
    pub name: String,
    /// Its rated current, A.
    pub amps: f64,
    /// Whether it was on at any time.
    #[serde(skip)]
    pub ever_on: bool,
    /// How many such heaters the circuit may carry at once beside its other load, within 80 percent of the breaker.
    pub at_most: usize,
}

/// A drop above this share of the mains is worth a word. *Source*: NEC 210.19(A), informational note (from memory).
pub const DROP_WORTH_A_WORD: f64 = 0.03;

/// What a cord takes when the largest current of the heaters runs through it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CordFinding {
    /// Its length, one way, m.
    pub length_m: f64,
    /// The gauge of its wires.
    pub gauge_awg: u32,
    /// The voltage lost in both wires, V.
    pub drop_v: f64,
    /// That voltage over the mains.
    pub drop_share: f64,
    /// The share of its rated power that a resistive heater is left with.
    pub power_share: f64,
}

impl CordFinding {
    /// What a cord takes at a current.
    ///
    /// ```text
    /// drop = 2 L R I        power left = (1 - drop/V)^2
    /// ```
    ///
    /// The current is the rated one, so a long thin cord takes a little less than given. The night itself is computed
    /// with the full power. *Checked by* `the_published_drops_come_out`, within 0.3 percent.
    fn of(cord: Cord, amps: f64, volts: f64) -> Self {
        let length_m = cord.length.si();
        let drop_v = 2.0 * length_m * ohm_per_m(cord.gauge_awg, CORD_C) * amps;
        let left = (1.0 - drop_v / volts).max(0.0);
        Self {
            length_m,
            gauge_awg: cord.gauge_awg,
            drop_v,
            drop_share: drop_v / volts,
            power_share: left * left,
        }
    }
}

impl CircuitFinding {
    /// What the heaters of a trace draw from a circuit until the departure.
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
            needed_breaker_a: peak_current_a
                + other_current_a
                + if lasting_a > 0.0 {
                    CONTINUOUS_EXTRA * continuous_current_a
                } else {
                    0.0
                },
            volts,
            heaters: heaters(trace, breaker_a, other_current_a, volts),
            cord: circuit
                .cord
                .map(|cord| CordFinding::of(cord, peak_current_a, volts)),
        }
    }
}

impl CircuitFinding {
    /// Whether the breaker should not carry this: more than it holds, more of a continuous load than it should, or one
    /// heater that takes too much of it.
    pub fn overloaded(&self) -> bool {
        let heaters_on = self.peak_current_a > 0.0;
        heaters_on
            && (self.needed_breaker_a > self.breaker_a + ROUNDING || self.too_large().is_some())
    }

    /// The first heater that takes more than 80 percent of the breaker by itself.
    pub fn too_large(&self) -> Option<&HeaterCurrent> {
        let most = CONTINUOUS_SHARE * self.breaker_a + ROUNDING;
        self.heaters.iter().find(|h| h.ever_on && h.amps > most)
    }
}

fn heaters(trace: &Trace, breaker_a: f64, other_a: f64, volts: f64) -> Vec<HeaterCurrent> {
    let free_a = (CONTINUOUS_SHARE * breaker_a - other_a).max(0.0);
    let heaters = trace.legend.heaters.iter().enumerate();
    heaters
        .filter(|(_, note)| note.rated_w > 0.0)
        .map(|(heater, note)| HeaterCurrent {
            ever_on: trace
                .on_spans(heater)
                .iter()
                .any(|(from, _)| *from < trace.departure_s),
            name: note.name.clone(),
            amps: note.rated_w / volts,
            at_most: (free_a * volts / note.rated_w + ROUNDING).floor() as usize,
        })
        .collect()
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

/// The spans during which a heater was on, or only held off by its thermostat for a while. One that is unplugged while its
/// thermostat holds it off leaves no switching behind and counts as plugged in, which errs on the careful side.
fn plugged_spans(trace: &Trace, heater: usize) -> Vec<(f64, f64)> {
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Power;
    use crate::test_traces::Handmade;

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

    /// NEC 210.20(A) (from memory): 12.5 A for two hours beside 2.1 A all night ask for 14.6 + 0.25 x 2.1 = 15.1 A, more
    /// than 15. 1440 W by itself are 80 percent of 15 A; 1500 W are more, whatever the hours (210.23(A)(1)).
    #[test]
    fn what_is_continuous_counts_a_quarter_more_and_no_appliance_takes_more_than_eighty_percent() {
        let with = |brief_w: f64, lasting_w: f64| {
            let mut night = night();
            night.plugged("pad", lasting_w, 0.0, 12.0);
            night.plugged("fan", brief_w, 9.0, 11.0);
            CircuitFinding::of(&night.trace(), &circuit(0.0))
        };
        let both = with(1440.0, 252.0);
        assert!(
            (both.needed_breaker_a - (14.1 + 0.25 * 2.1)).abs() < 1e-9,
            "{both:?}"
        );
        assert!(!both.overloaded());
        assert!(with(1440.0, 300.0).overloaded(), "12 + 2.5 + 0.6 A");
        let alone = with(1500.0, 0.0);
        assert!(!alone.continuous && alone.overloaded() && alone.load_share < 1.0);
        assert_eq!(alone.too_large().map(|h| h.name.as_str()), Some("fan"));
        assert!(!with(1440.0, 0.0).overloaded());
    }

    /// The rest of the circuit counts in both: 10 + 1 + 0.25 x 11 = 13.75 A; 12 A all night ask for 15 A and get them.
    #[test]
    fn the_breaker_asked_for_holds_the_other_load_and_may_be_filled() {
        let with = |watts: f64, other_w: f64| {
            let mut night = night();
            night.plugged("fan", watts, 0.0, 12.0);
            CircuitFinding::of(&night.trace(), &circuit(other_w))
        };
        assert!((with(1200.0, 120.0).needed_breaker_a - 13.75).abs() < 1e-9);
        let full = with(1440.0, 0.0);
        assert_eq!((full.needed_breaker_a, full.overloaded()), (15.0, false));
        let unheated = CircuitFinding::of(&night().trace(), &circuit(2400.0));
        assert!(!unheated.overloaded(), "20 A, and none of them a heater's");
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

    /// NEC Art. 100 (from memory) asks how long the circuit carries a current, not which heater takes it: 5 A for two
    /// hours and 5 A of another heater for the next two are 5 A for four hours; with a minute between them they are not.
    #[test]
    fn heaters_that_take_turns_without_a_pause_load_the_circuit_for_hours() {
        let lasting_a = |pause_h: f64| {
            let mut night = night();
            night.plugged("fan", 600.0, 1.0, 3.0);
            night.plugged("pad", 600.0, 3.0 + pause_h, 5.0 + pause_h);
            CircuitFinding::of(&night.trace(), &circuit(0.0)).continuous_current_a
        };
        assert_eq!((lasting_a(0.0), lasting_a(1.0 / 60.0)), (5.0, 0.0));
    }

    #[test]
    fn a_thermostats_pauses_do_not_interrupt_but_unplugging_does() {
        use SwitchCause::{Hours, Thermostat};
        let run = |off: SwitchCause, on_again: SwitchCause| {
            let mut night = night();
            night.heater("pad", 240.0, &[0.0]);
            night.switch(0.0, 0, true, Hours);
            night.switch(2.0, 0, false, off);
            night.switch(2.5, 0, true, on_again);
            night.switch(4.5, 0, false, Hours);
            CircuitFinding::of(&night.trace(), &circuit(0.0)).continuous
        };
        assert!(run(Thermostat, Thermostat));
        assert!(!run(Hours, Hours));
        // Plugged in again while its sensor was still warm.
        assert!(!run(Hours, Thermostat));
    }

    #[test]
    fn what_is_plugged_in_after_the_departure_does_not_count() {
        let mut night = night().leaving(6.0);
        night.plugged("fan", 600.0, 4.0, 12.0);
        night.plugged("late", 1200.0, 7.0, 12.0);
        let found = CircuitFinding::of(&night.trace(), &circuit(0.0));
        assert_eq!((found.peak_current_a, found.continuous), (5.0, false));
        let mut night = self::night().leaving(6.0);
        night.plugged("too large", 2400.0, 6.0, 12.0);
        let at_the_departure = CircuitFinding::of(&night.trace(), &circuit(0.0));
        assert_eq!(at_the_departure.too_large(), None);
    }

    /// Drops on 120 V worked out from wire tables (2 x length x ohm/m x A; ohm/m as tested in `physics::wire`):
    /// 50 ft of 18 AWG at 5 A lose 3.19 V (2.66 percent), of 14 AWG at 10 A 2.53 V, 100 ft of 12 AWG at 12.5 A 3.97 V.
    #[test]
    fn the_published_drops_come_out() {
        for (feet, gauge_awg, amps, drop_v) in [
            (50.0, 18, 5.0, 3.19),
            (50.0, 14, 10.0, 2.53),
            (100.0, 12, 12.5, 3.97),
        ] {
            let length = crate::quantity::Length::ft(feet);
            let found = CordFinding::of(Cord { length, gauge_awg }, amps, 120.0);
            assert!((found.drop_v / drop_v - 1.0).abs() < 3e-3, "{found:?}");
            assert!((found.drop_share - found.drop_v / 120.0).abs() < 1e-12);
        }
    }

    /// A drop of 5 percent leaves a resistive heater 90 percent of its power (power falls as the voltage squared).
    #[test]
    fn a_drop_of_five_percent_leaves_ninety_percent_of_the_power() {
        let at_one = CordFinding::of(
            Cord {
                length: crate::quantity::Length::m(100.0),
                gauge_awg: 14,
            },
            1.0,
            120.0,
        );
        let found = CordFinding::of(
            Cord {
                length: crate::quantity::Length::m(100.0),
                gauge_awg: 14,
            },
            6.0 / at_one.drop_v,
            120.0,
        );
        assert!((found.power_share - 0.9025).abs() < 1e-12, "{found:?}");
    }

    /// 12 A of 15 A (NEC 210.23(A)(1), from memory): four fans of 350 W (2.92 A each), three beside 240 W of other load.
    #[test]
    fn heaters_share_eighty_percent_of_the_breaker() {
        let at_most = |other_w: f64| {
            let mut night = night();
            night.plugged("fan", 350.0, 0.0, 9.0);
            night.heater("unplugged", 1440.0, &[0.0]);
            night.heater("of no watts", 0.0, &[0.0]);
            let found = CircuitFinding::of(&night.trace(), &circuit(other_w));
            assert_eq!(found.heaters.len(), 2, "what takes nothing is left out");
            assert!((found.heaters[0].amps - 350.0 / 120.0).abs() < 1e-12);
            (found.heaters[0].at_most, found.heaters[1].at_most)
        };
        assert_eq!((at_most(0.0), at_most(240.0)), ((4, 1), (3, 0)));
    }
}
