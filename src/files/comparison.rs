//! A comparison as a user writes it: one night, and several choices of heaters and coverings.

use super::fault::{Fault, FileError};
use super::library::Kind;
use super::night::{self, HeaterEntry, Loaded, NightFile, heaters};
use super::outline::Outline;
use super::ron::parse;
use super::sources::{Outside, Sources, called, label};
use crate::scenario::cover::Covers;
use crate::scenario::document::Scenario;
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;
use std::path::Path;

/// What a comparison file holds.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename = "comparison")]
pub struct ComparisonFile {
    /// A name for the comparison.
    pub title: String,
    /// The night that all choices share: a built-in one, or a file beside this.
    pub night: String,
    /// The choices.
    pub choices: Vec<ChoiceEntry>,
}

/// One choice.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ChoiceEntry {
    /// What it is called.
    pub name: String,
    /// Its heaters, in place of those of the night.
    #[serde(default)]
    pub heaters: Vec<HeaterEntry>,
    /// Its coverings, if not those of the night.
    #[serde(default)]
    pub covers: Option<Covers>,
}

/// Choices with the files they came from.
#[derive(Debug, Clone)]
pub struct LoadedComparison {
    /// The night that all share; its title is that of the comparison.
    pub base: Loaded,
    /// Each choice, by name.
    pub choices: Vec<(String, Scenario)>,
}

/// Reads a comparison from a file, or from standard input if it is called `-`.
///
/// *Errors*: what is wrong with the file or with those it names.
pub fn load_comparison(path: &Path) -> Result<LoadedComparison, FileError> {
    load_comparison_from(path, Outside::Refused)
}

/// The same, with or without names that lead out of its folder.
///
/// *Errors*: what is wrong with the file or with those it names.
pub fn load_comparison_from(path: &Path, outside: Outside) -> Result<LoadedComparison, FileError> {
    let mut sources = Sources::beside(path).outside(outside);
    let text = sources.open(path)?;
    resolve(&called(path), &text, sources)
}

/// A built-in comparison.
///
/// *Errors*: no comparison of this name.
pub fn load_builtin_comparison(name: &str) -> Result<LoadedComparison, FileError> {
    let mut sources = Sources::builtin();
    let text = sources.text(Kind::Comparison, name, "the command line")?;
    resolve(&label(Kind::Comparison, name), &text, sources)
}

fn resolve(file: &str, text: &str, mut sources: Sources) -> Result<LoadedComparison, FileError> {
    let comparison: ComparisonFile = parse(file, text)?;
    no_name_twice(&comparison, file, text)?;
    let night: NightFile = sources.value(Kind::Night, &comparison.night, file)?;
    let mut base = night::resolve(&night, &label(Kind::Night, &comparison.night), &mut sources)?;
    let mut choices = Vec::new();
    for choice in &comparison.choices {
        let mut scenario = base.clone();
        scenario.heaters = heaters(&choice.heaters, file, &mut sources)?;
        if let Some(covers) = &choice.covers {
            scenario.covers = covers.clone();
        }
        choices.push((choice.name.clone(), scenario));
    }
    base.title = comparison.title;
    let base = Loaded {
        scenario: base,
        inputs: sources.inputs(),
        sources,
        file: file.to_owned(),
        engine: night.engine,
    };
    Ok(LoadedComparison { base, choices })
}

/// Choices are told apart by their names.
fn no_name_twice(comparison: &ComparisonFile, file: &str, text: &str) -> Result<(), Fault> {
    let mut names = BTreeSet::new();
    for (i, choice) in comparison.choices.iter().enumerate() {
        if !names.insert(&choice.name) {
            let what = format!("there are two choices named `{}`", choice.name);
            let fault = Fault::of(file, what).help("give one of them another name");
            let found = Outline::of(text).find(&format!("choices[{i}].name"));
            return Err(match found {
                Some(found) => fault.at(text, found.value),
                None => fault,
            });
        }
    }
    Ok(())
}
