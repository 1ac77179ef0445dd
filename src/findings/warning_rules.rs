//! When a night deserves a warning.

use super::circuit::{CONTINUOUS_SHARE, CircuitFinding, DROP_WORTH_A_WORD};
use super::condensation::Condensation;
use super::cylinder_spread::spread_k;
use super::oil::OilFinding;
use super::readings::row_at;
use super::warnings::{HOT_C, Warning};
use crate::trace::{CellInfo, Trace};

/// Cylinders should not differ by more than this when the engine is ready, K. Common practice, no source.
const UNEVEN_K: f64 = 25.0;
/// Colder than this, what leaves by the breather may freeze in it, °C. Estimate.
const NEAR_FREEZING_C: f64 = 2.0;
/// Less water than this inside is not worth a word, g. Estimate.
const WATER_WORTH_A_WORD_G: f64 = 1.0;
/// Slack for sums of currents.
const ROUNDING: f64 = 1e-9;

/// What the warnings of a night are drawn from.
pub(super) struct WarningInputs<'a> {
    pub(super) trace: &'a Trace,
    /// All columns at the departure.
    pub(super) row: &'a [f64],
    pub(super) ready: bool,
    /// When every part was warm enough to stay, seconds after the beginning.
    pub(super) warm_s: Option<f64>,
    pub(super) condensation: Option<&'a Condensation>,
    pub(super) circuit: &'a CircuitFinding,
    pub(super) oil: Option<&'a OilFinding>,
}

