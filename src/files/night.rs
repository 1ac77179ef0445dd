//! A night as a user writes it: a file that names engine, oil, hangar, heaters and weather.

use super::fault::{ErrorList, FileError};
use super::library::{Kind, builtin};
use super::loaded::refused_too;
use super::recognise::{mistaken, other_builtin};
use super::settings::{Setting, in_night, in_scenario};
use super::sources::{Outside, Sources};
use super::weather_entry;
use super::written_units::with_units;
use crate::document::{Node, Reading, Source, from_node, read};
use crate::scenario::document::Scenario;
use crate::scenario::engine::Engine;
use crate::scenario::hangar::Hangar;
use crate::scenario::heater::Heater;
use crate::scenario::oil::Oil;
use crate::scenario::weather::Weather;
use std::path::Path;

pub use super::loaded::Loaded;
pub use super::night_file::{HeaterEntry, NightFile};

/// Reads a night from a file, or from standard input if it is called `-`.
///
/// *Errors*: what is wrong with the file or with those it names.
pub fn load(path: &Path) -> Result<Loaded, FileError> {
    load_from(path, Sources::beside(path), &[])
}

fn load_from(path: &Path, mut sources: Sources, settings: &[Setting]) -> Result<Loaded, FileError> {
    let source = sources.open(path)?;
    from_text(&source, sources, settings)
}

/// A built-in night.
///
/// *Errors*: no night of this name.
pub fn load_builtin(name: &str) -> Result<Loaded, FileError> {
    builtin_with(name, &[])
}

fn builtin_with(name: &str, settings: &[Setting]) -> Result<Loaded, FileError> {
    if let Some(fault) = other_builtin(name, Kind::Night) {
        return Err(fault.into());
    }
    let mut sources = Sources::builtin();
    let source = sources.text(Kind::Night, name, "the command line")?;
    from_text(&source, sources, settings)
}

/// The night of a text, or the errors of all files that it names together with its own.
fn from_text(
    source: &Source,
    mut sources: Sources,
    settings: &[Setting],
) -> Result<Loaded, FileError> {
    let file = source.file.as_str();
    let mut gathered = ErrorList::default();
    let reading = read::<NightFile>(source);
    if reading.errors.count() > 0
        && let Some(fault) = mistaken(source, Kind::Night)
    {
        return Err(fault.into());
    }
    let Reading {
        value,
        root,
        errors,
        ignored,
        only_ignored,
    } = reading;
    let mut set = Vec::new();
    let scenario = match value.map(|night| with_units(night, &root)) {
        Some(night) => {
            let changed = in_night(&night, Some(&root), settings, &mut gathered);
            changed.and_then(|changed| {
                let night = resolve(&changed.night, None, file, &mut sources);
                let own = |e: FileError| Setting::own(settings, e.into_errors());
                let night = gathered.keep(night.map_err(|e| FileError::Faults(own(e))))?;
                let (night, models) = in_scenario(night, &changed.of_models, &mut gathered)?;
                set = [changed.values, models].concat();
                Some(night)
            })
        }
        None => {
            named(&root, file, &mut sources, &mut gathered);
            None
        }
    };
    let mut errors = errors.into_kept();
    errors.extend(
        gathered
            .ended(Some(()))
            .err()
            .into_iter()
            .flat_map(FileError::into_errors),
    );
    let mut gathered = ErrorList::default();
    gathered.extend(errors);
    if let Some(scenario) = scenario.as_ref().filter(|_| only_ignored) {
        gathered.extend(refused_too(scenario, &ignored, file, &sources));
    }
    let scenario = gathered.ended(scenario)?;
    let engine = root.at("engine").and_then(Node::text).unwrap_or_default();
    Ok(Loaded {
        scenario,
        inputs: sources.inputs(),
        sources,
        file: file.to_owned(),
        engine: set
            .iter()
            .find(|set| set.path == "engine")
            .map_or(engine.to_owned(), |set| set.value.clone()),
        set,
        settings: settings.to_vec(),
    })
}

