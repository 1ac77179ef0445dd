//! What becomes of a plan when the night is not as it was thought: each answer is a real night.

use super::super::change::Change;
use super::search::{Probe, Teller, least};
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

/// The changes that are asked of every plan. Inlets without plugs have none to fit badly.
fn asked(scenario: &Scenario) -> Vec<Change> {
    let mut changes = vec![
        Change::Colder { kelvin: COLDER_K },
        Change::Draught { times: TIMES },
    ];
    if scenario.covers.inlet_plug > 0.0 {
        changes.push(Change::InletsOpened { times: TIMES });
    }
    changes
}

/// What becomes of a plan with each change, side by side.
///
/// *Errors*: a night that cannot be computed.
pub fn what_if(
    switches: &Switches,
    scenario: &Scenario,
    starts: &[usize],
    tell: Teller,
) -> Result<Vec<WhatIf>, NightError> {
    let answers: Vec<_> = asked(scenario)
        .into_par_iter()
        .map(|change| one(switches, scenario, starts, change, tell))
        .collect();
    answers.into_iter().filter_map(Result::transpose).collect()
}

/// One change; none if the changed night has problems, such as a temperature below all that is believed.
fn one(
    switches: &Switches,
    scenario: &Scenario,
    starts: &[usize],
    change: Change,
    tell: Teller,
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
        change,
        probe,
        needed: sought.found.map(|n| switches.earlier(starts, n)),
    }))
}
