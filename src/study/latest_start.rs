//! The latest switch-on time at which the chance is what is required, on the simulated nights that all commands count.
//!
//! Heating longer seldom hurts, so a night that is ready at some start is taken to be ready at every earlier one while the
//! latest start is searched: only nights that are still undecided are run. The start that is found is then run in all
//! nights, and its chance is counted. Where even the earliest start is not enough, later ones are tried too (water on the
//! walls may need less heat, not more), and the best is named.

use super::case::Case;
use super::paired::Bands;
use super::quantile::Share;
use super::sample_result::SampleResult;
use super::simulate::{Job, Outcome, Simulation, Subject, chance, succeeded};

/// Starts are whole multiples of this before departure, minutes: chances are known no finer.
pub const STEP_MIN: usize = 15;
/// Starts that are tried where the earliest is not enough, minutes apart at least.
const SCAN_MIN: usize = 60;
/// Later starts are tried if at least this share of the nights is warm and not ready.
const WORTH_A_SCAN: f64 = 0.02;
/// Nights in which these are tried first.
const SCAN_NIGHTS: u32 = 64;

/// A start with the nights it was run in.
#[derive(Debug, Clone, PartialEq)]
pub struct StartResult {
    /// Minutes before departure.
    pub minutes: usize,
    /// Whether the chance is what is required.
    pub reached: bool,
    /// The chance.
    pub chance: Share,
    /// What each simulated night came to.
    pub outcomes: Vec<Outcome>,
}

impl StartResult {
    /// The nights as quantiles, under this name.
    pub fn bands(&self, name: &str) -> Bands {
        Bands::of(name, self.outcomes.iter().flatten())
    }
}

/// How a start is searched: the subject, the case of a start so many minutes before departure, and the earliest.
pub struct StartSearch<'s> {
    /// The simulated nights.
    pub simulation: &'s Simulation<'s>,
    /// What is heated.
    pub subject: &'s Subject,
    /// The case of a start.
    pub case: &'s (dyn Fn(usize) -> Case + Sync),
    /// The earliest start, minutes before departure.
    pub most: usize,
    /// The chance that is required, 0 to 1.
    pub target: f64,
}

/// Whether a chance is what is required.
pub fn reaches(chance: Option<Share>, target: f64) -> bool {
    chance.is_some_and(|chance| chance.share >= target)
}

