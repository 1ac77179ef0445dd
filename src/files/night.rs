//! A night as a user writes it: a file that names engine, oil, hangar, heaters and weather.

use super::fault::{ErrorList, FileError};
use super::library::{Kind, builtin};
use super::loaded::refused_too;
use super::recognise::{mistaken, other_builtin};
use super::sources::{Outside, Sources};
use super::weather_entry::{self, WeatherEntry};
use super::written_units::{HasRanges, with_units};
use crate::document::{Node, Reading, Source, from_node, model, read};
use crate::quantity::{Power, Temperature, Units};
use crate::scenario::circuit::Circuit;
use crate::scenario::clock::Clock;
use crate::scenario::cover::Covers;
use crate::scenario::criteria::Criteria;
use crate::scenario::document::{Accuracy, Scenario};
use crate::scenario::engine::Engine;
use crate::scenario::hangar::Hangar;
use crate::scenario::heater::{Heater, Place, SelfLimiting, Thermostat};
use crate::scenario::hours::Hours;
use crate::scenario::initial::Initial;
use crate::scenario::oil::Oil;
use crate::scenario::uncertain::Uncertain;
use std::path::Path;

pub use super::loaded::Loaded;

/// The oil of a night that names none.
const DEFAULT_OIL: &str = "15w-50";

model! {
    /// What a night file holds. Names are those of built-in models, or, ending in `.ron` or `.csv`, of files
    /// beside it.
    pub struct NightFile {
        /// A name for the night.
        pub title: String, example("\"Tonight\"");
        /// When it begins and when the aeroplane leaves.
        pub clock: Clock, example("(begin: \"19:00\", departure: \"07:30\")");
        /// The engine's name.
        pub engine: String, example("\"flat-four-5l9\"");
        /// The oil's name.
        pub oil: String = DEFAULT_OIL.to_owned();
        /// Plugs, blankets and what is left open.
        pub covers: Covers = Covers::default();
        /// The heaters.
        pub heaters: Vec<HeaterEntry> = Vec::new();
        /// The hangar's name.
        pub hangar: String, example("\"shut\"");
        /// The hangar's temperature when the night begins, in place of its own.
        pub hangar_start: Option<Temperature>, limits(-60.0, 60.0) = None;
        /// The weather.
        pub weather: WeatherEntry, example("steady(outdoors: degC(-12), humidity: 0.8)");
        /// Temperatures and water of the engine when the night begins.
        pub initial: Initial = Initial::default();
        /// The electric circuit.
        pub circuit: Circuit = Circuit::default();
        /// When the engine counts as ready, and how long the night is computed.
        pub criteria: Criteria = Criteria::default();
        /// The temperature unit of results.
        pub units: Units = Units::default();
        /// How finely it is computed.
        pub accuracy: Accuracy = Accuracy::default();
        /// Which numbers are uncertain.
        pub uncertain: Uncertain = Uncertain::new();
    }
}

impl HasRanges for NightFile {
    fn uncertain(&mut self) -> &mut Uncertain {
        &mut self.uncertain
    }
}

model! {
    /// A heater by name, with what is different here.
    pub struct HeaterEntry {
        /// The heater's name.
        pub heater: String, example("\"bay-fan-350w\"");
        /// What it is called in the results.
        pub name: Option<String> = None;
        /// Its power, if not that of the model.
        pub power: Option<Power>, not_negative() = None;
        /// Where it is put, if not at the place of the model.
        pub place: Option<Place>, example("at(\"bottom\")") = None;
        /// When it is plugged in, if not always.
        pub hours: Option<Hours> = None;
        /// Its thermostat, if not that of the model.
        pub thermostat: Option<Thermostat> = None;
        /// Its self-limiting element, if not that of the model.
        pub self_limiting: Option<SelfLimiting> = None;
    }
}

/// Reads a night from a file, or from standard input if it is called `-`.
///
/// *Errors*: what is wrong with the file or with those it names.
pub fn load(path: &Path) -> Result<Loaded, FileError> {
    load_from(path, Sources::beside(path))
}

fn load_from(path: &Path, mut sources: Sources) -> Result<Loaded, FileError> {
    let source = sources.open(path)?;
    from_text(&source, sources)
}

/// A built-in night.
///
/// *Errors*: no night of this name.
pub fn load_builtin(name: &str) -> Result<Loaded, FileError> {
    if let Some(fault) = other_builtin(name, Kind::Night) {
        return Err(fault.into());
    }
    let mut sources = Sources::builtin();
    let source = sources.text(Kind::Night, name, "the command line")?;
    from_text(&source, sources)
}

/// The night of a text, or the errors of all files that it names together with its own.
fn from_text(source: &Source, mut sources: Sources) -> Result<Loaded, FileError> {
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
    let scenario = match value.map(|night| with_units(night, &root)) {
        Some(night) => gathered.keep(resolve(&night, file, &mut sources)),
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
    gathered.add(errors);
    if let Some(scenario) = scenario.as_ref().filter(|_| only_ignored) {
        gathered.add(refused_too(scenario, &ignored, file, &sources));
    }
    let scenario = gathered.ended(scenario)?;
    let engine = root.at("engine").and_then(Node::text).unwrap_or_default();
    Ok(Loaded {
        scenario,
        inputs: sources.inputs(),
        sources,
        file: file.to_owned(),
        engine: engine.to_owned(),
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
    if builtin(Kind::Night, name).is_some() && !Path::new(name).is_file() {
        load_builtin(name)
    } else if name != "-" && Path::new(name).extension().is_none() && !Path::new(name).exists() {
        // Neither a file nor a built-in: say which names there are.
        load_builtin(name)
    } else {
        let path = Path::new(name);
        load_from(path, Sources::beside(path).outside(outside))
    }
}

/// The scenario that a night file stands for.
///
/// *Errors*: every name that leads nowhere, and every fault of the files that are named.
pub fn resolve(
    night: &NightFile,
    file: &str,
    sources: &mut Sources,
) -> Result<Scenario, FileError> {
    let mut gathered = ErrorList::default();
    let engine = gathered.keep(sources.value(Kind::Engine, &night.engine, file));
    let oil = gathered.keep(sources.value(Kind::Oil, &night.oil, file));
    let hangar: Option<Hangar> = gathered.keep(sources.value(Kind::Hangar, &night.hangar, file));
    let weather = weather_entry::resolve(&night.weather, &night.clock, file, sources);
    let weather = gathered.keep(weather);
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
