//! All that is uncertain about a night, in one list: the `uncertain` of engine, oil, hangar, heaters and night.

mod contradictions;
mod declared;
mod default_ranges;
mod input;
mod kept;
mod setpoints;

pub use self::contradictions::{contradictions, model};
pub use self::input::UncertainInput;

use self::declared::{Told, told};
use self::kept::{RangeNumber, in_unit_of, rounded};
use super::case::Case;
use super::path::{PathError, Tree};
use crate::scenario::check::{Problem, check};
use crate::scenario::document::Scenario;
use crate::scenario::uncertain::UncertainRange;

/// A quantity that moves in differences, not in ratios.
const TEMPERATURE: &str = "degC";
/// Beyond this ratio to its range a number without a unit is taken to be in another unit than its range.
const OTHER_UNIT: f64 = 5.0;

/// All unknowns of a Scenario, in the order engine, oil, hangar, heaters, night, and within a file by path. How well
/// plugs close that are neither perfect nor left out, and how much water is in the oil if there is any, are always among
/// them; where no file says how far they may be off, an inlet or outlet is taken to leak half to twice what it does, and
/// the water to be a third to twice.
///
/// Where two files give a range for the same number, that of the night takes the place of that of the model.
///
/// A number that was changed beside its model, such as the power of a heater, so far that it left its range takes the
/// range along: in the same ratio, a temperature by the same difference. Where the ranges of the two ends of a thermostat
/// or of a self-limiting element would then cross, they are cut back (`ends` says how far).
///
/// *Errors*: paths that lead nowhere, ranges whose ends the gate refuses, and numbers far from their ranges, as problems
/// with their paths.
pub fn uncertain_inputs(scenario: &Scenario) -> Result<Vec<UncertainInput>, Vec<Problem>> {
    let Ranges { found, wrong, far } = ranges(scenario);
    let problems = [wrong, far].concat();
    if problems.is_empty() {
        Ok(found)
    } else {
        Err(problems)
    }
}

/// What is wrong with the ranges of a night, whatever its numbers: paths that lead nowhere, and ends that the gate
/// refuses. A number far from the range of its model is none of it: it is a plausibility warning.
pub fn unsound(scenario: &Scenario) -> Vec<Problem> {
    ranges(scenario).wrong
}

/// All that the files of a night say of what is uncertain.
#[derive(Default)]
struct Ranges {
    found: Vec<UncertainInput>,
    wrong: Vec<Problem>,
    /// Numbers so far from their range that it is not known what unit they were meant in.
    far: Vec<Problem>,
}

/// Why a number and its range make no uncertain input.
enum Refused {
    Wrong(Problem),
    Far(Problem),
}

fn ranges(scenario: &Scenario) -> Ranges {
    let mut ranges = Ranges::default();
    let tree = match Tree::of(scenario) {
        Ok(tree) => tree,
        Err(e) => {
            ranges.wrong.push(problem("", e));
            return ranges;
        }
    };
    // Where the range of each stands, which is what is wrong if the gate refuses its ends.
    let mut places = Vec::new();
    for Told {
        path,
        place,
        unknown,
    } in told(scenario)
    {
        match doubt(&tree, &path, unknown) {
            Ok(doubt) => {
                ranges.found.push(doubt);
                places.push(place);
            }
            Err(Refused::Wrong(e)) => ranges.wrong.push(at(e, place)),
            Err(Refused::Far(e)) => ranges.far.push(at(e, place)),
        }
    }
    setpoints::kept_apart(&tree, scenario.heaters.len(), &mut ranges.found);
    let usual = default_ranges::usual(scenario, &ranges.found);
    ranges.found.extend(usual);
    let places = places.into_iter().map(Some).chain(std::iter::repeat(None));
    let before = check(scenario).err().unwrap_or_default();
    if ends_pass(&before, &tree, &ranges.found) {
        return ranges;
    }
    for (doubt, place) in ranges.found.iter().zip(places) {
        // What its own file calls it.
        let called = place.as_ref().map_or(&doubt.path, |(_, word)| word);
        let refused = refused(&before, &tree, doubt, called).into_iter();
        ranges.wrong.extend(refused.map(|problem| match &place {
            Some(place) => at(problem, place.clone()),
            None => problem,
        }));
    }
    ranges
}

