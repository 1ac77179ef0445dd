//! Every fault of a file of any kind, without computing anything.

use super::comparison::{LoadedComparison, load_named_comparison_from};
use super::fault::{ErrorList, FileError, InputError};
use super::library::{Kind, builtin};
use super::loaded::Loaded;
use super::locate::{doubted, located};
use super::night::{load_builtin, load_named_from};
use super::recognise::{kind_of, mistaken};
use super::ron::parse_model;
use super::sources::{Outside, Sources};
use super::weather_entry::input_error;
use crate::document::{Source, parse};
use crate::scenario::check::{Problem, check};
use crate::scenario::document::Scenario;
use crate::scenario::plausibility::{PlausibilityWarning, doubts};
use crate::weather::{NoteKind, standalone};
use std::path::Path;

/// A night that gives a part of one something to be checked in.
const AROUND: &str = "demo";

/// What was found in a file that has no faults.
#[derive(Debug)]
pub struct ValidFile {
    /// Its kind.
    pub kind: Kind,
    /// What it was taken for, where the kind alone does not say it.
    pub taken_for: Option<String>,
    /// Its numbers that are hard to believe, each once, at their places.
    pub doubts: Vec<InputError>,
    held: Held,
}

/// What nights a file holds, with what places in it are found by.
#[derive(Debug)]
enum Held {
    None,
    Night(Loaded),
    Choices(LoadedComparison),
    /// A part of a night, in one around it.
    Part {
        night: Scenario,
        kind: Kind,
        file: String,
        sources: Sources,
    },
}

impl ValidFile {
    /// The first night it holds.
    pub fn night(&self) -> Option<&Scenario> {
        match &self.held {
            Held::None => None,
            Held::Night(loaded) => Some(&loaded.scenario),
            Held::Choices(loaded) => loaded.choices.first().map(|choice| &choice.night),
            Held::Part { night, .. } => Some(night),
        }
    }

    /// Looks for what else may be wrong with its nights.
    ///
    /// *Errors*: what `wrong` finds, at its place, each once; in a part of a night only what is its own.
    pub fn audited(&self, wrong: &dyn Fn(&Scenario) -> Vec<Problem>) -> Result<(), FileError> {
        match &self.held {
            Held::None => Ok(()),
            Held::Night(loaded) => {
                let problems = wrong(&loaded.scenario);
                refused(located(&problems, &loaded.file, &loaded.sources))
            }
            Held::Choices(loaded) => loaded.audited(wrong),
            Held::Part {
                night,
                kind,
                file,
                sources,
            } => refused(located(&own(wrong(night), *kind), file, sources)),
        }
    }
}

/// The kind of what a name leads to: that of the built-in of this name, a night rather than a comparison, or the one
/// that the keys of the file show; none if they show none.
///
/// *Errors*: a file that cannot be read.
pub fn kind_named(name: &str, sources: &mut Sources) -> Result<Option<Kind>, FileError> {
    let path = Path::new(name);
    let is_builtin = |kind| builtin(kind, name).is_some();
    // A folder of that name hides nothing. The kind of standard input shows in its keys, as that of a file.
    if !path.is_file() && is_builtin(Kind::Night) {
        return Ok(Some(Kind::Night));
    }
    if !path.is_file() && is_builtin(Kind::Comparison) {
        return Ok(Some(Kind::Comparison));
    }
    if name != "-" && !path.exists() && path.extension().is_none() {
        return Ok(Some(Kind::Night));
    }
    Ok(kind_of(&sources.open(path)?))
}

