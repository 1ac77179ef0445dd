//! What becomes of a plan when the night is not as it was thought: each answer is a real night.

use super::super::case::Case;
use super::super::change::Change;
use super::search::{Probe, Search};
use super::starts::Starts;
use crate::night::NightError;
use crate::scenario::document::Scenario;
use rayon::iter::Either;
use rayon::prelude::*;

/// How much colder the night is, K: what an evening forecast of the minimum is wrong by, now and then (estimate).
const COLDER_K: f64 = 3.0;
/// How many times as draughty, and how many times as leaky the inlets are (estimates; air in a hangar and the fit
/// of foam plugs are known no better).
const TIMES: f64 = 2.0;
/// Steps of the scan for an earlier start, minutes.
const SCAN_MIN: usize = 30;

/// A plan in another night.
#[derive(Debug, Clone, PartialEq)]
pub struct WhatIf {
    /// What is different.
    pub change: Change,
    /// What the plan comes to.
    pub probe: Probe,
    /// The starts it would need, all earlier by as much; the plan's own if they still do, none if none does.
    pub needed: Option<Starts>,
}

/// A changed night that could not be computed, so that nothing is known of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Unsolved {
    /// What is different in it.
    pub change: Change,
    /// Why it could not be computed.
    pub why: NightError,
}

/// An earlier plan for who cannot measure: the earliest start that any of the changes needs, tried in all nights.
#[derive(Debug, Clone, PartialEq)]
pub struct Reserve {
    /// The starts.
    pub starts: Starts,
    /// What they come to in the night as it is written.
    pub as_it_is: Probe,
    /// In how many of the changed nights they are ready, and of how many. One that cannot be computed with these
    /// starts counts as not ready.
    pub ready_in: (usize, usize),
}

impl Reserve {
    /// Whether it is ready in every one of these nights.
    pub fn holds(&self) -> bool {
        self.as_it_is.ready.ready_at_departure && self.ready_in.0 == self.ready_in.1
    }
}

/// Tries the earliest start that any change needs; none if the plan itself is the earliest.
///
/// Heating earlier may make it worse (water), so that start is a plan only if it was computed.
pub fn reserve(search: &Search, starts: &[usize], what_ifs: &[WhatIf]) -> Option<Reserve> {
    let needed = what_ifs.iter().filter_map(|w| w.needed.as_ref());
    let earliest = needed.max_by_key(|s| s.iter().sum::<usize>())?;
    if earliest[..] == *starts {
        return None;
    }
    let changed = what_ifs.iter().map(|w| w.change.case(search.night));
    let cases: Vec<Case> = std::iter::once(Case::default())
        .chain(changed)
        .map(|case| case.and(search.switches.case(earliest)))
        .collect();
    let mut probes = search.probes(&cases).into_iter().map(Result::ok);
    let as_it_is = probes.next()???;
    let is_ready = |p: &Probe| p.ready.ready_at_departure;
    Some(Reserve {
        starts: earliest.clone(),
        as_it_is,
        ready_in: (
            probes.flatten().flatten().filter(is_ready).count(),
            what_ifs.len(),
        ),
    })
}

/// The changes that are tried with every plan. Inlets without plugs have none to fit badly, and plugs that leak nothing
/// leak no more when they leak twice as much.
fn tried(scenario: &Scenario) -> Vec<Change> {
    let mut changes = vec![
        Change::Colder { kelvin: COLDER_K },
        Change::Draught { times: TIMES },
    ];
    if scenario.covers.inlet_plug > 0.0 && scenario.covers.inlet_plug < 1.0 {
        changes.push(Change::InletsOpened { times: TIMES });
    }
    changes
}

/// What becomes of a plan with each change; and the changes whose nights cannot be computed.
pub fn what_if(search: &Search, starts: &[usize]) -> (Vec<WhatIf>, Vec<Unsolved>) {
    let changes = tried(search.night);
    let (answers, unsolved) = each(&changes, Change::clone, |change| {
        one(search, starts, change)
    });
    (answers.into_iter().flatten().collect(), unsolved)
}

/// The answers of all, side by side; and the changes of those whose nights cannot be computed, which cost nothing but
/// themselves.
pub fn each<T: Sync, A: Send>(
    all: &[T],
    change: impl Fn(&T) -> Change + Sync,
    answer: impl Fn(&T) -> Result<A, NightError> + Sync,
) -> (Vec<A>, Vec<Unsolved>) {
    let unsolved = |one: &T, why| Unsolved {
        change: change(one),
        why,
    };
    all.par_iter().partition_map(|one| match answer(one) {
        Ok(answer) => Either::Left(answer),
        Err(why) => Either::Right(unsolved(one, why)),
    })
}

/// One change; none if the changed night has problems, such as an implausible temperature.
fn one(search: &Search, starts: &[usize], change: &Change) -> Result<Option<WhatIf>, NightError> {
    let switches = &search.switches;
    let changed = change.case(search.night);
    let idle = starts.iter().all(|&s| s == 0);
    let on = starts.iter().copied().filter(|&s| s > 0 || idle);
    let most = switches.most - on.min().unwrap_or(0);
    let case = |n: usize| {
        changed
            .clone()
            .and(switches.case(&switches.earlier(starts, n)))
    };
    // Most often the plan holds as it is, or the whole range has to be searched.
    let mut found = search.least(0, SCAN_MIN, &case)?;
    if found.found.is_none() {
        found = search.least(most, SCAN_MIN, &case)?;
    }
    Ok(found.at(0).cloned().map(|probe| WhatIf {
        change: change.clone(),
        probe,
        needed: found.found.map(|n| switches.earlier(starts, n)),
    }))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::solver::SolveError;

    #[test]
    fn a_night_that_cannot_be_computed_costs_no_other() {
        let failed = NightError::Solve(SolveError::NotANumber {
            time_h: 1.0,
            column: "x".to_owned(),
        });
        let change = |&kelvin: &f64| Change::Colder { kelvin };
        let answer = |&kelvin: &f64| match kelvin {
            2.0 => Err(failed.clone()),
            kelvin => Ok(kelvin),
        };
        let (answers, unsolved) = each(&[1.0, 2.0, 3.0], change, answer);
        assert_eq!(answers, [1.0, 3.0]);
        let why = failed;
        let change = Change::Colder { kelvin: 2.0 };
        assert_eq!(unsolved, [Unsolved { change, why }]);
    }
}
