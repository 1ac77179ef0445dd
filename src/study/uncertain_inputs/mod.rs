//! All that is uncertain about a night, in one list: the `uncertain` of engine, oil, hangar, heaters and night.

mod contradictions;
mod declared;
mod default_ranges;
mod input;
mod kept;
mod measured;
mod setpoints;
#[cfg(test)]
mod tests;

pub use self::contradictions::{contradictions, model};
pub use self::input::UncertainInput;
pub use self::measured::measure;

use self::declared::{Told, told};
use self::kept::{RangeNumber, TEMPERATURE, in_unit_of, rounded};
use self::measured::around;
use super::path::{PathError, Tree};
use crate::document::Node;
use crate::scenario::check::{Problem, check};
use crate::scenario::document::Scenario;
use crate::scenario::uncertain::UncertainRange;

/// Beyond this ratio to its range a number without a unit is taken to be in another unit than its range.
const OTHER_UNIT: f64 = 5.0;

/// All unknowns of a Scenario, in the order engine, oil, hangar, heaters, night, and within a file by path. How well
/// plugs close that are neither perfect nor left out, and how much water is in the oil if there is any, are always among
/// them; where no file says how far they may be off, an inlet or outlet is taken to leak half to twice what it does, and
/// the water to be a third to twice.
///
/// Where two files give a range for the same number, that of the night takes the place of that of the model.
///
/// A number that lies outside the range of its model was changed beside it: it counts as measured, as one that was set
/// ([`outside_ranges`] says of which numbers that is so). Where the ranges of the two ends of a thermostat or of a
/// self-limiting element would then cross, they are cut back (`setpoints` says how far).
///
/// *Errors*: paths that lead nowhere, ranges whose ends the gate refuses, and numbers far from their ranges, as problems
/// with their paths.
pub fn uncertain_inputs(scenario: &Scenario) -> Result<Vec<UncertainInput>, Vec<Problem>> {
    let Ranges {
        found, wrong, far, ..
    } = ranges(scenario);
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

/// The numbers that lie outside the ranges of their models, and what range is taken instead: warnings.
pub fn outside_ranges(scenario: &Scenario) -> Vec<Problem> {
    ranges(scenario).outside
}

/// All that the files of a night say of what is uncertain.
#[derive(Default)]
struct Ranges {
    found: Vec<UncertainInput>,
    wrong: Vec<Problem>,
    /// Numbers so far from their range that it is not known what unit they were meant in.
    far: Vec<Problem>,
    /// Numbers that count as measured since they lie outside the range of their model.
    outside: Vec<Problem>,
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
        match doubt(scenario, &tree, &path, unknown) {
            Ok(doubt) => {
                // Of its own ranges a night is told by `contradictions`.
                if doubt.source != unknown.source && !place.0.starts_with("uncertain.") {
                    ranges.outside.push(replaced(&doubt, unknown));
                }
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
        let mut set = tree.clone();
        let put = inputs.iter().try_for_each(|input| {
            let end = Node::number(end(input), input.unit.as_deref());
            set.put(&input.path, end)
        });
        let night = put.and_then(|()| set.scenario());
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

/// That a number lies outside the range of its model, and which it takes.
fn replaced(input: &UncertainInput, range: &UncertainRange) -> Problem {
    let unit = input.unit.as_deref().map(|unit| format!(" {unit}"));
    let unit = unit.unwrap_or_default();
    let fan = match input.path.ends_with(".power") {
        true => "; the flow of a fan stays, so its air leaves hotter in the same ratio",
        false => "",
    };
    Problem {
        path: input.path.clone(),
        word: None,
        what: format!(
            "`{}` is {}{unit}, outside the range of its model, {} to {}{unit}; it counts as measured, {} to {}{unit}{fan}",
            input.path, input.value, range.low, range.high, input.low, input.high
        ),
        help: Some(format!(
            "uncertain: {{ \"{}\": (low: .., high: .., ..) }} in the night, if it is less certain",
            input.path
        )),
        instead: None,
    }
}

fn doubt(
    scenario: &Scenario,
    tree: &Tree,
    path: &str,
    unknown: &UncertainRange,
) -> Result<UncertainInput, Refused> {
    let wrong = |e| Refused::Wrong(problem(path, e));
    let RangeNumber {
        kept_in,
        value,
        unit,
    } = in_unit_of(tree, path, unknown).map_err(wrong)?;
    let (low, high) = (unknown.low, unknown.high);
    let mut range = unknown.clone();
    if !(low..=high).contains(&value) {
        let ratio = value / (0.5 * (low + high));
        let apart = !(1.0 / OTHER_UNIT..=OTHER_UNIT).contains(&ratio);
        if apart && kept_in.as_deref() != Some(TEMPERATURE) {
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
        }
        range = around(scenario, tree, path, unknown).map_err(wrong)?;
    }
    Ok(UncertainInput {
        path: path.to_owned(),
        value,
        unit,
        low: range.low,
        high: range.high,
        distribution: range.distribution,
        source: range.source,
        usual: false,
    })
}

/// The problems that the check finds at the ends of a range, but for those that there were `before`.
fn refused(before: &[Problem], tree: &Tree, input: &UncertainInput, called: &str) -> Vec<Problem> {
    let mut problems = Vec::new();
    for (end, value) in [("low", input.low), ("high", input.high)] {
        let unit = input.unit.as_deref();
        let mut set = tree.clone();
        let put = set.put(&input.path, Node::number(value, unit));
        match put.and_then(|()| set.scenario()) {
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