impl WarningInputs<'_> {
    /// Every warning of the night.
    pub(super) fn warnings(&self) -> Vec<Warning> {
        let hot = [
            self.hottest(|cell| cell.carburettor)
                .map(|(cell, temp_c, time_h)| {
                    let (part, label) = (cell.part.clone(), cell.label.clone());
                    Warning::HotCarburettor {
                        part,
                        label,
                        temp_c,
                        time_h,
                    }
                }),
            self.hottest(|cell| cell.skin)
                .map(|(cell, temp_c, time_h)| {
                    let (part, label) = (cell.part.clone(), cell.label.clone());
                    Warning::HotSkin {
                        part,
                        label,
                        temp_c,
                        time_h,
                    }
                }),
        ];
        let others = [
            self.uneven(),
            self.breather(),
            self.continuous(),
            self.beside_continuous(),
            self.large_heater(),
            self.breaker(),
            self.cord(),
            self.oil(),
        ];
        hot.into_iter().chain(others).flatten().collect()
    }

    /// The hottest of some cells over the whole time followed, if it was hot.
    fn hottest(&self, of: impl Fn(&CellInfo) -> bool) -> Option<(&CellInfo, f64, f64)> {
        let mut hottest = None;
        let mut limit_c = HOT_C;
        for cell in self.trace.legend.cells.iter().filter(|cell| of(cell)) {
            for (&t, temp_c) in self
                .trace
                .times_s
                .iter()
                .zip(self.trace.column(cell.column))
            {
                if temp_c > limit_c {
                    limit_c = temp_c;
                    hottest = Some((cell, temp_c, t / 3600.0));
                }
            }
        }
        hottest
    }

    /// The wider spread of two instants: when the engine became ready, and the departure if it was then.
    fn uneven(&self) -> Option<Warning> {
        let departure_s = self.trace.departure_s;
        let became_s = self.warm_s.filter(|&t| self.ready && t <= departure_s);
        let left_s = self.ready.then_some(departure_s);
        let instants = became_s.into_iter().chain(left_s);
        let spreads = instants
            .filter_map(|t| Some((spread_k(&self.trace.legend, &row_at(self.trace, t))?, t)));
        let (spread_k, t) = spreads.reduce(|a, b| if b.0 > a.0 { b } else { a })?;
        (spread_k > UNEVEN_K).then_some(Warning::Uneven {
            spread_k,
            time_h: t / 3600.0,
        })
    }

    fn breather(&self) -> Option<Warning> {
        let gas = self.trace.legend.gas.as_ref()?;
        let pocket = self.trace.legend.pockets.get(gas.breather_pocket)?;
        let water = self.condensation?;
        let temp_c = self.row[pocket.temperature];
        let oil_water_g = water.oil_water_g.unwrap_or(0.0);
        let film_g = water.walls.iter().fold(0.0, |sum, w| sum + w.grams);
        let wet = oil_water_g + film_g > WATER_WORTH_A_WORD_G;
        (wet && temp_c < NEAR_FREEZING_C).then(|| Warning::BreatherNearFreezing {
            pocket: pocket.label.clone(),
            temp_c,
            oil_water_g,
            film_g,
        })
    }

    fn continuous(&self) -> Option<Warning> {
        let circuit = self.circuit;
        let over = circuit.continuous_share > CONTINUOUS_SHARE + ROUNDING;
        (circuit.continuous && over).then_some(Warning::ContinuousLoad {
            current_a: circuit.continuous_current_a,
            breaker_a: circuit.breaker_a,
        })
    }

    /// Where neither what is continuous nor the whole is too much by itself.
    fn beside_continuous(&self) -> Option<Warning> {
        let circuit = self.circuit;
        let warned = self.continuous().is_some() || self.breaker().is_some();
        let over = circuit.needed_breaker_a > circuit.breaker_a + ROUNDING;
        (over && circuit.continuous && !warned).then_some(Warning::LoadBesideContinuous {
            current_a: circuit.peak_current_a + circuit.other_current_a,
            continuous_a: circuit.continuous_current_a,
            needed_a: circuit.needed_breaker_a,
            breaker_a: circuit.breaker_a,
        })
    }

    /// Where the breaker holds it and it is not on for hours, which has a warning of its own.
    fn large_heater(&self) -> Option<Warning> {
        let circuit = self.circuit;
        let warned = self.continuous().is_some() || self.breaker().is_some();
        let heater = circuit.too_large().filter(|_| !warned)?;
        Some(Warning::LargeHeater {
            name: heater.name.clone(),
            current_a: heater.amps,
            breaker_a: circuit.breaker_a,
        })
    }

    fn breaker(&self) -> Option<Warning> {
        let circuit = self.circuit;
        let over = circuit.peak_current_a > 0.0 && circuit.load_share > 1.0 + ROUNDING;
        over.then_some(Warning::OverBreaker {
            current_a: circuit.peak_current_a + circuit.other_current_a,
            breaker_a: circuit.breaker_a,
        })
    }

    /// The night is computed with the full power, whatever a cord takes of it.
    fn cord(&self) -> Option<Warning> {
        let cord = self.circuit.cord.as_ref();
        let cord = cord.filter(|cord| cord.drop_share > DROP_WORTH_A_WORD)?;
        Some(Warning::LongCord {
            drop_share: cord.drop_share,
            power_share: cord.power_share,
        })
    }

    fn oil(&self) -> Option<Warning> {
        let oil = self.oil.filter(|oil| oil.flagged)?;
        Some(Warning::OilExtrapolated {
            temp_c: oil.pickup_temp_c,
            pour_point_c: oil.pour_point_c,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Length, Power};
    use crate::scenario::circuit::{Circuit, Cord};
    use crate::scenario::oil::Oil;
    use crate::test_traces::Handmade;

    /// The warnings of a night in which every part is warm at the first sample, if it is ready.
    fn warned(night: Handmade, ready: bool, other_w: f64) -> Vec<Warning> {
        let circuit = Circuit {
            other_load: Power::W(other_w),
            ..Circuit::default()
        };
        warned_on(night, ready, &circuit)
    }
    fn warned_on(night: Handmade, ready: bool, circuit: &Circuit) -> Vec<Warning> {
        let trace = night.trace();
        warned_of(&trace, ready, &CircuitFinding::of(&trace, circuit))
    }
    fn warned_of(trace: &Trace, ready: bool, circuit: &CircuitFinding) -> Vec<Warning> {
        let row = trace.at(trace.departure_s);
        let oil = Oil::sae_50();
        WarningInputs {
            trace,
            row: &row,
            ready,
            warm_s: Some(0.0),
            condensation: Condensation::of(trace, &row).as_ref(),
            circuit,
            oil: OilFinding::of(&trace.legend, &row, &oil).as_ref(),
        }
        .warnings()
    }

    #[test]
    fn a_carburettor_or_skin_over_sixty_is_told_with_its_highest_and_its_hour() {
        let mut night = Handmade::hours(&[0.0, 1.0, 2.0, 3.0]);
        night.cell("carb", &[0.0, 61.0, 64.0, 10.0]).carburettor = true;
        night.cell("skin UL", &[0.0, 60.0, 60.0, 60.0]).skin = true;
        night.cell("skin LO", &[0.0, 60.0, 60.0, 60.1]).skin = true;
        night.cell("head", &[0.0, 90.0, 90.0, 90.0]);
        let found = warned(night, true, 0.0);
        let carb = Warning::HotCarburettor {
            part: "carb".to_owned(),
            label: "the carb".to_owned(),
            temp_c: 64.0,
            time_h: 2.0,
        };
        let skin = Warning::HotSkin {
            part: "skin LO".to_owned(),
            label: "the skin LO".to_owned(),
            temp_c: 60.1,
            time_h: 3.0,
        };
        assert_eq!(found, [carb, skin]);
        let mut night = Handmade::hours(&[0.0, 1.0, 2.0]);
        night.cell("carb", &[0.0, 64.0, 64.0]).carburettor = true;
        night.cell("skin", &[60.0]).skin = true;
        let found = warned(night, true, 0.0);
        assert!(
            matches!(found[..], [Warning::HotCarburettor { time_h: 1.0, .. }]),
            "sixty itself is not too hot, and the first hour is given: {found:?}"
        );
    }

    #[test]
    fn cylinders_apart_are_told_only_of_an_engine_that_is_ready() {
        let night = |left: &[f64]| {
            let mut night = Handmade::hours(&[0.0, 1.0, 2.0]);
            night.cylinder("left", left);
            night.cylinder("right", &[0.0]);
            night
        };
        let apart = |spread_k, time_h| vec![Warning::Uneven { spread_k, time_h }];
        assert_eq!(
            warned(night(&[5.0, 0.0, 26.0]), true, 0.0),
            apart(26.0, 2.0)
        );
        assert_eq!(
            warned(night(&[30.0, 0.0, 26.0]), true, 0.0),
            apart(30.0, 0.0)
        );
        // As far apart when it became warm and when it leaves: the first time is given.
        assert_eq!(
            warned(night(&[26.0, 0.0, 26.0]), true, 0.0),
            apart(26.0, 0.0)
        );
        assert_eq!(warned(night(&[30.0, 0.0, 26.0]), false, 0.0), []);
        assert_eq!(warned(night(&[25.0, 40.0, 25.0]), true, 0.0), []);
    }

    #[test]
    fn a_breather_in_freezing_air_is_told_only_with_water_inside() {
        let warnings = |air_c: f64, oil_g: f64, film_g: f64| {
            let mut night = Handmade::hours(&[0.0, 9.0]);
            night.pocket("rear", &[-20.0, air_c], &[0.0]);
            night.gas(&[10.0], &[0.0], &[15.0, oil_g]);
            night.wall("top", "upper", &[10.0], &[0.0, film_g]);
            warned(night, true, 0.0)
        };
        let expected = Warning::BreatherNearFreezing {
            pocket: "the rear air".to_owned(),
            temp_c: 1.9,
            oil_water_g: 0.6,
            film_g: 0.5,
        };
        assert_eq!(warnings(1.9, 0.6, 0.5), [expected]);
        assert_eq!(warnings(2.0, 0.6, 0.5), []);
        assert_eq!(warnings(1.9, 0.6, 0.4), []);
    }

    #[test]
    fn eighty_percent_for_three_hours_is_no_warning_and_a_watt_more_is() {
        let warnings = |watts: f64, hours: f64, other_w: f64| {
            let mut night = Handmade::hours(&[0.0, 9.0]);
            night.plugged("fan", watts, 0.0, hours);
            warned(night, true, other_w)
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
        let found = warned(night, true, 60.0);
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
        assert_eq!(warned(Handmade::hours(&[0.0, 9.0]), true, 2400.0), []);
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
            warned_on(night, true, &circuit)
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
            warned_of(&trace, true, &found).len()
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
            let warned = !warned_of(&trace, true, &found).is_empty();
            assert_eq!(
                (found.overloaded(), warned),
                (overloaded, overloaded),
                "{watts} W for {hours} h beside {other_w} W"
            );
        }
    }

    #[test]
    fn oil_near_its_pour_point_is_told() {
        let warnings = |temp_c: f64| {
            let mut night = Handmade::hours(&[0.0]);
            night.oil(&[&[temp_c]]);
            warned(night, true, 0.0)
        };
        let (temp_c, pour_point_c) = (-9.0, -18.0);
        assert_eq!(
            warnings(-9.0),
            [Warning::OilExtrapolated {
                temp_c,
                pour_point_c
            }]
        );
        assert_eq!(warnings(-8.0), []);
    }
}
