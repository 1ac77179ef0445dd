//! The least whole number for which a night is ready: a scan, then the bracket divided until it is one wide.
//!
//! Readiness need not be monotone (water on the walls is not), so the whole range is scanned first and what lies
//! beyond the answer is kept: a caller sees where more is not better. The first bracket of the scan, from not
//! ready to ready, is then divided by six until its ends are neighbours. Every number is a real night; nights of
//! one round run side by side, and the rounds do not depend on the number of threads.

use super::super::case::Case;
use super::super::path::Tree;
use super::super::run::{run_all, run_one};
use super::super::simulate::{Progress, ProgressCallback};
use super::starts::Switches;
use crate::findings::{Coldest, Ready};
use crate::night::{Night, NightError, Precision};
use crate::scenario::document::Scenario;

/// Points that are tried inside a bracket in one round.
const INSIDE: usize = 5;

/// What one of the tried nights came to.
#[derive(Debug, Clone, PartialEq)]
pub struct Probe {
    /// Ready or not, by how much, and what was not met.
    pub ready: Ready,
    /// The coldest engine part at the departure.
    pub coldest: Option<Coldest>,
    /// Energy drawn until the departure, kWh.
    pub kwh: f64,
}

/// What a search found.
#[derive(Debug, Clone, PartialEq)]
pub struct SearchResult {
    /// The least number that is ready, none if none of those tried is.
    pub found: Option<usize>,
    /// Every number tried, rising, with what its night came to; none where the scenario has problems.
    pub tried: Vec<(usize, Option<Probe>)>,
}

impl Probe {
    /// What a night came to.
    pub fn of(night: &Night) -> Self {
        let f = &night.findings;
        Self {
            ready: f.ready.clone(),
            coldest: f.coldest.clone(),
            kwh: f.energy.kwh,
        }
    }
}

impl SearchResult {
    /// What a tried number came to.
    pub fn at(&self, number: usize) -> Option<&Probe> {
        let tried = self.tried.iter().find(|(n, _)| *n == number);
        tried.and_then(|(_, probe)| probe.as_ref())
    }
}

fn ready((_, probe): &(usize, Option<Probe>)) -> bool {
    probe.as_ref().is_some_and(|p| p.ready.ready_at_departure)
}

/// The night whose starts are searched, and where progress goes.
pub struct Search<'a> {
    /// The night as it is written.
    pub night: &'a Scenario,
    /// What can be switched.
    pub switches: Switches,
    base: Tree,
    progress: ProgressCallback<'a>,
}

impl<'a> Search<'a> {
    /// The search for the starts of a night.
    ///
    /// *Errors*: those of [`Switches::of`].
    pub fn of(night: &'a Scenario, progress: ProgressCallback<'a>) -> Result<Self, NightError> {
        Ok(Self {
            switches: Switches::of(night)?,
            base: Tree::of(night)?,
            night,
            progress,
        })
    }

    /// The night of a case with its steady state.
    ///
    /// *Errors*: those of [`run_one`].
    pub fn run(&self, case: Case) -> Result<Night, NightError> {
        (self.progress)(Progress::Planned(1));
        let night = run_one(&self.base, case);
        (self.progress)(Progress::Done);
        night
    }

    /// What cases come to, in order; none for one with problems.
    pub fn probes(&self, cases: &[Case]) -> Vec<Result<Option<Probe>, NightError>> {
        (self.progress)(Progress::Planned(cases.len()));
        let case = |number: usize| (&self.base, cases[number].clone());
        run_all(Precision::Full, cases.len(), case, |night| {
            (self.progress)(Progress::Done);
            match night {
                Ok(night) => Ok(Some(Probe::of(&night))),
                Err(NightError::Problems(_)) => Ok(None),
                Err(other) => Err(other),
            }
        })
    }

    /// The same of the cases of these numbers.
    ///
    /// *Errors*: the first night, in order, that cannot be computed.
    fn tried(
        &self,
        numbers: &[usize],
        case: &dyn Fn(usize) -> Case,
    ) -> Result<Vec<(usize, Option<Probe>)>, NightError> {
        let cases: Vec<Case> = numbers.iter().map(|&n| case(n)).collect();
        let probes = numbers.iter().zip(self.probes(&cases));
        probes.map(|(&n, probe)| Ok((n, probe?))).collect()
    }

    /// The least number from 0 to `most` whose night is ready; the range is scanned at steps of `step` first.
    ///
    /// *Errors*: a night that cannot be computed. A case with problems counts as not ready.
    pub fn least(
        &self,
        most: usize,
        step: usize,
        case: &dyn Fn(usize) -> Case,
    ) -> Result<SearchResult, NightError> {
        let mut numbers: Vec<usize> = (0..most).step_by(step.max(1)).collect();
        numbers.push(most);
        let mut tried = self.tried(&numbers, case)?;
        let Some(first) = tried.iter().position(ready) else {
            return Ok(SearchResult { found: None, tried });
        };
        let mut high = tried[first].0;
        let mut low = first.checked_sub(1).map(|k| tried[k].0);
        while let Some(below) = low.filter(|&below| high - below > 1) {
            let inside = self.tried(&divided(below, high), case)?;
            match inside.iter().position(ready) {
                Some(k) => {
                    high = inside[k].0;
                    low = Some(k.checked_sub(1).map_or(below, |k| inside[k].0));
                }
                None => low = inside.last().map(|(n, _)| *n),
            }
            tried.extend(inside);
        }
        tried.sort_by_key(|(n, _)| *n);
        Ok(SearchResult {
            found: Some(high),
            tried,
        })
    }
}

/// Whole numbers that divide a bracket evenly.
fn divided(low: usize, high: usize) -> Vec<usize> {
    let wide = high - low;
    let points = INSIDE.min(wide - 1);
    (1..=points)
        .map(|k| low + (k * wide).div_ceil(points + 1).min(wide - 1))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bracket_is_divided_inside_and_never_at_its_ends() {
        assert_eq!(divided(30, 60), [35, 40, 45, 50, 55]);
        assert_eq!(divided(0, 2), [1]);
        assert_eq!(divided(0, 5), [1, 2, 3, 4]);
        for wide in 2..200 {
            let points = divided(7, 7 + wide);
            assert!(points.windows(2).all(|two| two[0] < two[1]), "{points:?}");
            assert!(points[0] > 7 && points[points.len() - 1] < 7 + wide);
        }
    }
}
