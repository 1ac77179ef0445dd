//! One night, from what was written to what it answers: the whole journey on one screen.

use crate::findings::{Findings, Steady, answer};
use crate::network::{Network, assemble};
use crate::scenario::check::{CheckedScenario, Problem, check};
use crate::scenario::document::{Accuracy, Scenario};
use crate::scenario::initial::InitialTemperature;
use crate::solver::{
    LaneJob, Solution, SolveError, SolverStats, SteadyError, integrate, integrate_lanes, steady,
};
use crate::trace::{Conservation, ConservationError, Trace};

/// A night that was computed.
#[derive(Debug, Clone)]
pub struct Night {
    /// The scenario it was computed from.
    pub scenario: CheckedScenario,
    /// What was recorded.
    pub trace: Trace,
    /// Where the joules and grams went.
    pub ledger: Conservation,
    /// What it answers.
    pub findings: Findings,
    /// Why there is no steady state, if none was found.
    pub unsettled: Option<SteadyError>,
    /// The work it took.
    pub effort: SolverStats,
}

/// Why a night was not computed.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum NightError {
    /// The scenario has problems, all of them listed.
    #[error("{}", joined(.0))]
    Problems(Vec<Problem>),
    /// The mathematics failed.
    #[error(transparent)]
    Solve(#[from] SolveError),
    /// The books do not close.
    #[error(transparent)]
    Conservation(#[from] ConservationError),
}

fn joined(problems: &[Problem]) -> String {
    let lines: Vec<String> = problems
        .iter()
        .map(|p| format!("{}: {}", p.path, p.what))
        .collect();
    lines.join("\n")
}

/// Computes a night.
///
/// *Errors*: every problem of the scenario; or where and why the mathematics failed; or books that do not
/// close within [`Conservation::ALLOWED`].
pub fn run(scenario: &Scenario) -> Result<Night, NightError> {
    let (checked, net) = prepared(scenario)?;
    let (tolerance, sample_s) = Precision::Full.of(scenario);
    let solution = integrate(&net, tolerance, sample_s).map_err(|e| timed(e, &checked))?;
    let (settled, unsettled) = match settled(&net, &solution) {
        Ok(settled) => (settled, None),
        Err(e) => (None, Some(e)),
    };
    let night = concluded(checked, solution, settled)?;
    Ok(Night { unsettled, ..night })
}

impl Scenario {
    /// Computes this night, as [`run`] does.
    ///
    /// *Errors*: every problem of the scenario; or where and why the mathematics failed; or a balance that does not close.
    pub fn run(&self) -> Result<Night, NightError> {
        run(self)
    }
}

/// How finely a night is computed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Precision {
    /// As its file says.
    Full,
    /// As one of many that are counted: a looser tolerance, and a record every five minutes.
    Study,
}

/// How much looser than the file's the tolerance of a night of a study is: the margin of the built-in nights moves by
/// 0.0003 K (measured by `tests/nights`).
const LOOSER: f64 = 64.0;
/// The same where a thermostat switches, as errors in its times add up, and for an engine that is warm at the beginning.
const LOOSER_SWITCHING: f64 = 4.0;
/// How far apart the records of a night of a study are, s.
const STUDY_RECORD_S: f64 = 300.0;

impl Precision {
    /// The tolerance and the time between two records, s, of a night.
    fn of(self, night: &Scenario) -> (f64, f64) {
        let Accuracy {
            tolerance,
            sample_s,
            ..
        } = night.accuracy;
        let switching = night
            .heaters
            .iter()
            .any(|heater| heater.thermostat.is_some());
        match self {
            Self::Full => (tolerance, sample_s),
            Self::Study
                if switching || night.initial.temperature != InitialTemperature::cold_soaked =>
            {
                (tolerance.max(LOOSER_SWITCHING), sample_s)
            }
            Self::Study => (tolerance.max(LOOSER), STUDY_RECORD_S),
        }
    }
}

