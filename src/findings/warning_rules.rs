//! When a night deserves a warning.

use super::circuit::CircuitFinding;
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
        let mut warnings: Vec<Warning> = hot.into_iter().flatten().collect();
        warnings.extend(self.uneven());
        warnings.extend(self.breather());
        warnings.extend(self.circuit.warnings());
        warnings.extend(self.oil());
        warnings
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
    use crate::scenario::circuit::Circuit;
    use crate::scenario::oil::Oil;
    use crate::test_traces::Handmade;

    /// The warnings of a night in which every part is warm at the first sample, if it is ready.
    fn warned(night: Handmade, ready: bool) -> Vec<Warning> {
        let trace = &night.trace();
        let row = trace.at(trace.departure_s);
        let oil = Oil::sae_50();
        WarningInputs {
            trace,
            row: &row,
            ready,
            warm_s: Some(0.0),
            condensation: Condensation::of(trace, &row).as_ref(),
            circuit: &CircuitFinding::of(trace, &Circuit::default()),
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
        let found = warned(night, true);
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
        let found = warned(night, true);
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
        assert_eq!(warned(night(&[5.0, 0.0, 26.0]), true), apart(26.0, 2.0));
        assert_eq!(warned(night(&[30.0, 0.0, 26.0]), true), apart(30.0, 0.0));
        // As far apart when it became warm and when it leaves: the first time is given.
        assert_eq!(warned(night(&[26.0, 0.0, 26.0]), true), apart(26.0, 0.0));
        assert_eq!(warned(night(&[30.0, 0.0, 26.0]), false), []);
        assert_eq!(warned(night(&[25.0, 40.0, 25.0]), true), []);
    }

    #[test]
    fn a_breather_in_freezing_air_is_told_only_with_water_inside() {
        let warnings = |air_c: f64, oil_g: f64, film_g: f64| {
            let mut night = Handmade::hours(&[0.0, 9.0]);
            night.pocket("rear", &[-20.0, air_c], &[0.0]);
            night.gas(&[10.0], &[0.0], &[15.0, oil_g]);
            night.wall("top", "upper", &[10.0], &[0.0, film_g]);
            warned(night, true)
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
    fn oil_near_its_pour_point_is_told() {
        let warnings = |temp_c: f64| {
            let mut night = Handmade::hours(&[0.0]);
            night.oil(&[&[temp_c]]);
            warned(night, true)
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
