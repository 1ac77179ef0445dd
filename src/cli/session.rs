//! What a command on nights starts with: files read, notes and warnings printed, and where its results come from.

use super::exit_code::Failure;
use super::flags::Flags;
use super::terminal;
use crate::files::comparison::{
    LoadedComparison, load_builtin_comparison, load_named_comparison_from,
};
use crate::files::fault::{FileError, InputError};
use crate::files::night::{Loaded, load_named_from};
use crate::night::NightError;
use crate::report::provenance::{InputJson, Provenance};
use crate::scenario::check::{CheckedScenario, check};
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
    /// A night by its path or its name.
    ///
    /// *Errors*: what is wrong with the file or with those it names.
    pub fn open(name: &str, flags: &Flags) -> Result<Self, Failure> {
        Self::open_with(name, flags, |_| Ok(()))
    }

    /// The same, changed before its warnings are printed.
    ///
    /// *Errors*: as [`Session::open`], and those of the change.
    pub fn open_with(
        name: &str,
        flags: &Flags,
        change: impl FnOnce(&mut Loaded) -> Result<(), Failure>,
    ) -> Result<Self, Failure> {
        let mut night = load_named_from(name, flags.outside())?;
        night.scenario.units = flags.units_or(night.scenario.units);
        change(&mut night)?;
        let from = provenance(&night, &night.doubts(), flags);
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
    pub fn open(file: Option<&Path>, flags: &Flags) -> Result<Self, Failure> {
        let mut comparison = match file {
            Some(file) => load_named_comparison_from(file, flags.outside())?,
            None => load_builtin_comparison(BUILT_IN)?,
        };
        comparison.audit()?;
        for choice in &mut comparison.choices {
            choice.night.units = flags.units_or(choice.night.units);
        }
        let from = provenance(&comparison.base, &comparison.doubts(), flags);
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
    let notes = night.sources.notes();
    terminal::notes(notes, flags.quiet);
    terminal::warnings(warnings, flags.quiet);
    let typed = std::env::args_os().skip(1);
    let typed = typed.map(|word| word.to_string_lossy().into_owned());
    let inputs = night.inputs.iter().map(|input| InputJson {
        name: input.name.clone(),
        sha256: input.sha256.clone(),
    });
    let warnings = warnings.iter().map(ToString::to_string);
    Provenance::new(typed.collect(), inputs.collect()).noted(notes.to_vec(), warnings.collect())
}
