//! A comparison as a user writes it: one night, and several choices of heaters and coverings.

use super::fault::FileError;
use super::library::{Kind, builtin};
use super::night::{HeaterEntry, Loaded, heaters, load, load_builtin};
use super::ron::parse;
use super::sources::Sources;
use crate::scenario::cover::Covers;
use crate::scenario::document::Scenario;
use serde::{Deserialize, Serialize};
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

/// Reads a comparison from a file.
///
/// *Errors*: what is wrong with the file or with those it names.
pub fn load_comparison(path: &Path) -> Result<LoadedComparison, FileError> {
    let mut sources = Sources::beside(path);
    let text = sources.open(path)?;
    let file = path.display().to_string();
    let comparison: ComparisonFile = parse(&file, &text)?;
    let base = if builtin(Kind::Night, &comparison.night).is_some() {
        load_builtin(&comparison.night)?
    } else {
        // Names the file for the fault, and keeps it inside the folder.
        sources.text(Kind::Night, &comparison.night, &file)?;
        load(
            &path
                .parent()
                .unwrap_or(Path::new(""))
                .join(&comparison.night),
        )?
    };
    resolve(&comparison, &file, sources, base)
}

/// A built-in comparison.
///
/// *Errors*: no comparison of this name.
pub fn load_builtin_comparison(name: &str) -> Result<LoadedComparison, FileError> {
    let mut sources = Sources::builtin();
    let text = sources.text(Kind::Comparison, name, "the command line")?;
    let comparison: ComparisonFile = parse(name, &text)?;
    let base = load_builtin(&comparison.night)?;
    resolve(&comparison, name, sources, base)
}

fn resolve(
    comparison: &ComparisonFile,
    file: &str,
    mut sources: Sources,
    mut base: Loaded,
) -> Result<LoadedComparison, FileError> {
    let mut choices = Vec::new();
    for choice in &comparison.choices {
        let mut scenario = base.scenario.clone();
        scenario.heaters = heaters(&choice.heaters, file, &mut sources)?;
        if let Some(covers) = &choice.covers {
            scenario.covers = covers.clone();
        }
        choices.push((choice.name.clone(), scenario));
    }
    sources.absorb(&base.sources);
    base.scenario.title.clone_from(&comparison.title);
    base.inputs = sources.inputs();
    base.sources = sources;
    base.file = file.to_owned();
    Ok(LoadedComparison { base, choices })
}
