//! What a command on nights starts with: files read, notes and warnings printed, and where its results come from.

use super::exit_code::Failure;
use super::flags::Flags;
use super::set::{Set, take_ranges_along};
use super::terminal;
use crate::files::comparison::{LoadedComparison, load_named_comparison_with};
use crate::files::fault::{FileError, InputError};
use crate::files::night::{Loaded, load_named_with};
use crate::night::NightError;
use crate::report::provenance::{InputJson, Provenance};
use crate::scenario::check::{CheckedScenario, check};
use crate::study::uncertain_inputs::outside_ranges;
use std::path::Path;

/// The comparison that runs when none is named.
const BUILT_IN: &str = "demo";

/// A night in the reader's units, and where results of it come from.
pub struct Session {
    /// The night.
    pub night: Loaded,
    /// Where its results come from.
    pub from: Provenance,
}

/// A comparison in the reader's units, and where results of it come from.
pub struct ComparisonSession {
    /// The comparison.
    pub comparison: LoadedComparison,
    /// Where its results come from.
    pub from: Provenance,
}

impl Session {
    /// A night by its path or its name, with values set in it.
    ///
    /// *Errors*: what is wrong with the file or with those it names, or with what is set.
    pub fn open(name: &str, set: &Set, flags: &Flags) -> Result<Self, Failure> {
        Self::open_with(name, set, flags, |_| Ok(()))
    }

    /// The same, changed before its warnings are printed.
    ///
    /// *Errors*: as [`Session::open`], and those of the change.
    pub fn open_with(
        name: &str,
        set: &Set,
        flags: &Flags,
        change: impl FnOnce(&mut Loaded) -> Result<(), Failure>,
    ) -> Result<Self, Failure> {
        let mut night = load_named_with(name, flags.outside(), &set.settings()?)?;
        take_ranges_along(&mut night.scenario, &mut night.set);
        night.scenario.units = flags.units_or(night.scenario.units);
        change(&mut night)?;
        let outside = night.located(&outside_ranges(&night.scenario));
        let warnings = [night.doubts(), outside].concat();
        let from = provenance(&night, &warnings, flags);
        Ok(Self { night, from })
    }

    /// The night, checked.
    ///
    /// *Errors*: what is wrong with it, at its places in the files.
    pub fn checked(&self) -> Result<CheckedScenario, Failure> {
        check(&self.night.scenario).map_err(|p| self.failure(NightError::Problems(p)))
    }

    /// The failure of a night that could not be computed: problems at their places in the files.
    pub fn failure(&self, e: NightError) -> Failure {
        match e {
            NightError::Problems(problems) => {
                FileError::Faults(self.night.located(&problems)).into()
            }
            other => Failure::Night(other),
        }
    }
}

impl ComparisonSession {
    /// A comparison by its path or its name; a built-in one if none is named.
    ///
    /// *Errors*: what is wrong with the file or with those it names.
    pub fn open(file: Option<&Path>, set: &Set, flags: &Flags) -> Result<Self, Failure> {
        let file = file.unwrap_or(Path::new(BUILT_IN));
        let settings = set.settings()?;
        let mut comparison = load_named_comparison_with(file, flags.outside(), &settings)?;
        comparison.validate()?;
        let base = &mut comparison.base;
        take_ranges_along(&mut base.scenario, &mut base.set);
        for choice in &mut comparison.choices {
            take_ranges_along(&mut choice.night, &mut choice.inherited);
            take_ranges_along(&mut choice.night, &mut choice.changes);
            choice.night.units = flags.units_or(choice.night.units);
        }
        let mut warnings = comparison.doubts();
        for choice in &comparison.choices {
            for warning in comparison.located(&outside_ranges(&choice.night), &choice.name) {
                if !warnings.contains(&warning) {
                    warnings.push(warning);
                }
            }
        }
        let from = provenance(&comparison.base, &warnings, flags);
        Ok(Self { comparison, from })
    }

    /// The failure of a choice that could not be computed: problems at their places in the files.
    pub fn failure(&self, choice: &str, e: NightError) -> Failure {
        match e {
            NightError::Problems(problems) => {
                let mut errors = self.comparison.located(&problems, choice);
                for error in &mut errors {
                    error.message = format!("{}, in the choice \"{choice}\"", error.message);
                }
                FileError::Faults(errors).into()
            }
            other => Failure::Night(other),
        }
    }
}

/// Prints notes and warnings unless quiet, and gives the provenance that holds them.
fn provenance(night: &Loaded, warnings: &[InputError], flags: &Flags) -> Provenance {
    let set = night.set.iter().map(|set| format!("set: {}", set.line()));
    let notes: Vec<String> = night.sources.notes().iter().cloned().chain(set).collect();
    terminal::notes(&notes, flags.quiet);
    terminal::warnings(warnings, flags.quiet);
    let typed = std::env::args_os().skip(1);
    let typed = typed.map(|word| word.to_string_lossy().into_owned());
    let inputs = night.inputs.iter().map(|input| InputJson {
        name: input.name.clone(),
        sha256: input.sha256.clone(),
    });
    let warnings = warnings.iter().map(ToString::to_string);
    Provenance::new(typed.collect(), inputs.collect()).noted(notes, warnings.collect())
}
