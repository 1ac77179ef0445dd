//! When a circuit deserves a warning.

use super::circuit::{CONTINUOUS_SHARE, CircuitFinding};
use super::cord::DROP_WORTH_A_WORD;
use super::warnings::Warning;

/// Slack for sums of currents.
const ROUNDING: f64 = 1e-9;

impl CircuitFinding {
    /// Every warning about the circuit.
    pub(super) fn warnings(&self) -> Vec<Warning> {
        let all = [
            self.long_load(),
            self.beside_continuous(),
            self.large_heater(),
            self.over_breaker(),
            self.long_cord(),
        ];
        all.into_iter().flatten().collect()
    }

    fn long_load(&self) -> Option<Warning> {
        let over = self.continuous_share > CONTINUOUS_SHARE + ROUNDING;
        (self.continuous && over).then_some(Warning::ContinuousLoad {
            current_a: self.continuous_current_a,
            breaker_a: self.breaker_a,
        })
    }

    /// Where neither what is continuous nor the whole is too much by itself.
    fn beside_continuous(&self) -> Option<Warning> {
        let warned = self.long_load().is_some() || self.over_breaker().is_some();
        let over = self.needed_breaker_a > self.breaker_a + ROUNDING;
        (over && self.continuous && !warned).then_some(Warning::LoadBesideContinuous {
            current_a: self.peak_current_a + self.other_current_a,
            continuous_a: self.continuous_current_a,
            needed_a: self.needed_breaker_a,
            breaker_a: self.breaker_a,
        })
    }

    /// Where the breaker holds it and it is not on for hours, which has a warning of its own.
    fn large_heater(&self) -> Option<Warning> {
        let warned = self.long_load().is_some() || self.over_breaker().is_some();
        let heater = self.too_large().filter(|_| !warned)?;
        Some(Warning::LargeHeater {
            name: heater.name.clone(),
            current_a: heater.amps,
            breaker_a: self.breaker_a,
        })
    }

    fn over_breaker(&self) -> Option<Warning> {
        let over = self.peak_current_a > 0.0 && self.load_share > 1.0 + ROUNDING;
        over.then_some(Warning::OverBreaker {
            current_a: self.peak_current_a + self.other_current_a,
            breaker_a: self.breaker_a,
        })
    }

