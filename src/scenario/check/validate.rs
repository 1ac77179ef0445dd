//! The gate itself: a scenario in, a checked one or every problem out.

use super::super::body::Body;
use super::super::clock::NightClock;
use super::super::document::Scenario;
use super::super::engine::Engine;
use super::super::heater::Aim;
use super::super::opposed;
use super::names::Names;
use super::problem::{Problem, Problems};
use super::simulated_time::end_s;
use super::{air, body, heaters, joints, layout, surroundings, weather};
use crate::document::{Read, RuleCheck};
use std::borrow::Cow;

/// A scenario whose names resolve and whose numbers are sane.
#[derive(Debug, Clone, PartialEq)]
pub struct CheckedScenario {
    scenario: Scenario,
    body: Body,
    clock: NightClock,
    aims: Vec<Aim>,
}

impl CheckedScenario {
    /// The scenario as it was written.
    pub fn scenario(&self) -> &Scenario {
        &self.scenario
    }
    /// The engine part by part; a Layout expanded.
    pub fn body(&self) -> &Body {
        &self.body
    }
    /// The same night cut finer or coarser, also beyond what a file may ask for: what a night costs with ten thousand
    /// cells is a question for benches.
    ///
    /// *Valid*: `resolution` of one or more.
    pub fn at_resolution(mut self, resolution: usize) -> Self {
        self.scenario.accuracy.resolution = resolution.max(1);
        self
    }
    /// The clock with its zone looked up.
    pub fn clock(&self) -> &NightClock {
        &self.clock
    }
    /// Where each heater is aimed, in the order of the scenario.
    pub fn aims(&self) -> &[Aim] {
        &self.aims
    }
    /// The end of the night that is followed, in seconds after the beginning.
    pub fn end_s(&self) -> f64 {
        end_s(&self.scenario, &self.clock)
    }
}

/// Resolves every name of a scenario and checks every number.
///
/// A Layout is expanded first, if its own numbers are sane. Nothing is corrected silently.
///
/// *Errors*: all problems found, in the order of the file's keys.
pub fn check(scenario: &Scenario) -> Result<CheckedScenario, Vec<Problem>> {
    let mut problems = Problems::default();
    let mut walk = RuleCheck::default();
    scenario.walk(&mut walk);
    for found in walk.into_found().into_iter().filter(|f| !f.warning) {
        problems.add(found);
    }
    let clock = surroundings::clock(&scenario.clock, &mut problems);
    let body = expanded(&scenario.engine, &mut problems);
    let mut aims = Vec::new();
    let named = body.as_deref().map(|b| {
        let names = Names::of(b, "engine", &mut problems);
        body::check(b, &names, &mut problems);
        joints::check(b, &names, &mut problems);
        air::check(b, &names, &mut problems);
        surroundings::covers(&scenario.covers, b, &names, &mut problems);
        surroundings::initial(&scenario.initial, &names, &mut problems);
        (b, names)
    });
    heaters::check_all(
        scenario,
        clock.as_ref(),
        named.as_ref().map(|(b, n)| (*b, n)),
        &mut aims,
        &mut problems,
    );
    surroundings::check(scenario, clock.as_ref(), &mut problems);
    weather::check(scenario, clock.as_ref(), &mut problems);
    match (body, clock) {
        (Some(body), Some(clock)) if problems.count() == 0 => Ok(CheckedScenario {
            scenario: scenario.clone(),
            body: body.into_owned(),
            clock,
            aims,
        }),
        _ => Err(problems.into_all()),
    }
}

fn expanded<'a>(engine: &'a Engine, problems: &mut Problems) -> Option<Cow<'a, Body>> {
    match engine {
        Engine::body(body) => Some(Cow::Borrowed(body)),
        Engine::opposed(layout) => {
            layout::check(layout, problems);
            let sound = problems.none_under("engine.");
            sound.then(|| Cow::Owned(opposed::expand(layout)))
        }
    }
}
