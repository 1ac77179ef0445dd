//! One night over all that is uncertain about it: which nights are to be computed, each from its number alone.
//!
//! Three kinds: samples over all ranges; nights with one input at an end of its range and all
//! others as they are; and nights at mixed points for the indices of [`super::sobol`]. The number of a
//! night and the seed give its point, so a study can be broken off, taken up again, and made longer.

use super::case::Case;
use super::path::{PathError, Tree};
use super::run::{run, run_all};
use super::sample::{Samples, Settings, without_ranges};
use super::sample_result::SampleResult;
use super::simulate::Outcome;
use super::uncertain_inputs::{UncertainInput, contradictions};
use crate::night::{Night, NightError, Precision};
use crate::scenario::check::Problem;
use crate::scenario::document::Scenario;
use serde::{Deserialize, Serialize};
use std::sync::atomic::AtomicBool;

/// How many uncertain inputs get an index of their own; the rest share one.
pub const INDEXED: usize = 8;

/// What a night is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Purpose {
    /// All uncertain inputs at a point of their ranges.
    Sample,
    /// One uncertain input at an end of its range: an even number its low end, an odd number its high end.
    OneAtATime,
    /// A second point, or the first with some coordinates of the second.
    Sobol,
}

/// A night to be computed.
#[derive(Debug, Clone, PartialEq)]
pub struct Task {
    /// What it is for.
    pub purpose: Purpose,
    /// Its number among those of its purpose.
    pub number: u32,
    /// Which uncertain inputs are set to what, in their units.
    pub settings: Settings,
}

/// One night and all that is uncertain about it.
#[derive(Debug, Clone)]
pub struct Spread {
    base: Tree,
    samples: Samples,
}

impl Spread {
    /// Prepares a study of a night.
    ///
    /// *Errors*: every problem of the night and of its ranges.
    pub fn of(scenario: &Scenario, seed: u32) -> Result<Self, Vec<Problem>> {
        crate::scenario::check::check(scenario)?;
        let contradictions = contradictions(scenario);
        if !contradictions.is_empty() {
            return Err(contradictions);
        }
        let samples = Samples::of(scenario, seed)?;
        let base = Tree::of(&without_ranges(scenario)).map_err(|e| vec![e.into()])?;
        Ok(Self { base, samples })
    }

    /// What is uncertain.
    pub fn inputs(&self) -> &[UncertainInput] {
        &self.samples.inputs
    }

    /// The first so many simulated nights.
    pub fn samples(&self, nights: u32) -> Vec<Task> {
        (0..nights)
            .map(|number| Task {
                purpose: Purpose::Sample,
                number,
                settings: self.samples.settings(number, &[]),
            })
            .collect()
    }

    /// Two nights for each uncertain input: at the low and at the high end of its range.
    pub fn singles(&self) -> Vec<Task> {
        let ends = self.inputs().iter().map(|d| [d.low, d.high]).enumerate();
        ends.flat_map(|(doubt, ends)| ends.map(|end| (doubt, end)))
            .enumerate()
            .map(|(number, setting)| Task {
                purpose: Purpose::OneAtATime,
                number: number as u32,
                settings: vec![setting],
            })
            .collect()
    }

    /// The mixed nights that go with so many simulated ones: for each a second point, and one night for each group
    /// with the coordinates of that group taken from the second point. Their numbers are `point * (groups + 1)`, and
    /// as many more as the group has in the list, from one.
    pub fn mixed(&self, groups: &[Vec<usize>], points: u32) -> Vec<Task> {
        let all: Vec<usize> = (0..self.inputs().len()).collect();
        let sets: Vec<&[usize]> = std::iter::once(&all[..])
            .chain(groups.iter().map(Vec::as_slice))
            .collect();
        let set = |point: u32, which: usize| Task {
            purpose: Purpose::Sobol,
            number: point * sets.len() as u32 + which as u32,
            settings: self.samples.settings(point, sets[which]),
        };
        (0..points)
            .flat_map(|point| (0..sets.len()).map(move |which| (point, which)))
            .map(|(point, which)| set(point, which))
            .collect()
    }

