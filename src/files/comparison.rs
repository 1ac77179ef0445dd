//! A comparison as a user writes it: one night, and several choices of heaters and coverings.

use super::fault::{ErrorList, FileError, InputError};
use super::library::{Kind, builtin};
use super::loaded::settings_first;
use super::locate::{doubted, located_choice};
use super::night::{self, HeaterEntry, Loaded, NightFile, named_heaters};
use super::recognise::{mistaken, other_builtin};
use super::settings::{Setting, in_night, in_scenario};
pub use super::shared::Choice;
use super::shared::Shared;
use super::sources::{Outside, Sources, label};
use super::weather_entry::WeatherEntry;
use crate::document::{Name, Node, Source, model, parse, read};
use crate::quantity::Temperature;
use crate::scenario::check::{Problem, check};
use crate::scenario::circuit::Circuit;
use crate::scenario::clock::Moment;
use crate::scenario::cover::Covers;
use crate::scenario::criteria::Criteria;
use crate::scenario::document::Scenario;
use crate::scenario::initial::Initial;
use crate::scenario::plausibility::doubts;
use crate::scenario::uncertain::Uncertain;
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

model! {
    /// What a comparison file holds.
    pub struct ComparisonFile {
        /// A name for the comparison; that of its night if none is given.
        pub title: String = String::new();
        /// The night that all choices share: a built-in one, or a file beside this.
        pub night: String, example("\"my-night.ron\"");
        /// The choices.
        pub choices: Vec<ChoiceEntry>, example("[(name: \"fan\", heaters: [(heater: \"bay-fan-350w\")])]");
    }
}

model! {
    /// One choice: what it does not write is as in the night. Groups are merged into those of the night key by key;
    /// `heaters` is one value.
    pub struct ChoiceEntry {
        /// What it is called.
        pub name: String;
        /// Its heaters, in place of those of the night; `[]` is none.
        pub heaters: Option<Vec<HeaterEntry>> = None;
        /// Plugs, blankets and what is left open.
        pub covers: Option<Covers> = None;
        /// The engine's name.
        pub engine: Option<String> = None;
        /// The oil's name.
        pub oil: Option<String> = None;
        /// The hangar's name.
        pub hangar: Option<String> = None;
        /// The hangar's temperature when the night begins.
        pub hangar_start: Option<Temperature>, limits(-60.0, 60.0) = None;
        /// The weather.
        pub weather: Option<WeatherEntry> = None;
        /// When it begins and when the aeroplane leaves.
        pub clock: Option<ChoiceClock> = None;
        /// How warm and how wet the engine is at the beginning.
        pub initial: Option<Initial> = None;
        /// The electric circuit.
        pub circuit: Option<Circuit> = None;
        /// What is required.
        pub criteria: Option<Criteria> = None;
        /// Which numbers are uncertain.
        pub uncertain: Option<Uncertain> = None;
        /// Any value by its path, such as `{ "hangar.cabin_above": K(5) }`.
        @[serde(skip)]
        pub set: BTreeMap<String, Node> = BTreeMap::new();
    }
}

model! {
    /// The clock of a choice: what it does not write is as in the night.
    pub struct ChoiceClock {
        /// The first moment of the night.
        pub begin: Option<Moment> = None;
        /// When the engine is to be started.
        pub departure: Option<Moment>, example("\"07:30\"") = None;
        /// The IANA name of the local time zone.
        pub zone: Option<String> = None;
    }
}

/// Choices with the files they came from.
#[derive(Debug, Clone)]
pub struct LoadedComparison {
    /// The night that all share; its title is that of the comparison.
    pub base: Loaded,
    /// Each choice.
    pub choices: Vec<Choice>,
}

/// Reads a comparison from a file, or from standard input if it is called `-`; with or without names that lead out of
/// its folder.
///
/// *Errors*: what is wrong with the file or with those it names.
pub fn load_comparison_from(path: &Path, outside: Outside) -> Result<LoadedComparison, FileError> {
    comparison_with(path, outside, &[])
}

