//! A comparison as a user writes it: one night, and several choices of heaters and coverings.

use super::fault::{ErrorList, Fault, FileError};
use super::library::{Kind, builtin};
use super::locate::{doubted, located_choice};
use super::night::{self, HeaterEntry, Loaded, NightFile, heaters, named_heaters};
use super::recognise::{mistaken, other_builtin};
use super::sources::{Outside, Sources, label};
use crate::document::{Node, Source, model, read};
use crate::scenario::check::{Problem, check};
use crate::scenario::cover::Covers;
use crate::scenario::document::Scenario;
use crate::scenario::plausibility::doubts;
use std::collections::BTreeSet;
use std::path::Path;

model! {
    /// What a comparison file holds.
    pub struct ComparisonFile {
        /// A name for the comparison.
        pub title: String;
        /// The night that all choices share: a built-in one, or a file beside this.
        pub night: String, example("\"my-night.ron\"");
        /// The choices.
        pub choices: Vec<ChoiceEntry>, example("[(name: \"fan\", heaters: [(heater: \"bay-fan-350w\")])]");
    }
}

model! {
    /// One choice.
    pub struct ChoiceEntry {
        /// What it is called.
        pub name: String;
        /// Its heaters, in place of those of the night.
        pub heaters: Vec<HeaterEntry> = Vec::new();
        /// Its coverings, if not those of the night.
        pub covers: Option<Covers> = None;
    }
}

/// Choices with the files they came from.
#[derive(Debug, Clone)]
pub struct LoadedComparison {
    /// The night that all share; its title is that of the comparison.
    pub base: Loaded,
    /// Each choice, by name.
    pub choices: Vec<(String, Scenario)>,
}

/// Reads a comparison from a file, or from standard input if it is called `-`; with or without names that lead out of
/// its folder.
///
/// *Errors*: what is wrong with the file or with those it names.
pub fn load_comparison_from(path: &Path, outside: Outside) -> Result<LoadedComparison, FileError> {
    let mut sources = Sources::beside(path).outside(outside);
    let source = sources.open(path)?;
    resolve(&source, sources)
}

/// A built-in comparison.
///
/// *Errors*: no comparison of this name.
pub fn load_builtin_comparison(name: &str) -> Result<LoadedComparison, FileError> {
    if let Some(fault) = other_builtin(name, Kind::Comparison) {
        return Err(fault.into());
    }
    let mut sources = Sources::builtin();
    let source = sources.text(Kind::Comparison, name, "the command line")?;
    resolve(&source, sources)
}

/// A comparison by its path, `-` for standard input, or by the name of a built-in one; with or without names that
/// lead out of its folder.
///
/// *Errors*: neither exists, or the file has faults.
pub fn load_named_comparison_from(
    name: &Path,
    outside: Outside,
) -> Result<LoadedComparison, FileError> {
    match name.to_str() {
        // A folder of that name hides nothing.
        Some(word) if builtin(Kind::Comparison, word).is_some() && !name.is_file() => {
            load_builtin_comparison(word)
        }
        Some(word) if word != "-" && name.extension().is_none() && !name.exists() => {
            load_builtin_comparison(word)
        }
        _ => load_comparison_from(name, outside),
    }
}

/// Whether what the night is unsure of is still there in a choice with heaters and perhaps covers of its own: nobody
/// doubts how well a plug fits that is not there.
fn stands(path: &str, covers: &Covers) -> bool {
    match path.strip_prefix("covers.") {
        Some("inlet_plug") => covers.inlet_plug > 0.0,
        Some("outlet_plug") => covers.outlet_plug > 0.0,
        Some("propeller") => covers.propeller.is_some(),
        Some(inner) if inner.starts_with("open_side") => covers.open_side.is_some(),
        Some(inner) => inner
            .strip_prefix("blankets.")
            .is_none_or(|pocket| covers.blankets.contains_key(pocket)),
        None => !path.starts_with("heaters["),
    }
}

