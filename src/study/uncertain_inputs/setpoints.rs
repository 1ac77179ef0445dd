//! The two ends of a thermostat or of a self-limiting element: the first must stay below the second, in simulated nights
//! too.
//!
//! Each end has a range of its own. Where the two would cross, or come nearer to each other than a twentieth of the span
//! as written, both are cut back towards the middle between the two numbers as written: with a pad that goes on at 50 °C
//! and off at 60 °C, and ranges of 43 to 57 °C and 52.5 to 67.5 °C, to 43 to 54.75 °C and 55.25 to 67.5 °C. A range that does
//! not reach so far stays as it is, and so do two that are clear of each other. Ends that are drawn apart stay independent
//! unknowns, as the influences and indices of a spread take them to be.

use super::input::UncertainInput;
use super::kept::Scale;
use crate::study::path::Tree;

/// Numbers of a heater of which the first must stay below the second.
const PAIRS: [(&str, &str); 2] = [
    ("thermostat.on_at", "thermostat.off_at"),
    (
        "self_limiting.full_power_below",
        "self_limiting.zero_power_above",
    ),
];
/// How near they may come, as a share of the span as written. A choice: half of what the built-in pads leave.
const APART: f64 = 0.05;

/// One of the two numbers, as it is kept (°C).
struct End {
    written_c: f64,
    /// The end of its range that faces the other number; the number itself if it is certain.
    facing_c: f64,
    /// The unknown, and the unit of its range.
    doubt: Option<(usize, Scale)>,
}

impl End {
    fn of(
        tree: &Tree,
        path: &str,
        found: &[UncertainInput],
        facing: fn(&UncertainInput) -> f64,
    ) -> Option<Self> {
        let written_c = tree.number(path).ok()?.value;
        let end = match found.iter().position(|d| d.path == path) {
            None => Self {
                written_c,
                facing_c: written_c,
                doubt: None,
            },
            Some(number) => {
                let doubt = &found[number];
                let scale = Scale::of(tree, path, doubt.unit.as_deref()).ok()?;
                Self {
                    written_c,
                    facing_c: scale.kept(facing(doubt)),
                    doubt: Some((number, scale)),
                }
            }
        };
        Some(end)
    }
}

/// Cuts back the ranges of ends that would cross.
pub fn kept_apart(tree: &Tree, heaters: usize, found: &mut [UncertainInput]) {
    for heater in 0..heaters {
        for (below, above) in PAIRS {
            let of =
                |name, facing| End::of(tree, &format!("heaters[{heater}].{name}"), found, facing);
            let Some((below, above)) = of(below, |d| d.high).zip(of(above, |d| d.low)) else {
                continue;
            };
            let span = above.written_c - below.written_c;
            // The gate tells of numbers that are the wrong way round as they are written.
            if span <= 0.0 {
                continue;
            }
            let (top_c, bottom_c) = cut(&below, &above, APART * span);
            if let Some((number, scale)) = below.doubt.filter(|_| top_c < below.facing_c) {
                found[number].high = scale.in_unit(top_c);
            }
            if let Some((number, scale)) = above.doubt.filter(|_| bottom_c > above.facing_c) {
                found[number].low = scale.in_unit(bottom_c);
            }
        }
    }
}

/// The highest of the lower end and the lowest of the upper one, °C, `gap` apart at least.
fn cut(below: &End, above: &End, gap: f64) -> (f64, f64) {
    let middle = 0.5 * (below.written_c + above.written_c);
    let top = (middle - 0.5 * gap).max(above.facing_c - gap);
    let bottom = (middle + 0.5 * gap).min(below.facing_c + gap);
    (below.facing_c.min(top), above.facing_c.max(bottom))
}

#[cfg(test)]
mod tests {
    use super::super::uncertain_inputs;
    use super::*;
    use crate::files::library::{Kind, model};
    use crate::quantity::Temperature;
    use crate::scenario::document::Scenario;
    use crate::scenario::heater::{Heater, SelfLimiting};
    use crate::scenario::uncertain::{Basis, Distribution, UncertainRange};
    use crate::study::tests::scenario;

    /// The small engine with a sump pad that goes on and off at these, in °C, with ranges that hold them.
    fn pad(lo: f64, hi: f64) -> Scenario {
        let mut pad: Heater = model(Kind::Heater, "sump-pad-150w").unwrap();
        for (end, at, off) in [("on_at", lo, 7.0), ("off_at", hi, 7.5)] {
            let held = pad.uncertain.get_mut(&format!("thermostat.{end}")).unwrap();
            if !(held.low..=held.high).contains(&at) {
                (held.low, held.high) = (at - off, at + off);
            }
        }
        let thermostat = pad.thermostat.as_mut().unwrap();
        (thermostat.on_at, thermostat.off_at) = (Temperature::degC(lo), Temperature::degC(hi));
        Scenario {
            heaters: vec![pad],
            ..scenario()
        }
    }

