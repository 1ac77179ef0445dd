//! The gate: names resolve and numbers are sane, or every problem is told at once.

use super::body::Body;
use super::clock::NightClock;
use super::document::Scenario;
use super::heater::Aim;

/// Something wrong with a scenario.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    /// Where it stands, as a path of keys: `heaters[0].thermostat.lo`.
    pub path: String,
    /// The word to underline in the file, if one names the culprit.
    pub word: Option<String>,
    /// What is wrong, in one sentence.
    pub what: String,
    /// What would mend it.
    pub help: Option<String>,
}

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
    /// The clock with its zone looked up.
    pub fn clock(&self) -> &NightClock {
        &self.clock
    }
    /// Where each heater is aimed, in the order of the scenario.
    pub fn aims(&self) -> &[Aim] {
        &self.aims
    }
}