    /// The night is computed with the full power, whatever a cord takes of it.
    fn long_cord(&self) -> Option<Warning> {
        let cord = self.cord.as_ref();
        let cord = cord.filter(|cord| cord.drop_share > DROP_WORTH_A_WORD)?;
        Some(Warning::LongCord {
            drop_share: cord.drop_share,
            power_share: cord.power_share,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Length, Power};
    use crate::scenario::circuit::{Circuit, Cord};
    use crate::test_traces::Handmade;

    fn warned(night: Handmade, other_w: f64) -> Vec<Warning> {
        let circuit = Circuit {
            other_load: Power::W(other_w),
            ..Circuit::default()
        };
        CircuitFinding::of(&night.trace(), &circuit).warnings()
    }

    #[test]
    fn eighty_percent_for_three_hours_is_no_warning_and_a_watt_more_is() {
        let warnings = |watts: f64, hours: f64, other_w: f64| {
            let mut night = Handmade::hours(&[0.0, 9.0]);
            night.plugged("fan", watts, 0.0, hours);
            warned(night, other_w)
        };
        assert_eq!(warnings(1200.0, 3.0, 240.0), []);
        assert_eq!(warnings(1201.0, 2.9, 240.0), []);
        let over = warnings(1201.0, 3.0, 240.0);
        assert!(
            matches!(
                over[..],
                [Warning::ContinuousLoad {
                    breaker_a: 15.0,
                    ..
                }]
            ),
            "{over:?}"
        );
        // Within the breaker and brief, but 12.5 A of 15 A by one appliance.
        assert_eq!(warnings(1440.0, 1.0, 300.0), []);
        let large = warnings(1500.0, 1.0, 300.0);
        assert!(
            matches!(&large[..], [Warning::LargeHeater { name, .. }] if name == "fan"),
            "{large:?}"
        );
        let trips = warnings(1500.0, 1.0, 330.0);
        let [Warning::OverBreaker { current_a, .. }] = trips[..] else {
            panic!("{trips:?}");
        };
        assert!((current_a - 15.25).abs() < 1e-12);
    }

    /// 12 A for two hours beside 2.5 A all night (0.5 A of them the other load) ask for 15.1 A (NEC 210.20(A), from memory).
    #[test]
    fn what_comes_on_beside_a_continuous_load_is_counted_with_it() {
        let mut night = Handmade::hours(&[0.0, 9.0]);
        night.plugged("pad", 240.0, 0.0, 9.0);
        night.plugged("fan", 1440.0, 5.0, 7.0);
        let found = warned(night, 60.0);
        let [
            Warning::LoadBesideContinuous {
                current_a,
                continuous_a,
                needed_a,
                ..
            },
        ] = found[..]
        else {
            panic!("{found:?}");
        };
        assert!((needed_a - 15.125).abs() < 1e-9);
        assert_eq!((current_a, continuous_a), (14.5, 2.5));
    }

    #[test]
    fn without_a_heater_the_rest_of_the_circuit_is_not_our_business() {
        assert_eq!(warned(Handmade::hours(&[0.0, 9.0]), 2400.0), []);
    }

    /// 12 A through 100 ft of 16 AWG lose more than 3 percent, through 10 ft of 12 AWG less.
    #[test]
    fn a_cord_that_takes_too_much_is_told() {
        let found = |feet: f64, gauge_awg: u32| {
            let mut night = Handmade::hours(&[0.0, 9.0]);
            night.plugged("fan", 1440.0, 0.0, 1.0);
            let cord = Cord {
                length: Length::ft(feet),
                gauge_awg,
            };
            let circuit = Circuit {
                cord: Some(cord),
                ..Circuit::default()
            };
            CircuitFinding::of(&night.trace(), &circuit).warnings()
        };
        let long = found(100.0, 16);
        let [Warning::LongCord { power_share, .. }] = long[..] else {
            panic!("{long:?}");
        };
        assert!(power_share < 0.94, "{power_share}");
        assert_eq!(found(10.0, 12), []);
    }

    /// NEC 210.19(A), informational note (from memory): a drop should not exceed 3 percent; 3 percent do not.
    #[test]
    fn a_cord_that_takes_three_percent_to_the_hair_is_not_told() {
        let found = |drop_share: f64| {
            let mut night = Handmade::hours(&[0.0, 9.0]);
            night.plugged("fan", 1200.0, 0.0, 1.0);
            let trace = night.trace();
            let cord = Cord {
                length: Length::ft(50.0),
                gauge_awg: 14,
            };
            let circuit = Circuit {
                cord: Some(cord),
                ..Circuit::default()
            };
            let mut found = CircuitFinding::of(&trace, &circuit);
            let cord = found.cord.as_mut().expect("there is a cord");
            cord.drop_share = drop_share;
            found.warnings().len()
        };
        assert_eq!((found(0.03), found(0.030001)), (0, 1));
    }

    /// A fan on 120 V and a breaker of 15 A: what comparisons call overloaded is what a night's own page warns of, by
    /// NEC 210.20(A) and 210.23(A)(1) (from memory).
    #[test]
    fn a_circuit_counts_as_overloaded_exactly_where_a_warning_tells_of_it() {
        for (watts, hours, other_w, overloaded) in [
            (1440.0, 2.0, 300.0, false), // 14.5 A for a while
            (1440.0, 2.0, 420.0, true),  // 15.5 A
            (1440.0, 9.0, 0.0, false),   // 12 A all night: 80 percent
            (1440.0, 9.0, 60.0, true),   // 12.5 A all night
            (1500.0, 1.0, 0.0, true),    // 12.5 A by one appliance
            (0.0, 0.0, 2400.0, false),   // 20 A, none of them a heater's
        ] {
            let mut night = Handmade::hours(&[0.0, 9.0]);
            night.plugged("fan", watts, 0.0, hours);
            let circuit = Circuit {
                other_load: Power::W(other_w),
                ..Circuit::default()
            };
            let trace = night.trace();
            let found = CircuitFinding::of(&trace, &circuit);
            let warned = !found.warnings().is_empty();
            assert_eq!(
                (found.overloaded(), warned),
                (overloaded, overloaded),
                "{watts} W for {hours} h beside {other_w} W"
            );
        }
    }
}