    /// Computes nights on all threads; `done` is called after each. What is kept of each goes to `sink` with its task, in
    /// order, a window at a time. Once `stop` is set no further nights are begun. Gives whether all were done.
    ///
    /// *Errors*: the first of the sink; the rest is not begun then.
    pub fn run<'t, E>(
        &self,
        tasks: &'t [Task],
        stop: &AtomicBool,
        done: &(dyn Fn() + Sync),
        mut sink: impl FnMut(Vec<(&'t Task, Outcome)>) -> Result<(), E>,
    ) -> Result<bool, E> {
        let case = |number: usize| (&self.base, self.case(&tasks[number]));
        let row = |night| {
            done();
            outcome(night)
        };
        run(Precision::Study, tasks.len(), case, row, stop, |rows| {
            let rows = rows.into_iter();
            sink(rows.map(|(n, row)| (&tasks[n], row)).collect())
        })
    }

    /// The outcomes of these nights.
    pub fn nights(&self, tasks: &[Task]) -> Vec<Outcome> {
        let case = |number: usize| (&self.base, self.case(&tasks[number]));
        run_all(Precision::Study, tasks.len(), case, outcome)
    }

    /// The night of a task.
    ///
    /// *Errors*: a number that cannot be set.
    pub fn scenario(&self, task: &Task) -> Result<Scenario, PathError> {
        self.case(task).night(&self.base)
    }

    fn case(&self, task: &Task) -> Case {
        self.samples.case(&task.settings)
    }
}

fn outcome(night: Result<Night, NightError>) -> Outcome {
    let kept = night.map(|night| SampleResult::of(&night));
    kept.map_err(|e| e.to_string())
}

/// What one uncertain input alone does to the margin at departure.
#[derive(Debug, Clone, PartialEq)]
pub struct Influence {
    /// Which uncertain input.
    pub doubt: usize,
    /// The margin with it at the low end of its range, K.
    pub at_low_k: f64,
    /// The margin with it at the high end of its range, K.
    pub at_high_k: f64,
}

impl Influence {
    /// How far the margin moves from end to end, K.
    pub fn swing_k(&self) -> f64 {
        (self.at_high_k - self.at_low_k).abs()
    }
}

/// What each uncertain input does alone, the strongest first, from the outcomes of the single nights in their order.
/// Unknowns whose nights have no margin are left out.
pub fn influences(singles: &[Outcome]) -> Vec<Influence> {
    let margin = |outcome: &Outcome| outcome.as_ref().ok().and_then(|h| h.margin_k);
    let mut found: Vec<Influence> = singles
        .chunks_exact(2)
        .enumerate()
        .filter_map(|(doubt, ends)| {
            Some(Influence {
                doubt,
                at_low_k: margin(&ends[0])?,
                at_high_k: margin(&ends[1])?,
            })
        })
        .collect();
    found.sort_by(|a, b| b.swing_k().total_cmp(&a.swing_k()));
    found
}

/// The groups of uncertain inputs that get an index: the strongest alone, one by one, and all others together.
pub fn groups(influences: &[Influence], unknowns: usize) -> Vec<Vec<usize>> {
    let alone: Vec<usize> = influences.iter().take(INDEXED).map(|i| i.doubt).collect();
    let rest: Vec<usize> = (0..unknowns).filter(|i| !alone.contains(i)).collect();
    let mut groups: Vec<Vec<usize>> = alone.into_iter().map(|i| vec![i]).collect();
    if !rest.is_empty() {
        groups.push(rest);
    }
    groups
}

#[cfg(test)]
mod tests {
    use super::super::tests::scenario;
    use super::*;

    #[test]
    fn a_night_follows_from_its_number_and_mixed_ones_take_what_they_should() {
        let spread = Spread::of(&scenario(), 5).unwrap();
        let count = spread.inputs().len();
        let few = spread.samples(3);
        assert_eq!(few[..], spread.samples(8)[..3]);
        for (doubt, value) in &few[2].settings {
            let d = &spread.inputs()[*doubt];
            assert!(d.low <= *value && *value <= d.high, "{d:?} {value}");
        }
        let mixed = spread.mixed(&[vec![1], vec![0, 2]], 3);
        assert_eq!(mixed.len(), 9);
        assert_eq!(mixed.iter().map(|t| t.number).max(), Some(8));
        // Of the third point: the second one, then the first with one coordinate changed.
        let (second, one) = (&mixed[6].settings, &mixed[7].settings);
        let changed = |i: usize| one[i] != few[2].settings[i];
        assert!((0..count).all(|i| changed(i) == (i == 1)));
        assert_eq!(one[1], second[1]);
    }

    #[test]
    fn the_strongest_unknowns_stand_alone_and_the_rest_together() {
        let influences: Vec<Influence> = (0..10)
            .map(|doubt| Influence {
                doubt,
                at_low_k: 0.0,
                at_high_k: 10.0 - doubt as f64,
            })
            .collect();
        let groups = groups(&influences, 12);
        assert_eq!(groups.len(), INDEXED + 1);
        assert_eq!(groups[0], [0]);
        assert_eq!(groups[INDEXED], [8, 9, 10, 11]);
    }
}