fn comparison_with(
    path: &Path,
    outside: Outside,
    settings: &[Setting],
) -> Result<LoadedComparison, FileError> {
    let mut sources = Sources::beside(path).outside(outside);
    let source = sources.open(path)?;
    resolve(&source, sources, settings)
}

/// A built-in comparison.
///
/// *Errors*: no comparison of this name.
pub fn load_builtin_comparison(name: &str) -> Result<LoadedComparison, FileError> {
    builtin_with(name, &[])
}

fn builtin_with(name: &str, settings: &[Setting]) -> Result<LoadedComparison, FileError> {
    if let Some(fault) = other_builtin(name, Kind::Comparison) {
        return Err(fault.into());
    }
    let mut sources = Sources::builtin();
    let source = sources.text(Kind::Comparison, name, "the command line")?;
    resolve(&source, sources, settings)
}

/// A comparison by its path, `-` for standard input, or by the name of a built-in one; with or without names that
/// lead out of its folder.
///
/// *Errors*: neither exists, or the file has faults.
pub fn load_named_comparison_from(
    name: &Path,
    outside: Outside,
) -> Result<LoadedComparison, FileError> {
    load_named_comparison_with(name, outside, &[])
}

/// The same, with values set in the night that all choices share.
///
/// *Errors*: as [`load_named_comparison_from`], and every setting that cannot be made.
pub fn load_named_comparison_with(
    name: &Path,
    outside: Outside,
    settings: &[Setting],
) -> Result<LoadedComparison, FileError> {
    match name.to_str() {
        // A folder of that name hides nothing.
        Some(word) if builtin(Kind::Comparison, word).is_some() && !name.is_file() => {
            builtin_with(word, settings)
        }
        Some(word) if word != "-" && name.extension().is_none() && !name.exists() => {
            builtin_with(word, settings)
        }
        _ => comparison_with(name, outside, settings),
    }
}

fn resolve(
    source: &Source,
    mut sources: Sources,
    settings: &[Setting],
) -> Result<LoadedComparison, FileError> {
    let file = source.file.as_str();
    let mut gathered = ErrorList::default();
    let reading = read::<ComparisonFile>(source);
    if reading.errors.count() > 0
        && let Some(fault) = mistaken(source, Kind::Comparison)
    {
        return Err(fault.into());
    }
    let root = reading.root;
    let errors = reading.errors.into_kept();
    let faulty = |choice: &str| errors.iter().any(|error| error.path.starts_with(choice));
    gathered.extend(errors.clone());
    gathered.extend(names(&root, source));
    let (mut shared, mut written) = (None, None);
    if let Some(named) = root.at("night").and_then(Node::text) {
        let night = gathered.keep(sources.value::<NightFile>(Kind::Night, named, file));
        let label = label(Kind::Night, named);
        written = sources.named(&label).map(|source| parse(source).root);
        shared = night.and_then(|night| {
            let changed = in_night(&night, written.as_ref(), settings, &mut gathered)?;
            let base = gathered.keep(night::resolve(&changed.night, None, &label, &mut sources))?;
            let (base, models) = in_scenario(base, &changed.of_models, &mut gathered)?;
            Some((changed, base, models))
        });
    }
    let Some(comparison) = reading.value else {
        for choice in root.at("choices").map_or(&[][..], Node::items) {
            named_heaters(choice, file, &mut sources, &mut gathered);
        }
        return gathered.ended(None);
    };
    let mut choices = Vec::new();
    for (i, choice) in comparison.choices.iter().enumerate() {
        let path = format!("choices[{i}]");
        let Some(node) = root.at(&path) else {
            continue;
        };
        if let Some((changed, base, models)) = shared.as_ref().filter(|_| !faulty(&path)) {
            let own = own_settings(node, source);
            let shared = Shared {
                changed,
                base,
                models,
                written: written.as_ref(),
            };
            choices.extend(shared.choice(&choice.name, &own, file, &mut sources, &mut gathered));
        } else {
            named_heaters(node, file, &mut sources, &mut gathered);
        }
    }
    let (changed, mut base, models) = gathered.ended(shared)?;
    if !comparison.title.is_empty() {
        base.title = comparison.title;
    }
    let base = Loaded {
        scenario: base,
        inputs: sources.inputs(),
        sources,
        file: file.to_owned(),
        engine: changed.night.engine,
        set: [changed.values, models].concat(),
        settings: settings.to_vec(),
    };
    Ok(LoadedComparison { base, choices })
}