/// Looks after the files that a night names, where the night itself cannot be read.
fn named(root: &Node, file: &str, sources: &mut Sources, gathered: &mut ErrorList) {
    let name = |path: &str| root.at(path).and_then(Node::text);
    if let Some(engine) = name("engine") {
        gathered.keep(sources.value::<Engine>(Kind::Engine, engine, file));
    }
    if let Some(oil) = name("oil") {
        gathered.keep(sources.value::<Oil>(Kind::Oil, oil, file));
    }
    if let Some(hangar) = name("hangar") {
        gathered.keep(sources.value::<Hangar>(Kind::Hangar, hangar, file));
    }
    named_heaters(root, file, sources, gathered);
    if let (Some(weather), Some(clock)) = (root.at("weather"), root.at("clock"))
        && let (Ok(weather), Ok(clock)) = (from_node(weather), from_node(clock))
    {
        gathered.keep(weather_entry::resolve(&weather, &clock, file, sources));
    }
}

/// Looks after the heaters that a night or a choice names.
pub(super) fn named_heaters(
    root: &Node,
    file: &str,
    sources: &mut Sources,
    gathered: &mut ErrorList,
) {
    for entry in root.at("heaters").map_or(&[][..], Node::items) {
        if let Some(heater) = entry.at("heater").and_then(Node::text) {
            gathered.keep(sources.value::<Heater>(Kind::Heater, heater, file));
        }
    }
}

/// A night by its path, or by the name of a built-in one; with or without names that lead out of its folder.
///
/// *Errors*: neither exists, or the file has faults.
pub fn load_named_from(name: &str, outside: Outside) -> Result<Loaded, FileError> {
    load_named_with(name, outside, &[])
}

/// The same, with values set in it.
///
/// *Errors*: as [`load_named_from`], and every setting that cannot be made.
pub fn load_named_with(
    name: &str,
    outside: Outside,
    settings: &[Setting],
) -> Result<Loaded, FileError> {
    if builtin(Kind::Night, name).is_some() && !Path::new(name).is_file() {
        builtin_with(name, settings)
    } else if name != "-" && Path::new(name).extension().is_none() && !Path::new(name).exists() {
        // Neither a file nor a built-in: say which names there are.
        builtin_with(name, settings)
    } else {
        let path = Path::new(name);
        load_from(path, Sources::beside(path).outside(outside), settings)
    }
}

/// The scenario that a night file stands for; with weather that was read before, if it is the same.
///
/// *Errors*: every name that leads nowhere, and every fault of the files that are named.
pub fn resolve(
    night: &NightFile,
    weather: Option<Weather>,
    file: &str,
    sources: &mut Sources,
) -> Result<Scenario, FileError> {
    let mut gathered = ErrorList::default();
    let engine = gathered.keep(sources.value(Kind::Engine, &night.engine, file));
    let oil = gathered.keep(sources.value(Kind::Oil, &night.oil, file));
    let hangar: Option<Hangar> = gathered.keep(sources.value(Kind::Hangar, &night.hangar, file));
    let weather = weather.or_else(|| {
        let read = weather_entry::resolve(&night.weather, &night.clock, file, sources);
        gathered.keep(read)
    });
    let heaters = gathered.keep(heaters(&night.heaters, file, sources));
    let scenario = || {
        let mut hangar = hangar?;
        hangar.start = night.hangar_start.or(hangar.start);
        Some(Scenario {
            title: night.title.clone(),
            clock: night.clock.clone(),
            engine: engine?,
            oil: oil?,
            covers: night.covers.clone(),
            heaters: heaters?,
            hangar,
            weather: weather?,
            initial: night.initial.clone(),
            circuit: night.circuit.clone(),
            criteria: night.criteria.clone(),
            units: night.units,
            accuracy: night.accuracy.clone(),
            uncertain: night.uncertain.clone(),
        })
    };
    gathered.ended(scenario())
}

/// The heaters that entries stand for.
///
/// *Errors*: every name that leads nowhere, and every fault of a heater file.
pub fn heaters(
    entries: &[HeaterEntry],
    file: &str,
    sources: &mut Sources,
) -> Result<Vec<Heater>, FileError> {
    let mut gathered = ErrorList::default();
    let mut heaters = Vec::new();
    for entry in entries {
        let model = gathered.keep(sources.value::<Heater>(Kind::Heater, &entry.heater, file));
        heaters.extend(model.map(|model| Heater {
            name: entry.name.clone().unwrap_or(model.name),
            power: entry.power.unwrap_or(model.power),
            place: entry.place.clone().unwrap_or(model.place),
            hours: entry.hours.clone().unwrap_or(model.hours),
            thermostat: entry.thermostat.clone().or(model.thermostat),
            self_limiting: entry.self_limiting.clone().or(model.self_limiting),
            kind: model.kind,
            uncertain: model.uncertain,
        }));
    }
    gathered.ended(Some(heaters))
}
