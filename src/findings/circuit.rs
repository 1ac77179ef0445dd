//! What the circuit had to carry, for how long, and what the cord cost of it.
//!
//! *Source*: NEC Art. 100 (a load of three hours or more is continuous), 210.20(A) (the breaker holds what is on for
//! less, and 125 percent of what is continuous) and 210.23(A)(1) (no one appliance on a cord takes more than 80 percent);
//! article numbers from memory. Local codes decide.

use super::cord::CordFinding;
use super::loads::{ROUNDING, lasting_w, loads, plugged_spans};
use crate::scenario::circuit::Circuit;
use crate::trace::Trace;
use serde::Serialize;

/// A continuous load, or an appliance on a cord, should stay within this share of the breaker.
pub const CONTINUOUS_SHARE: f64 = 0.8;
/// What a continuous load asks for besides itself, of itself: with it, 80 percent are full.
const CONTINUOUS_EXTRA: f64 = 0.25;

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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Power;
    use crate::test_traces::Handmade;
    use crate::trace::SwitchCause;

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
