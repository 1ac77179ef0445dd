//! What becomes of a plan when the night is not as it was thought: each answer is a real night.

use super::super::change::Change;
use super::search::{Probe, Teller, least, probed};
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

/// An earlier plan for who cannot measure: the earliest start that any of the changes needs, tried in all nights.
#[derive(Debug, Clone, PartialEq)]
pub struct Reserve {
    /// The starts.
    pub starts: Starts,
    /// What they come to in the night as it is written.
    pub as_it_is: Probe,
    /// In how many of the changed nights they are ready, and of how many.
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
///
/// *Errors*: a night that cannot be computed.
pub fn reserve(
    switches: &Switches,
    scenario: &Scenario,
    starts: &[usize],
    what_ifs: &[WhatIf],
    tell: Teller,
) -> Result<Option<Reserve>, NightError> {
    let needed = what_ifs.iter().filter_map(|w| w.needed.as_ref());
    let Some(earliest) = needed.max_by_key(|s| s.iter().sum::<usize>()) else {
        return Ok(None);
    };
    if earliest[..] == *starts {
        return Ok(None);
    }
    let changed = what_ifs.iter().map(|w| w.change.of(scenario));
    let nights: Vec<Scenario> = std::iter::once(scenario.clone())
        .chain(changed)
        .map(|scenario| switches.night(&scenario, earliest))
        .collect();
    let mut probes = probed(&nights, tell)?.into_iter();
    let Some(as_it_is) = probes.next().flatten() else {
        return Ok(None);
    };
    let is_ready = |p: &Option<Probe>| p.as_ref().is_some_and(|p| p.ready.ready_at_departure);
    Ok(Some(Reserve {
        starts: earliest.clone(),
        as_it_is,
        ready_in: (probes.filter(is_ready).count(), what_ifs.len()),
    }))
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