    fn range(low: f64, high: f64, unit: &str) -> UncertainRange {
        UncertainRange {
            low,
            high,
            unit: Some(unit.to_owned()),
            distribution: Distribution::uniform,
            basis: Basis::measured,
            source: "read".to_owned(),
        }
    }

    /// The ranges of the two ends of the first heater, in their own units.
    fn found(night: &Scenario, pair: (&str, &str)) -> [(f64, f64); 2] {
        let all = uncertain_inputs(night).unwrap();
        [pair.0, pair.1].map(|name| {
            let path = format!("heaters[0].{name}");
            let doubt = all.iter().find(|d| d.path == path).unwrap();
            assert!(
                doubt.low <= doubt.value && doubt.value <= doubt.high,
                "{doubt:?}"
            );
            (doubt.low, doubt.high)
        })
    }

    fn near(found: [(f64, f64); 2], told: [(f64, f64); 2]) {
        for (found, told) in found.iter().zip(told) {
            let apart = (found.0 - told.0).abs() + (found.1 - told.1).abs();
            assert!(apart < 1e-9, "{found:?} and not {told:?}");
        }
    }

    #[test]
    fn ranges_that_are_clear_of_each_other_stay_to_the_last_bit() {
        assert_eq!(
            found(&pad(80.0, 90.0), PAIRS[0]),
            [(70.0, 84.0), (85.0, 100.0)]
        );
    }

    #[test]
    fn the_ends_of_a_thermostat_never_cross_however_short_its_span() {
        // Middle 55, a twentieth of the span 0.5 K: the example of the file's head.
        near(
            found(&pad(50.0, 60.0), PAIRS[0]),
            [(43.0, 54.75), (55.25, 67.5)],
        );
        near(
            found(&pad(40.0, 45.0), PAIRS[0]),
            [(33.0, 42.375), (42.625, 52.5)],
        );
        for span in [0.1, 1.0, 3.0, 8.0, 20.0] {
            let [lo, hi] = found(&pad(40.0, 40.0 + span), PAIRS[0]);
            assert!(lo.1 + 0.049 * span < hi.0, "{span}: {lo:?} {hi:?}");
        }
    }

    #[test]
    fn ranges_of_the_night_in_two_units_are_cut_each_in_its_own() {
        let mut night = pad(40.0, 45.0);
        // 39 to 44 °C and 41 to 46 °C.
        for (end, range) in [
            ("on_at", range(39.0, 44.0, "degC")),
            ("off_at", range(105.8, 114.8, "degF")),
        ] {
            night
                .uncertain
                .insert(format!("heaters[0].thermostat.{end}"), range);
        }
        near(found(&night, PAIRS[0]), [(39.0, 42.375), (108.725, 114.8)]);
    }

    /// Against a certain end, or one whose range stops short of the middle, a range is cut no further than it must be.
    #[test]
    fn a_range_is_cut_no_further_than_it_must_be() {
        let mut night = pad(40.0, 45.0);
        night.heaters[0].uncertain.remove("thermostat.on_at");
        let all = uncertain_inputs(&night).unwrap();
        let hi = all
            .iter()
            .find(|d| d.path == "heaters[0].thermostat.off_at")
            .unwrap();
        assert!((hi.low - 40.25).abs() < 1e-9 && hi.high == 52.5, "{hi:?}");
        night.uncertain.insert(
            "heaters[0].thermostat.on_at".to_owned(),
            range(39.0, 41.0, "degC"),
        );
        near(found(&night, PAIRS[0]), [(39.0, 41.0), (41.25, 52.5)]);
    }

    #[test]
    fn a_self_limiting_element_keeps_its_ends_apart_too() {
        let mut night = pad(80.0, 90.0);
        night.heaters[0].self_limiting = Some(SelfLimiting {
            full_power_below: Temperature::degC(60.0),
            zero_power_above: Temperature::degC(80.0),
        });
        for (end, range) in [
            ("full_power_below", range(50.0, 75.0, "degC")),
            ("zero_power_above", range(65.0, 95.0, "degC")),
        ] {
            night
                .uncertain
                .insert(format!("heaters[0].self_limiting.{end}"), range);
        }
        near(found(&night, PAIRS[1]), [(50.0, 69.5), (70.5, 95.0)]);
    }
}