/// The settings of a choice: each of its keys, and each path under `set`.
fn own_settings(choice: &Node, source: &Source) -> Vec<Setting> {
    let keys = choice.entries().iter();
    let keys = keys.filter(|(name, _)| name.text != "name" && name.text != "set");
    let set = choice.at("set").map_or(&[][..], Node::entries).iter();
    keys.map(|(name, node)| Setting::written(&name.text, node, source, name.span.to(node.span)))
        .chain(set.map(|(name, node)| Setting::written(&name.text, node, source, name.span)))
        .collect()
}

impl LoadedComparison {
    /// Problems of the night of a choice at their places: those of a value that was set at its setting.
    pub fn located(&self, problems: &[Problem], choice: &str) -> Vec<InputError> {
        let base = &self.base;
        settings_first(&base.settings, problems, |others| {
            located_choice(others, choice, &base.file, &base.sources)
        })
    }

    /// What the gate refuses, of all choices.
    ///
    /// *Errors*: as [`LoadedComparison::audited`].
    pub fn validate(&self) -> Result<(), FileError> {
        self.audited(&|night| check(night).err().unwrap_or_default())
    }

    /// What `wrong` finds in the nights of all choices.
    ///
    /// *Errors*: every problem at its place, with the name of the choice it was found in; each once.
    pub fn audited(&self, wrong: &dyn Fn(&Scenario) -> Vec<Problem>) -> Result<(), FileError> {
        let mut gathered = ErrorList::default();
        let mut shown: BTreeSet<(String, Option<(usize, usize)>)> = BTreeSet::new();
        for Choice {
            name: choice,
            night,
            ..
        } in &self.choices
        {
            let problems = wrong(night);
            let faults = self.located(&problems, choice);
            for mut fault in faults {
                // What all choices share is reported once, with the first.
                if shown.insert((fault.message.clone(), fault.line_and_column())) {
                    fault.message = format!("{}, in the choice \"{choice}\"", fault.message);
                    gathered.add(fault);
                }
            }
        }
        gathered.ended(Some(()))
    }
}

impl LoadedComparison {
    /// Numbers of all choices that are hard to believe, each once, at their places.
    pub fn doubts(&self) -> Vec<InputError> {
        let mut all: Vec<InputError> = Vec::new();
        for Choice {
            name: choice,
            night,
            ..
        } in &self.choices
        {
            let found = doubts(night);
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
fn names(root: &Node, source: &Source) -> Vec<InputError> {
    let at = |message: String, path: &str, node: &Node| {
        let line = source.text[node.span.range()].lines().next().unwrap_or("");
        let start = node.span.start as usize;
        InputError::of(&source.file, message)
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
    let (mut names, mut as_it_is) = (BTreeSet::new(), None);
    for (i, choice) in choices.items().iter().enumerate() {
        if let Some(node) = choice.at("name")
            && let Some(name) = node.text()
            && !names.insert(name)
        {
            let message = format!("there are two choices named `{name}`");
            let path = format!("choices[{i}].name");
            errors.push(at(message, &path, node).suggest("give one of them another name"));
        }
        let keys = choice.entries().iter();
        let writes = |(name, _): &(Name, Node)| name.text != "name";
        if let Some(node) = choice.at("name")
            && let Some(name) = node.text()
            && keys.filter(|entry| writes(entry)).count() == 0
        {
            match as_it_is {
                None => as_it_is = Some(name),
                Some(first) => {
                    let message = format!(
                        "`{first}` and `{name}` both change nothing: each is the night as it is"
                    );
                    let path = format!("choices[{i}].name");
                    let help = format!(
                        "name: \"{name}\", heaters: [] (no heater), or take one of them out"
                    );
                    errors.push(at(message, &path, node).suggest(help));
                }
            }
        }
    }
    errors
}
