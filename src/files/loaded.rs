//! A scenario with the files it came from, and what the gate says of it where its text has faults as well.

use super::fault::InputError;
use super::locate::{doubted, located};
use super::settings::{SetValue, Setting};
use super::sources::{Input, Sources};
use crate::scenario::check::{Problem, check};
use crate::scenario::document::Scenario;
use crate::scenario::plausibility::doubts;

/// A scenario with the files it came from.
#[derive(Debug, Clone)]
pub struct Loaded {
    /// The scenario.
    pub scenario: Scenario,
    /// Every file that went into it.
    pub inputs: Vec<Input>,
    /// What was read, for faults that come to light later.
    pub sources: Sources,
    /// The file it came from.
    pub file: String,
    /// What its engine's file is called.
    pub engine: String,
    /// Values that were set in it.
    pub set: Vec<SetValue>,
    /// The settings they come from.
    pub settings: Vec<Setting>,
}

impl Loaded {
    /// Problems of the night at their places: those of a value that was set at its setting.
    pub fn located(&self, problems: &[Problem]) -> Vec<InputError> {
        settings_first(&self.settings, problems, |others| {
            located(others, &self.file, &self.sources)
        })
    }

    /// Its numbers that are hard to believe, at their places.
    pub fn doubts(&self) -> Vec<InputError> {
        doubted(&doubts(&self.scenario), None, &self.file, &self.sources)
    }
}

/// Problems as faults: those of a value that was set at its setting, the others as `elsewhere` has them.
pub(super) fn settings_first(
    settings: &[Setting],
    problems: &[Problem],
    elsewhere: impl Fn(&[Problem]) -> Vec<InputError>,
) -> Vec<InputError> {
    let mut faults = Vec::new();
    for problem in problems {
        let within = |s: &&Setting| s.holds(&problem.path);
        match settings.iter().rev().find(within) {
            Some(setting) => {
                let key = problem.path.rsplit('.').next().unwrap_or_default();
                let instead = problem.instead.as_ref();
                let instead = instead.map(|write| match &problem.word {
                    Some(word) => setting.with_word(word, write),
                    None => format!("{key}: {write}"),
                });
                let help = instead.or_else(|| problem.help.clone());
                faults.push(setting.error(&problem.what, help.as_deref()));
            }
            None => faults.extend(elsewhere(std::slice::from_ref(problem))),
        }
    }
    faults
}

/// What the gate refuses in a night whose text has keys that nothing was made of (`ignored`), but whose values are
/// all the user's own; nothing of what stands in the same brackets as such a key.
pub(super) fn refused_too(
    scenario: &Scenario,
    ignored: &[String],
    file: &str,
    sources: &Sources,
) -> Vec<InputError> {
    if ignored.is_empty() {
        return Vec::new();
    }
    let mut problems = check(scenario).err().unwrap_or_default();
    problems.retain(|problem| !ignored.iter().any(|key| beside(key, &problem.path)));
    located(&problems, file, sources)
}

/// Whether a path stands in the same brackets as a key, below the outermost.
fn beside(key: &str, path: &str) -> bool {
    key.rfind(['.'])
        .is_some_and(|dot| path.starts_with(&key[..dot]))
}