/// Whether the check finds nothing new with all ranges at their low ends, nor with all at their high ends: then no range
/// is checked by itself, which would take two nights for each.
fn ends_pass(before: &[Problem], tree: &Tree, inputs: &[UncertainInput]) -> bool {
    let passes = |end: fn(&UncertainInput) -> f64| {
        let set = |case: Case, i: &UncertainInput| case.number(&i.path, end(i), i.unit.as_deref());
        let night = inputs.iter().fold(Case::default(), set).night(tree);
        let problems = night.map(|night| check(&night).err().unwrap_or_default());
        problems.is_ok_and(|all| all.iter().all(|p| before.contains(p)))
    };
    passes(|input| input.low) && passes(|input| input.high)
}

/// A problem at the place of the range.
fn at(problem: Problem, (path, word): (String, String)) -> Problem {
    // A file calls its numbers without its own place in the night.
    let file = path.split("uncertain.").next().unwrap_or("");
    let instead = problem.instead.as_deref();
    let instead = instead.map(|name| name.strip_prefix(file).unwrap_or(name).to_owned());
    Problem {
        path,
        word: Some(word),
        instead,
        ..problem
    }
}

fn doubt(tree: &Tree, path: &str, unknown: &UncertainRange) -> Result<UncertainInput, Refused> {
    let RangeNumber {
        kept_in,
        value,
        unit,
    } = in_unit_of(tree, path, unknown).map_err(|e| Refused::Wrong(problem(path, e)))?;
    let (mut low, mut high) = (unknown.low, unknown.high);
    let middle = 0.5 * (low + high);
    if !(low..=high).contains(&value) {
        let ratio = value / middle;
        let apart = !(1.0 / OTHER_UNIT..=OTHER_UNIT).contains(&ratio);
        if kept_in.as_deref() == Some(TEMPERATURE) {
            (low, high) = (low + value - middle, high + value - middle);
        } else if apart {
            let (unit, value) = (unit.as_deref().unwrap_or(""), rounded(value));
            return Err(Refused::Far(Problem {
                path: path.to_owned(),
                word: None,
                what: format!(
                    "the number is {value} {unit} and its plausible range {low} to {high}, far away"
                ),
                help: Some(
                    "write the number in this file, so that its unit is known, or give the range its own `unit`"
                        .to_owned(),
                ),
                instead: None,
            }));
        } else {
            (low, high) = (low * ratio, high * ratio);
        }
    }
    Ok(UncertainInput {
        path: path.to_owned(),
        value,
        unit,
        low,
        high,
        distribution: unknown.distribution,
        source: unknown.source.clone(),
        usual: false,
    })
}

/// The problems that the check finds at the ends of a range, but for those that there were `before`.
fn refused(before: &[Problem], tree: &Tree, input: &UncertainInput, called: &str) -> Vec<Problem> {
    let mut problems = Vec::new();
    for (end, value) in [("low", input.low), ("high", input.high)] {
        let unit = input.unit.as_deref();
        let set = Case::default().number(&input.path, value, unit);
        match set.night(tree) {
            Err(e) => problems.push(problem(&input.path, e)),
            Ok(night) => {
                let all = check(&night).err().unwrap_or_default().into_iter();
                let new = all.filter(|p| !before.contains(p));
                problems.extend(new.map(|p| Problem {
                    what: format!("{}, at the {end} end of its plausible range", p.what),
                    help: Some(format!("correct the range of `{called}` under `uncertain`")),
                    instead: None,
                    ..p
                }));
            }
        }
    }
    problems
}

fn problem(path: &str, e: PathError) -> Problem {
    Problem {
        path: path.to_owned(),
        ..e.into()
    }
}

#[cfg(test)]
mod tests {
    use super::super::tests::scenario;
    use super::*;
    use crate::quantity::Power;
    use crate::scenario::engine::Engine;

