//! Every fault of a file of any kind, without computing anything.

use super::comparison::load_named_comparison_from;
use super::fault::{Fault, FileError, Gathered};
use super::library::Kind;
use super::locate::located;
use super::night::{load_builtin, load_named_from};
use super::recognise::{kind_of, mistaken};
use super::ron::parse;
use super::sources::{Outside, Sources};
use super::weather::{Care, Wanted, read};
use crate::scenario::check::{Problem, check};
use crate::scenario::document::Scenario;
use std::path::Path;

/// A night that gives a part of one something to be checked in.
const AROUND: &str = "demo";

/// What was found in a file that has no faults.
#[derive(Debug)]
pub struct Sound {
    /// Its kind.
    pub kind: Kind,
    /// The nights it holds, each with the name of its choice if there are several.
    pub nights: Vec<(Option<String>, Scenario)>,
}

/// Checks a file of this kind; of the kind its keys tell, if none is given. What was told about its weather (lines
/// left out, gaps) is added to `notes`, faults or not.
///
/// *Errors*: every fault of the file and of those it names.
pub fn examine(
    path: &Path,
    kind: Option<Kind>,
    outside: Outside,
    notes: &mut Vec<String>,
) -> Result<Sound, FileError> {
    let name = path.display().to_string();
    let mut sources = Sources::beside(path);
    let known = match kind {
        Some(kind) => kind,
        None if !path.exists() && path.extension().is_none() => Kind::Night,
        None => {
            let text = sources.open(path)?;
            kind_of(&name, &text).ok_or_else(|| unknown(&name, &text))?
        }
    };
    let mut nights = Vec::new();
    match known {
        Kind::Night => {
            let loaded = load_named_from(&name, outside)?;
            notes.extend_from_slice(loaded.sources.notes());
            let problems = check(&loaded.scenario).err().unwrap_or_default();
            refused(located(&problems, &loaded.file, &loaded.sources))?;
            nights.push((None, loaded.scenario));
        }
        Kind::Comparison => {
            let loaded = load_named_comparison_from(path, outside)?;
            notes.extend_from_slice(loaded.base.sources.notes());
            loaded.audit()?;
            nights.extend(
                loaded
                    .choices
                    .into_iter()
                    .map(|(choice, night)| (Some(choice), night)),
            );
        }
        Kind::Weather => {
            let text = sources.open(path)?;
            let reading = read(&name, &text, &Wanted::default()).map_err(|r| *r.fault)?;
            let told = reading.notes.iter().filter(|n| n.care != Care::Unused);
            notes.extend(told.map(|note| format!("{name}, {note}")));
        }
        Kind::Engine | Kind::Heater | Kind::Hangar | Kind::Oil => {
            let text = sources.open(path)?;
            let night =
                within(&name, &text, known).map_err(|e| match mistaken(&name, &text, known) {
                    Some(fault) => fault.into(),
                    None => e,
                })?;
            let problems = check(&night).err().unwrap_or_default();
            refused(located(&own(problems, known), &name, &sources))?;
            nights.push((None, night));
        }
    }
    Ok(Sound {
        kind: known,
        nights,
    })
}

fn refused(faults: Vec<Fault>) -> Result<(), FileError> {
    let mut gathered = Gathered::default();
    gathered.add(faults);
    gathered.ended(Some(()))
}

fn unknown(file: &str, text: &str) -> FileError {
    // A broken or empty file says best itself what is wrong with it.
    if let Err(FileError::Faults(faults)) = parse::<super::night::NightFile>(file, text)
        && faults.len() == 1
        && faults[0].help.is_some()
        && !faults[0].what.contains("key")
    {
        return FileError::Faults(faults);
    }
    Fault::of(
        file,
        "it cannot be told what kind of file this is: it has no key of any",
    )
    .help("say it with --as night, comparison, engine, heater, hangar, oil or weather")
    .into()
}

/// A built-in night with one part of it taken from a file.
fn within(file: &str, text: &str, kind: Kind) -> Result<Scenario, FileError> {
    let mut night = load_builtin(AROUND)?.scenario;
    match kind {
        Kind::Engine => {
            night.engine = parse(file, text)?;
            night.heaters.clear();
            night.covers = crate::scenario::cover::Covers::default();
        }
        Kind::Heater => night.heaters = vec![parse(file, text)?],
        Kind::Hangar => night.hangar = parse(file, text)?,
        _ => night.oil = parse(file, text)?,
    }
    Ok(night)
}

/// Problems of the part itself, by their paths in its file; not whether it suits the night around it.
fn own(problems: Vec<Problem>, kind: Kind) -> Vec<Problem> {
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
    problems
        .into_iter()
        .filter_map(|mut problem| {
            let rest = problem.path.strip_prefix(prefix)?.to_owned();
            problem.path.clone_from(&rest);
            (!elsewhere(&rest)).then_some(problem)
        })
        .collect()
}