/// Checks a file of this kind; of the kind its keys show, if none is given. Notes on its weather (lines
/// skipped, gaps) is added to `notes`, faults or not.
///
/// *Errors*: every fault of the file and of those it names.
pub fn validate(
    path: &Path,
    kind: Option<Kind>,
    outside: Outside,
    notes: &mut Vec<String>,
) -> Result<ValidFile, FileError> {
    let name = path.display().to_string();
    let mut sources = Sources::beside(path);
    let known = match kind {
        Some(kind) => kind,
        None => match kind_named(&name, &mut sources)? {
            Some(kind) => kind,
            None => return Err(unknown(&sources.open(path)?)),
        },
    };
    let mut sound = ValidFile {
        kind: known,
        taken_for: None,
        doubts: Vec::new(),
        held: Held::None,
    };
    match known {
        Kind::Night => {
            let loaded = load_named_from(&name, outside)?;
            notes.extend_from_slice(loaded.sources.notes());
            let problems = check(&loaded.scenario).err().unwrap_or_default();
            refused(located(&problems, &loaded.file, &loaded.sources))?;
            sound.doubts = loaded.doubts();
            sound.held = Held::Night(loaded);
        }
        Kind::Comparison => {
            let loaded = load_named_comparison_from(path, outside)?;
            notes.extend_from_slice(loaded.base.sources.notes());
            loaded.validate()?;
            sound.doubts = loaded.doubts();
            sound.held = Held::Choices(loaded);
        }
        Kind::Weather => {
            let source = sources.open(path)?;
            let found = standalone(&name, &source.text);
            let found = found.map_err(|e| input_error(&name, &source.text, e))?;
            let used = found.notes.iter().filter(|n| n.kind() != NoteKind::Unused);
            notes.extend(used.map(|note| format!("{name}, {note}")));
            sound.taken_for = Some(found.description);
        }
        Kind::Engine | Kind::Heater | Kind::Hangar | Kind::Oil => {
            let source = sources.open(path)?;
            let night = within(&source, known).map_err(|e| match mistaken(&source, known) {
                Some(fault) => fault.into(),
                None => e,
            })?;
            let problems = check(&night).err().unwrap_or_default();
            refused(located(&own(problems, known), &name, &sources))?;
            let doubts: Vec<PlausibilityWarning> = doubts(&night)
                .into_iter()
                .filter_map(|mut doubt| {
                    doubt.path = own_path(&doubt.path, known)?;
                    Some(doubt)
                })
                .collect();
            sound.doubts = doubted(&doubts, None, &name, &sources);
            sound.held = Held::Part {
                night,
                kind: known,
                file: name,
                sources,
            };
        }
    }
    Ok(sound)
}

fn refused(faults: Vec<InputError>) -> Result<(), FileError> {
    let mut gathered = ErrorList::default();
    gathered.extend(faults);
    gathered.ended(Some(()))
}

fn unknown(source: &Source) -> FileError {
    // A broken or empty file says best itself what is wrong with it.
    let parsed = parse(source);
    if parsed.errors.count() > 0 {
        return FileError::Faults(parsed.errors.into_kept());
    }
    InputError::of(
        &source.file,
        "the kind of this file is not known: it has no key of any",
    )
    .help("use --kind night, comparison, engine, heater, hangar, oil or weather")
    .into()
}

/// A built-in night with one part of it taken from a file.
fn within(source: &Source, kind: Kind) -> Result<Scenario, FileError> {
    let mut night = load_builtin(AROUND)?.scenario;
    match kind {
        Kind::Engine => {
            night.engine = parse_model(source)?;
            night.heaters.clear();
            night.covers = crate::scenario::cover::Covers::default();
        }
        Kind::Heater => night.heaters = vec![parse_model(source)?],
        Kind::Hangar => night.hangar = parse_model(source)?,
        _ => night.oil = parse_model(source)?,
    }
    Ok(night)
}

/// Problems of the part itself, by their paths in its file; not whether it suits the night around it.
fn own(problems: Vec<Problem>, kind: Kind) -> Vec<Problem> {
    problems
        .into_iter()
        .filter_map(|mut problem| {
            problem.path = own_path(&problem.path, kind)?;
            Some(problem)
        })
        .collect()
}

/// A path of the night as one of the part's own file; none if it is not about the part itself.
fn own_path(path: &str, kind: Kind) -> Option<String> {
    let prefix = match kind {
        Kind::Heater => "heaters[0].",
        Kind::Hangar => "hangar.",
        Kind::Oil => "oil.",
        _ => "engine.",
    };
    let elsewhere = |rest: &str| {
        kind == Kind::Heater
            && ["place", "hours", "thermostat.sensor"]
                .iter()
                .any(|key| rest.starts_with(key))
    };
    let rest = match path.strip_prefix(prefix) {
        // The engine as a whole.
        None if path == prefix.trim_end_matches('.') => "",
        rest => rest?,
    };
    (!elsewhere(rest)).then(|| rest.to_owned())
}