    fn found<'a>(all: &'a [UncertainInput], path: &str) -> &'a UncertainInput {
        all.iter().find(|d| d.path == path).unwrap()
    }

    #[test]
    fn all_files_of_a_night_are_asked_and_every_number_lies_in_its_range() {
        let all = uncertain_inputs(&scenario()).unwrap();
        for path in [
            "engine.bay.seam_area",
            "oil.at_40",
            "hangar.time_constant",
            "heaters[0].kind.bay_fan.impingement",
            "covers.inlet_plug",
        ] {
            found(&all, path);
        }
        for doubt in &all {
            assert!(
                doubt.low <= doubt.value && doubt.value <= doubt.high,
                "{doubt:?}"
            );
            assert!(doubt.quantile(0.0) == doubt.low && doubt.quantile(1.0) == doubt.high);
        }
        // 4 litres, and the range in litres; kept in cubic metres.
        let oil = found(&all, "engine.oil_litres");
        assert!((oil.value - 4.0).abs() < 1e-9 && oil.unit.as_deref() == Some("L"));
    }

    #[test]
    fn a_changed_power_takes_its_range_along() {
        let mut night = scenario();
        let before = uncertain_inputs(&night).unwrap();
        night.heaters[0].power = Power::W(500.0);
        let after = uncertain_inputs(&night).unwrap();
        let (was, is) = (
            found(&before, "heaters[0].power"),
            found(&after, "heaters[0].power"),
        );
        assert!(is.low < 500.0 && is.high > 500.0);
        assert!((is.high / is.low - was.high / was.low).abs() < 1e-12);
    }

    /// A range in °F around a number in another place moves by the difference, whatever its unit: 55 to 58 has a width
    /// of 3 °F wherever it goes.
    #[test]
    fn a_temperature_takes_its_range_along_by_the_difference() {
        let mut night = scenario();
        night.criteria.min_temperature = crate::quantity::Temperature::degF(60.0);
        let range = UncertainRange {
            low: 55.0,
            high: 58.0,
            unit: Some("degF".to_owned()),
            ..night.hangar.uncertain["time_constant"].clone()
        };
        night
            .uncertain
            .insert("criteria.min_temperature".to_owned(), range);
        let all = uncertain_inputs(&night).unwrap();
        let moved = found(&all, "criteria.min_temperature");
        assert!(
            (moved.low - 58.5).abs() < 1e-9 && (moved.high - 61.5).abs() < 1e-9,
            "{moved:?}"
        );
        assert_eq!(moved.value, 60.0);
        // A night by itself contradicts itself there.
        let told = contradictions(&night);
        assert_eq!(told.len(), 1);
        assert_eq!(
            told[0].what,
            "`criteria.min_temperature` is 60 degF, outside the range this night gives it, 55 degF to 58 degF"
        );
        night.criteria.min_temperature = crate::quantity::Temperature::degF(57.0);
        assert!(contradictions(&night).is_empty());
    }

    #[test]
    fn a_range_outside_physical_limits_is_the_gates_problem() {
        let mut night = scenario();
        let Engine::opposed(layout) = &mut night.engine else {
            panic!()
        };
        layout.uncertain.get_mut("fin_eff").unwrap().high = 1.2;
        let problems = uncertain_inputs(&night).unwrap_err();
        assert_eq!(problems.len(), 1, "{problems:?}");
        assert_eq!(problems[0].path, "engine.uncertain.fin_eff");
        assert!(
            problems[0].what.contains("high end of its plausible range"),
            "{:?}",
            problems[0]
        );
    }

    #[test]
    fn a_path_that_leads_nowhere_is_told_with_the_nearest() {
        let mut night = scenario();
        let range = night.hangar.uncertain.remove("time_constant").unwrap();
        night
            .hangar
            .uncertain
            .insert("time_constnat".to_owned(), range);
        let problems = uncertain_inputs(&night).unwrap_err();
        assert_eq!(problems[0].path, "hangar.uncertain.time_constnat");
        assert!(
            problems[0]
                .what
                .contains("did you mean `hangar.time_constant`"),
            "{:?}",
            problems[0]
        );
    }
}