/// Computes several nights, those whose networks differ in sizes only beside each other: faster than one by one, with
/// the same answers, whichever are given together. The steady state is not computed; [`Findings::steady`] is none.
///
/// *Errors*: of each night as [`run`].
pub fn run_lanes(scenarios: &[Scenario], precision: Precision) -> Vec<Result<Night, NightError>> {
    let nights: Vec<_> = scenarios.iter().map(prepared).collect();
    let wanted: Vec<LaneJob> = nights
        .iter()
        .flatten()
        .map(|(checked, net)| {
            let (tolerance, sample_s) = precision.of(checked.scenario());
            LaneJob {
                net,
                tolerance,
                sample_s,
            }
        })
        .collect();
    let mut solutions = integrate_lanes(&wanted).into_iter();
    nights
        .into_iter()
        .map(|night| {
            let (checked, _) = night?;
            let solution = solutions.next().expect("one solution for each network");
            let solution = solution.map_err(|e| timed(e, &checked))?;
            concluded(checked, solution, None)
        })
        .collect()
}

fn prepared(scenario: &Scenario) -> Result<(CheckedScenario, Network), NightError> {
    let checked = check(scenario).map_err(NightError::Problems)?;
    let net = assemble(&checked);
    Ok((checked, net))
}

fn timed(e: SolveError, checked: &CheckedScenario) -> SolveError {
    e.with_clock_time(|seconds| checked.clock().dated(seconds))
}

fn concluded(
    checked: CheckedScenario,
    solution: Solution,
    settled: Option<Steady>,
) -> Result<Night, NightError> {
    let scenario = checked.scenario();
    solution.ledger.check()?;
    let findings = answer(
        &solution.trace,
        &solution.ledger,
        &scenario.criteria,
        &scenario.oil,
        &scenario.circuit,
        settled,
    );
    Ok(Night {
        scenario: checked,
        trace: solution.trace,
        ledger: solution.ledger,
        findings,
        unsettled: None,
        effort: solution.effort,
    })
}

/// Where the night would settle; none if there is no engine part.
fn settled(net: &Network, solution: &Solution) -> Result<Option<Steady>, SteadyError> {
    let (from, on) = &solution.at_departure;
    let row = steady(net, from, on)?;
    Ok(Steady::of(&net.legend, &row))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::files::night::load_builtin;
    use crate::quantity::Temperature;

    /// A thermostat with hardly a span chatters: the reader has to know when, and which of the heaters it was.
    #[test]
    fn a_thermostat_that_does_not_rest_is_told_by_its_heater_and_the_clock() {
        let mut night = load_builtin("thermostat-pad").unwrap().scenario;
        let mut other = night.heaters[0].clone();
        other.thermostat = None;
        other.name = "another".to_owned();
        night.heaters.insert(0, other);
        let pad = night.heaters[1].thermostat.as_mut().unwrap();
        (pad.on_at, pad.off_at) = (Temperature::degC(10.0), Temperature::degC(10.001));
        night.heaters[0].power = crate::quantity::Power::W(1.0);
        let name = night.heaters[1].name.clone();
        let message = run(&night).unwrap_err().to_string();
        let said = format!(", most often \"{name}\": give its thermostat a wider span");
        assert!(message.ends_with(&said), "{message}");
        let Err(NightError::Solve(SolveError::Restless { time_h, clock, .. })) = run(&night) else {
            panic!("{message}");
        };
        // The night begins at 18:00.
        let minutes = (18.0 * 60.0 + 60.0 * time_h).round() as i64;
        let clock = clock.unwrap();
        let (hour, minute) = clock.split_once(':').unwrap();
        let shown = 60 * hour.parse::<i64>().unwrap() + minute.parse::<i64>().unwrap();
        let apart = (minutes - shown).rem_euclid(24 * 60);
        assert!(
            apart <= 1 || apart == 24 * 60 - 1,
            "{time_h} h is not {clock}"
        );
        assert!(
            message.contains(&format!("times by {clock}, ")),
            "{message}"
        );
    }
}