impl StartSearch<'_> {
    /// The starts that are considered, the latest first, the earliest last.
    fn starts(&self) -> Vec<usize> {
        let mut starts: Vec<usize> = (0..self.most).step_by(STEP_MIN).collect();
        starts.push(self.most);
        starts
    }

    /// All nights at a start; none if no night could be computed.
    pub fn at(&self, minutes: usize) -> Option<StartResult> {
        let all: Vec<u32> = (0..self.simulation.count.nights).collect();
        self.result(minutes, self.nights(minutes, &all))
    }

    fn result(&self, minutes: usize, outcomes: Vec<Outcome>) -> Option<StartResult> {
        let chance = chance(&outcomes)?;
        Some(StartResult {
            minutes,
            reached: reaches(Some(chance), self.target),
            chance,
            outcomes,
        })
    }

    fn nights(&self, minutes: usize, numbers: &[u32]) -> Vec<Outcome> {
        let change = (self.case)(minutes);
        let job = |&number: &u32| Job {
            subject: self.subject,
            change: &change,
            number,
        };
        self.simulation
            .run(&numbers.iter().map(job).collect::<Vec<_>>())
    }

    /// The latest start that reaches the chance; where none does, the one with the largest. `earliest` is what the nights
    /// come to at the earliest start, if that is known.
    pub fn latest(&self, earliest: Option<Vec<Outcome>>) -> Option<StartResult> {
        let earliest = match earliest {
            Some(outcomes) => self.result(self.most, outcomes)?,
            None => self.at(self.most)?,
        };
        if earliest.reached {
            self.bisect(earliest)
        } else {
            self.scan(earliest)
        }
    }

    /// The same from the chances of [`StartSearch::curve`].
    pub fn latest_on(&self, curve: &[(usize, Share)]) -> Option<StartResult> {
        let enough = |(_, share): &&(usize, Share)| share.share >= self.target;
        let reached = curve
            .iter()
            .rev()
            .filter(enough)
            .map(|(minutes, _)| *minutes);
        // The count decides, not what the curve assumes.
        let latest = reached
            .filter_map(|minutes| self.at(minutes))
            .find(|found| found.reached);
        latest.or_else(|| self.scan(self.at(self.most)?))
    }

    /// The latest start, where the earliest is enough.
    fn bisect(&self, earliest: StartResult) -> Option<StartResult> {
        let starts = self.starts();
        // What is known of each night: the latest start it is ready at, the earliest it is not, as places in the list.
        let nights = earliest.outcomes.len();
        let (mut not, mut enough) = (None, starts.len() - 1);
        let mut ready_at: Vec<Option<usize>> = vec![None; nights];
        let mut not_at: Vec<Option<usize>> = vec![None; nights];
        for (night, outcome) in earliest.outcomes.iter().enumerate() {
            match succeeded(outcome) {
                true => ready_at[night] = Some(enough),
                false => not_at[night] = Some(enough),
            }
        }
        let computed = earliest.chance.of as f64;
        loop {
            let low = not.map_or(0, |k: usize| k + 1);
            if low >= enough {
                break;
            }
            let middle = (low + enough) / 2;
            let undecided = (0..nights).filter(|&n| {
                let ready = ready_at[n].is_some_and(|k| k <= middle);
                let not = not_at[n].is_some_and(|k| k >= middle);
                !ready && !not
            });
            let undecided: Vec<u32> = undecided.map(|n| n as u32).collect();
            for (&night, outcome) in undecided
                .iter()
                .zip(self.nights(starts[middle], &undecided))
            {
                let night = night as usize;
                match succeeded(&outcome) {
                    true => {
                        ready_at[night] = Some(ready_at[night].map_or(middle, |k| k.min(middle)))
                    }
                    false => not_at[night] = Some(not_at[night].map_or(middle, |k| k.max(middle))),
                }
            }
            let ready = ready_at.iter().flatten().filter(|&&k| k <= middle).count();
            match ready as f64 >= self.target * computed {
                true => enough = middle,
                false => not = Some(middle),
            }
        }
        // The count decides, not what was assumed.
        for &minutes in &starts[enough..starts.len() - 1] {
            if let Some(found) = self.at(minutes).filter(|found| found.reached) {
                return Some(found);
            }
        }
        Some(earliest)
    }

    /// The chance at every start, the earliest first, from the latest start at which each night is ready. That is found by
    /// halving, as heating longer is taken never to hurt.
    pub fn curve(&self) -> Vec<(usize, Share)> {
        let starts = self.starts();
        let nights = self.simulation.count.nights as usize;
        // Of each night the places between which its latest start lies: not ready before `low`, ready from `high` on.
        let mut brackets: Vec<(usize, usize)> = vec![(0, starts.len()); nights];
        let mut failed = vec![false; nights];
        loop {
            let open: Vec<u32> = (0..nights as u32)
                .filter(|&n| {
                    let (low, high) = brackets[n as usize];
                    low < high && !failed[n as usize]
                })
                .collect();
            if open.is_empty() {
                break;
            }
            let changes: Vec<Case> = starts.iter().map(|&minutes| (self.case)(minutes)).collect();
            let middles = open.iter().map(|&n| {
                let (low, high) = brackets[n as usize];
                (n, (low + high) / 2)
            });
            let middles: Vec<(u32, usize)> = middles.collect();
            let job = |&(number, middle): &(u32, usize)| Job {
                subject: self.subject,
                change: &changes[middle],
                number,
            };
            let outcomes = self
                .simulation
                .run(&middles.iter().map(job).collect::<Vec<_>>());
            for (&(n, middle), outcome) in middles.iter().zip(outcomes) {
                let n = n as usize;
                match outcome {
                    Err(_) => failed[n] = true,
                    Ok(result) if result.ready => brackets[n].1 = middle,
                    Ok(_) => brackets[n].0 = middle + 1,
                }
            }
        }
        let computed = failed.iter().filter(|failed| !**failed).count();
        let ready_at = |place: usize| {
            let nights = brackets.iter().zip(&failed);
            nights
                .filter(|((low, _), failed)| !**failed && *low <= place)
                .count()
        };
        let at = |(place, &minutes)| Some((minutes, Share::of(ready_at(place), computed)?));
        starts.iter().enumerate().rev().filter_map(at).collect()
    }

    /// The start with the largest chance, where the earliest is not enough: later ones are tried in some of the nights, and
    /// the best of them in all if it is ready in more of those.
    fn scan(&self, earliest: StartResult) -> Option<StartResult> {
        // Less heat helps only where the engine is warm and not ready: for water.
        let warm = |o: &&SampleResult| !o.ready && o.margin_k.is_some_and(|m| m >= 0.0);
        let warm = earliest.outcomes.iter().flatten().filter(warm).count();
        if (warm as f64) < WORTH_A_SCAN * earliest.chance.of as f64 {
            return Some(earliest);
        }
        let some: Vec<u32> = (0..self.simulation.count.nights.min(SCAN_NIGHTS)).collect();
        let ready = |outcomes: &[Outcome]| outcomes.iter().filter(|o| succeeded(o)).count();
        let starts = (1..).map(|k| k * SCAN_MIN).take_while(|m| *m < self.most);
        let best = starts
            .map(|minutes| (ready(&self.nights(minutes, &some)), minutes))
            .max();
        let at_earliest = ready(&earliest.outcomes[..some.len().min(earliest.outcomes.len())]);
        let later = best.filter(|(ready, _)| *ready > at_earliest);
        let later = later.and_then(|(_, minutes)| self.at(minutes));
        Some(match later {
            Some(later) if later.chance.share > earliest.chance.share => later,
            _ => earliest,
        })
    }
}
