//! A number that was set counts as measured: its range is narrow and lies around it.
//!
//! *Rule*: the range that the reference states for the key (plugs ± 0.03, the power of a heater ± 5 percent); else a quarter as
//! wide as the range that the number had, around the number: as a ratio for a log-uniform range, as a difference for any other and for temperatures.

use super::declared::told;
use super::default_ranges::usual;
use super::kept::{TEMPERATURE, in_unit_of, rounded};
use crate::document::{IfSet, Node, Read, Rule, RuleCheck, spelt};
use crate::scenario::document::Scenario;
use crate::scenario::uncertain::{Basis, Distribution, UncertainRange};
use crate::study::path::{PathError, Tree};

/// The width of the range of a measured number, of that which it had.
const NARROWED: f64 = 0.25;
/// What such a range says of itself.
const SOURCE: &str = "set";

/// Gives the number at a path the range of a measured one, in the ranges of the night, if it is uncertain. Returns the range.
///
/// *Errors*: a range in a unit that the number cannot have.
pub fn measure(scenario: &mut Scenario, path: &str) -> Result<Option<UncertainRange>, PathError> {
    let tree = Tree::of(scenario)?;
    let node = Node::of(scenario).map_err(|e| PathError::Refused {
        path: path.to_owned(),
        why: e.to_string(),
    })?;
    let Some(plain) = node.plain_path(path).filter(|_| tree.number(path).is_ok()) else {
        return Ok(None);
    };
    let same = |other: &str| node.plain_path(other).as_ref() == Some(&plain);
    let declared = told(scenario).into_iter().find(|told| same(&told.path));
    let declared = declared.map(|told| (told.path, told.unknown.clone()));
    let usual = usual(scenario, &[]).into_iter().find(|u| same(&u.path));
    let usual = usual.map(|u| {
        let range = UncertainRange {
            low: u.low,
            high: u.high,
            unit: u.unit,
            distribution: u.distribution,
            basis: Basis::estimated,
            source: u.source,
        };
        (u.path, range)
    });
    let Some((path, range)) = declared.or(usual) else {
        return Ok(None);
    };
    let measured = around(scenario, &tree, &path, &range)?;
    scenario.uncertain.retain(|other, _| !same(&spelt(other)));
    scenario.uncertain.insert(path, measured.clone());
    Ok(Some(measured))
}

/// The range of the number at a path if it counts as measured, from the range that it had.
pub fn around(
    scenario: &Scenario,
    tree: &Tree,
    path: &str,
    range: &UncertainRange,
) -> Result<UncertainRange, PathError> {
    let number = in_unit_of(tree, path, range)?;
    let value = number.value;
    let node = Node::of(scenario).ok();
    let plain = node.and_then(|node| node.plain_path(path));
    let rule = plain.and_then(|path| RuleCheck::rule_at(&path, |walk| scenario.walk(walk)));
    let rule = rule.unwrap_or(&Rule::ANY);
    let ratio = number.kept_in.as_deref() != Some(TEMPERATURE);
    let (mut low, mut high) = match (rule.if_set, range.distribution) {
        (Some(IfSet::Within(by)), _) => (value - by, value + by),
        (Some(IfSet::Share(share)), _) => (value * (1.0 - share), value * (1.0 + share)),
        (None, Distribution::log_uniform) if ratio => {
            let ratio = (range.high / range.low).powf(0.5 * NARROWED);
            (value / ratio, value * ratio)
        }
        (None, _) => {
            let half = 0.5 * NARROWED * (range.high - range.low);
            (value - half, value + half)
        }
    };
    // Zero is zero in every unit but those of temperatures, whose limits are far off; other limits are of plain numbers.
    let (least, most, above) = rule.limits.ends();
    if low < least && (number.unit.is_none() || least == 0.0) {
        low = if above { 0.5 * (least + value) } else { least };
    }
    if high > most && number.unit.is_none() {
        high = most;
    }
    Ok(UncertainRange {
        low: rounded(low.min(value)),
        high: rounded(high.max(value)),
        unit: number.unit,
        distribution: range.distribution,
        basis: Basis::measured,
        source: SOURCE.to_owned(),
    })
}

