//! What becomes of a plan when the night is not as it was thought: each answer is a real night.

use super::super::change::Change;
use super::search::{Probe, ProgressCallback, each_probed, least};
use super::starts::{Starts, Switches};
use crate::night::NightError;
use crate::scenario::document::Scenario;
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
pub fn reserve(
    switches: &Switches,
    scenario: &Scenario,
    starts: &[usize],
    what_ifs: &[WhatIf],
    tell: ProgressCallback,
) -> Option<Reserve> {
    let needed = what_ifs.iter().filter_map(|w| w.needed.as_ref());
    let earliest = needed.max_by_key(|s| s.iter().sum::<usize>())?;
    if earliest[..] == *starts {
        return None;
    }
    let changed = what_ifs.iter().map(|w| w.change.of(scenario));
    let nights: Vec<Scenario> = std::iter::once(scenario.clone())
        .chain(changed)
        .map(|scenario| switches.night(&scenario, earliest))
        .collect();
    let mut probes = each_probed(&nights, tell).into_iter().map(Result::ok);
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

/// The changes that are asked of every plan. Inlets without plugs have none to fit badly, and plugs that leak nothing
/// leak no more when they leak twice as much.
fn asked(scenario: &Scenario) -> Vec<Change> {
    let mut changes = vec![
        Change::Colder { kelvin: COLDER_K },
        Change::Draught { times: TIMES },
    ];
    if scenario.covers.inlet_plug > 0.0 && scenario.covers.inlet_plug < 1.0 {
        changes.push(Change::InletsOpened { times: TIMES });
    }
    changes
}

/// What becomes of a plan with each change, side by side; and the changes whose nights cannot be computed, which cost
/// nothing but themselves.
pub fn what_if(
    switches: &Switches,
    scenario: &Scenario,
    starts: &[usize],
    tell: ProgressCallback,
) -> (Vec<WhatIf>, Vec<Unsolved>) {
    let answers: Vec<_> = asked(scenario)
        .into_par_iter()
        .map(|change| {
            let answer = one(switches, scenario, starts, &change, tell);
            answer.map_err(|why| Unsolved { change, why })
        })
        .collect();
    apart(answers)
}

/// What is known, and what is not.
fn apart(answers: Vec<Result<Option<WhatIf>, Unsolved>>) -> (Vec<WhatIf>, Vec<Unsolved>) {
    let (mut told, mut unsolved) = (Vec::new(), Vec::new());
    for answer in answers {
        match answer {
            Ok(what_if) => told.extend(what_if),
            Err(failed) => unsolved.push(failed),
        }
    }
    (told, unsolved)
}

/// One change; none if the changed night has problems, such as a temperature below all that is believed.
fn one(
    switches: &Switches,
    scenario: &Scenario,
    starts: &[usize],
    change: &Change,
    tell: ProgressCallback,
) -> Result<Option<WhatIf>, NightError> {
    let changed = change.of(scenario);
    let idle = starts.iter().all(|&s| s == 0);
    let on = starts.iter().copied().filter(|&s| s > 0 || idle);
    let most = switches.most - on.min().unwrap_or(0);
    let make = |n: usize| switches.night(&changed, &switches.earlier(starts, n));
    // Most often the plan holds as it is, or the whole range has to be searched.
    let mut sought = least(0, SCAN_MIN, &make, tell)?;
    if sought.found.is_none() {
        sought = least(most, SCAN_MIN, &make, tell)?;
    }
    Ok(sought.at(0).cloned().map(|probe| WhatIf {
        change: change.clone(),
        probe,
        needed: sought.found.map(|n| switches.earlier(starts, n)),
    }))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::findings::Ready;
    use crate::solver::SolveError;

    #[test]
    fn a_night_that_cannot_be_computed_costs_no_other() {
        let known = |kelvin| WhatIf {
            change: Change::Colder { kelvin },
            probe: Probe {
                ready: Ready {
                    ready_at_departure: true,
                    margin_k: None,
                    unmet: Vec::new(),
                    slack_h: None,
                },
                coldest: None,
                kwh: 0.0,
            },
            needed: None,
        };
        let failed = Unsolved {
            change: Change::Draught { times: 2.0 },
            why: NightError::Solve(SolveError::NotANumber {
                time_h: 1.0,
                column: "x".to_owned(),
            }),
        };
        let answers = vec![
            Ok(Some(known(1.0))),
            Err(failed.clone()),
            Ok(None),
            Ok(Some(known(2.0))),
        ];
        let (told, unsolved) = apart(answers);
        assert_eq!(told, [known(1.0), known(2.0)]);
        assert_eq!(unsolved, [failed]);
    }
}