fn resolve(source: &Source, mut sources: Sources) -> Result<LoadedComparison, FileError> {
    let file = source.file.as_str();
    let mut gathered = ErrorList::default();
    let reading = read::<ComparisonFile>(source);
    if reading.errors.count() > 0
        && let Some(fault) = mistaken(source, Kind::Comparison)
    {
        return Err(fault.into());
    }
    let root = reading.root;
    gathered.add(reading.errors.into_kept());
    gathered.add(names(&root, source));
    let (mut base, mut engine) = (None, String::new());
    if let Some(named) = root.at("night").and_then(Node::text) {
        let night = gathered.keep(sources.value::<NightFile>(Kind::Night, named, file));
        let label = label(Kind::Night, named);
        base = night.and_then(|night| {
            engine.clone_from(&night.engine);
            gathered.keep(night::resolve(&night, &label, &mut sources))
        });
    }
    let Some(comparison) = reading.value else {
        for choice in root.at("choices").map_or(&[][..], Node::items) {
            named_heaters(choice, file, &mut sources, &mut gathered);
        }
        return gathered.ended(None);
    };
    let mut choices = Vec::new();
    for choice in &comparison.choices {
        let heaters = gathered.keep(heaters(&choice.heaters, file, &mut sources));
        if let (Some(base), Some(heaters)) = (&base, heaters) {
            let mut scenario: Scenario = base.clone();
            scenario.heaters = heaters;
            if let Some(covers) = &choice.covers {
                scenario.covers = covers.clone();
            }
            let covers = &scenario.covers;
            scenario.uncertain.retain(|path, _| stands(path, covers));
            choices.push((choice.name.clone(), scenario));
        }
    }
    let mut base = gathered.ended(base)?;
    base.title = comparison.title;
    let base = Loaded {
        scenario: base,
        inputs: sources.inputs(),
        sources,
        file: file.to_owned(),
        engine,
    };
    Ok(LoadedComparison { base, choices })
}

impl LoadedComparison {
    /// What the gate refuses, of all choices.
    ///
    /// *Errors*: as [`LoadedComparison::audited`].
    pub fn audit(&self) -> Result<(), FileError> {
        self.audited(&|night| check(night).err().unwrap_or_default())
    }

    /// What `wrong` finds in the nights of all choices.
    ///
    /// *Errors*: every problem at its place, with the name of the choice it was found in; each once.
    pub fn audited(&self, wrong: &dyn Fn(&Scenario) -> Vec<Problem>) -> Result<(), FileError> {
        let mut gathered = ErrorList::default();
        let mut told: BTreeSet<(String, Option<(usize, usize)>)> = BTreeSet::new();
        for (choice, scenario) in &self.choices {
            let problems = wrong(scenario);
            let faults = located_choice(&problems, choice, &self.base.file, &self.base.sources);
            for mut fault in faults {
                // What all choices share is told of the first.
                if told.insert((fault.message.clone(), fault.line_and_column())) {
                    fault.message = format!("{}, in the choice \"{choice}\"", fault.message);
                    gathered.add([fault]);
                }
            }
        }
        gathered.ended(Some(()))
    }
}

impl LoadedComparison {
    /// Numbers of all choices that are hard to believe, each once, at their places.
    pub fn doubts(&self) -> Vec<Fault> {
        let mut all: Vec<Fault> = Vec::new();
        for (choice, scenario) in &self.choices {
            let found = doubts(scenario);
            for doubt in doubted(&found, Some(choice), &self.base.file, &self.base.sources) {
                if !all.contains(&doubt) {
                    all.push(doubt);
                }
            }
        }
        all
    }
}

/// There are choices, and each has a name of its own.
fn names(root: &Node, source: &Source) -> Vec<Fault> {
    let at = |message: String, path: &str, node: &Node| {
        let line = source.text[node.span.range()].lines().next().unwrap_or("");
        let start = node.span.start as usize;
        Fault::of(&source.file, message)
            .path(path)
            .at(source.text.clone(), start..start + line.trim_end().len())
    };
    let Some(choices) = root.at("choices") else {
        return Vec::new();
    };
    let mut errors = Vec::new();
    if choices.items().is_empty() {
        let message = "the comparison has no choices".to_owned();
        errors.push(
            at(message, "choices", choices)
                .suggest("choices: [(name: \"fan\", heaters: [(heater: \"bay-fan-350w\")])]"),
        );
    }
    let mut names = BTreeSet::new();
    for (i, choice) in choices.items().iter().enumerate() {
        if let Some(node) = choice.at("name")
            && let Some(name) = node.text()
            && !names.insert(name)
        {
            let message = format!("there are two choices named `{name}`");
            let path = format!("choices[{i}].name");
            errors.push(at(message, &path, node).suggest("give one of them another name"));
        }
    }
    errors
}