#[cfg(test)]
mod tests {
    use super::super::uncertain_inputs;
    use super::*;
    use crate::files::night::load_builtin;
    use crate::quantity::{Mass, Power};
    use crate::scenario::check::check;
    use crate::study::case::Case;
    use crate::study::simulate::{SampleCount, simulate};
    use crate::study::spread::Spread;

    fn demo() -> Scenario {
        load_builtin("demo").unwrap().scenario
    }

    /// (low, high) of an input of a night.
    fn range(night: &Scenario, path: &str) -> (f64, f64) {
        let all = uncertain_inputs(night).unwrap();
        let found = all.iter().find(|input| input.path == path).unwrap();
        (found.low, found.high)
    }

    #[track_caller]
    fn near((a, b): (f64, f64), (c, d): (f64, f64)) {
        assert!((a - c).abs() < 1e-9 && (b - d).abs() < 1e-9, "{a} to {b}");
    }

    #[test]
    fn a_number_that_is_set_takes_the_range_its_key_states() {
        let mut night = demo();
        near(range(&night, "covers.outlet_plug"), (0.0, 0.9));
        night.covers.outlet_plug = 0.90;
        measure(&mut night, "covers.outlet_plug").unwrap().unwrap();
        near(range(&night, "covers.outlet_plug"), (0.87, 0.93));
        // It cannot be closed more than wholly.
        night.covers.outlet_plug = 0.99;
        measure(&mut night, "covers.outlet_plug").unwrap().unwrap();
        near(range(&night, "covers.outlet_plug"), (0.96, 1.0));
        night.heaters[0].power = Power::W(500.0);
        measure(&mut night, "heaters[0].power").unwrap().unwrap();
        near(range(&night, "heaters[0].power"), (475.0, 525.0));
        assert!(check(&night).is_ok());
    }

    /// Without a range of its key: a quarter of the width, as a ratio or as a difference; also by a path without its word.
    #[test]
    fn a_number_that_is_set_takes_a_quarter_of_its_range() {
        let mut night = demo();
        night.initial.water_in_oil = Mass::g(20.0);
        measure(&mut night, "initial.water_in_oil")
            .unwrap()
            .unwrap();
        let ratio = 6.0_f64.powf(0.125);
        near(
            range(&night, "initial.water_in_oil"),
            (20.0 / ratio, 20.0 * ratio),
        );
        // 6 to 18 W/K is 12 wide.
        let measured = measure(&mut night, "heaters[0].kind.impingement")
            .unwrap()
            .unwrap();
        near((measured.low, measured.high), (10.5, 13.5));
        near(
            range(&night, "heaters[0].kind.bay_fan.impingement"),
            (10.5, 13.5),
        );
        // What is certain, or no number, stays so.
        for path in [
            "covers.blankets",
            "clock.departure",
            "circuit.volts",
            "no.such",
        ] {
            assert_eq!(measure(&mut night, path).unwrap(), None, "{path}");
        }
    }

    /// Closing the outlet moves the nominal margin of the demo by 9 °F: the simulated nights have to show it.
    #[test]
    fn an_outlet_that_is_closed_raises_the_chance_in_every_study() {
        let count = SampleCount {
            nights: 12,
            seed: 1,
        };
        let base = demo();
        let tree = Tree::of(&base).unwrap();
        let plain = Case::named("plain").number("covers.outlet_plug", 0.9, None);
        let measured = Case::named("closed").measured("covers.outlet_plug", 0.9, None);
        let ready = |night: &Scenario| {
            let bands = simulate(night, count, &|_| ()).unwrap();
            bands.ready.unwrap().share
        };
        let closed = measured.night(&tree).unwrap();
        let (before, after) = (ready(&base), ready(&closed));
        assert!(after > before, "{before} {after}");
        // A plain number, as samples and meshes are set, leaves the ranges alone.
        let same = plain.night(&tree).unwrap();
        assert_eq!(same.uncertain, base.uncertain);
        let study = Spread::of(&closed, count.seed).unwrap();
        let input = study
            .inputs()
            .iter()
            .find(|i| i.path == "covers.outlet_plug");
        near((input.unwrap().low, input.unwrap().high), (0.87, 0.93));
    }
}
