//! Simulated nights of cases of one base night: every command gets its nights here, so that all count the same ones.

use super::case::{Case, CaseError};
use super::paired::Bands;
use super::path::Tree;
use super::quantile::Share;
use super::run::run_all;
use super::sample::{Samples, without_ranges};
use super::sample_result::SampleResult;
use crate::night::{Night, NightError, Precision};
use crate::scenario::document::Scenario;

/// How many simulated nights, and which.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SampleCount {
    /// Simulated nights of each case.
    pub nights: u32,
    /// Their seed.
    pub seed: u32,
}

impl Default for SampleCount {
    /// 256 nights: a chance of 75 % is known to 5 points.
    fn default() -> Self {
        Self {
            nights: 256,
            seed: 1,
        }
    }
}

/// What became of a night: its results, or why it could not be computed.
pub type Outcome = Result<SampleResult, String>;

/// How far a study has come, for a progress bar.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Progress {
    /// So many more nights are to be run.
    Planned(usize),
    /// A night was run.
    Done,
}

/// Called as the study advances.
pub type ProgressCallback<'a> = &'a (dyn Fn(Progress) + Sync);

/// A base night whose cases are simulated.
pub struct Simulation<'a> {
    /// The base night.
    pub base: Tree,
    /// How many nights of each case.
    pub count: SampleCount,
    /// Called as nights are done.
    pub progress: ProgressCallback<'a>,
}

/// A case with the ranges of its inputs.
#[derive(Debug, Clone)]
pub struct Subject {
    /// The night it makes.
    pub night: Scenario,
    tree: Tree,
    samples: Samples,
}

/// A simulated night to be run: of which subject, with which further change, and its number.
#[derive(Debug, Clone, Copy)]
pub struct Job<'j> {
    /// The subject.
    pub subject: &'j Subject,
    /// What is set after the sample.
    pub change: &'j Case,
    /// The number of the simulated night.
    pub number: u32,
}

impl<'a> Simulation<'a> {
    /// Simulated nights of cases of a base night.
    ///
    /// *Errors*: a base that cannot be written as a tree.
    pub fn of(
        base: &Scenario,
        count: SampleCount,
        progress: ProgressCallback<'a>,
    ) -> Result<Self, NightError> {
        Ok(Self {
            base: Tree::of(base)?,
            count,
            progress,
        })
    }

    /// A case of the base, ready to be simulated.
    ///
    /// *Errors*: a case that makes no night, or whose ranges have problems.
    pub fn subject(&self, case: &Case) -> Result<Subject, CaseError> {
        let night = case.clone().night(&self.base).map_err(|e| case.failed(e))?;
        let samples = Samples::of(&night, self.count.seed).map_err(|e| case.failed(e))?;
        let tree = Tree::of(&without_ranges(&night)).map_err(|e| case.failed(e))?;
        Ok(Subject {
            night,
            tree,
            samples,
        })
    }

    /// What some nights come to, in their order, whatever the number of threads.
    pub fn run(&self, jobs: &[Job]) -> Vec<Outcome> {
        self.run_rows(jobs, SampleResult::of)
    }

    /// What `row` makes of some nights, or why they could not be computed.
    pub fn run_rows<R: Send>(
        &self,
        jobs: &[Job],
        row: impl Fn(&Night) -> R + Sync,
    ) -> Vec<Result<R, String>> {
        (self.progress)(Progress::Planned(jobs.len()));
        let case = |number: usize| {
            let Job {
                subject,
                change,
                number,
            } = jobs[number];
            let settings = subject.samples.settings(number, &[]);
            let sample = subject.samples.case(&settings);
            (&subject.tree, sample.and(change.clone()))
        };
        run_all(Precision::Study, jobs.len(), case, |night| {
            (self.progress)(Progress::Done);
            night.map(|night| row(&night)).map_err(|e| e.to_string())
        })
    }

    /// All simulated nights of each subject with each change.
    pub fn all(&self, subjects: &[(&Subject, &Case)]) -> Vec<Vec<Outcome>> {
        let numbers = 0..self.count.nights;
        let jobs = subjects.iter().flat_map(|&(subject, change)| {
            numbers.clone().map(move |number| Job {
                subject,
                change,
                number,
            })
        });
        let outcomes = self.run(&jobs.collect::<Vec<_>>());
        let each = outcomes.chunks(self.count.nights.max(1) as usize);
        each.map(<[Outcome]>::to_vec).collect()
    }
}

/// Whether a night succeeded: one that could not be computed did not.
pub fn succeeded(outcome: &Outcome) -> bool {
    outcome.as_ref().is_ok_and(|result| result.ready)
}

/// The chance: the share of the nights that could be computed in which the engine is ready.
pub fn chance(outcomes: &[Outcome]) -> Option<Share> {
    let computed = outcomes.iter().filter(|o| o.is_ok()).count();
    Share::of(outcomes.iter().filter(|o| succeeded(o)).count(), computed)
}

/// What the simulated nights of one night come to.
///
/// *Errors*: a night whose ranges have problems.
pub fn simulate(
    night: &Scenario,
    count: SampleCount,
    progress: ProgressCallback,
) -> Result<Bands, NightError> {
    let simulation = Simulation::of(night, count, progress)?;
    let nothing = Case::named(&night.title);
    let subject = simulation.subject(&nothing).map_err(|e| e.source)?;
    let outcomes = simulation.all(&[(&subject, &nothing)]);
    Ok(Bands::of(&night.title, outcomes.iter().flatten().flatten()))
}
