//! A night as a user writes it: a file that names engine, oil, hangar, heaters and weather.

use super::fault::{ErrorList, FileError};
use super::library::{Kind, builtin};
use super::loaded::refused_too;
use super::recognise::{mistaken, other_builtin};
use super::ron::read;
use super::sources::{Outside, Sources, called, label};
use super::weather_entry::{self, WeatherEntry};
use super::written_units::{HasRanges, with_units};
use crate::quantity::{Power, Temperature, Units};
use crate::scenario::circuit::Circuit;
use crate::scenario::clock::Clock;
use crate::scenario::cover::Covers;
use crate::scenario::document::{Accuracy, Scenario};
use crate::scenario::heater::{Heater, Place, SelfLimiting, Thermostat};
use crate::scenario::hours::Hours;
use crate::scenario::question::Question;
use crate::scenario::start::Start;
use crate::scenario::unknowns::Unknowns;
use serde::{Deserialize, Serialize};
use std::path::Path;

pub use super::loaded::Loaded;

/// The oil of a night that names none.
const DEFAULT_OIL: &str = "15w-50";

/// What a night file holds. Names are those of built-in models, or, ending in `.ron` or `.csv`, of files
/// beside it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename = "night")]
pub struct NightFile {
    /// A name for the night.
    pub title: String,
    /// When it begins and when the aeroplane leaves.
    pub clock: Clock,
    /// The engine's name.
    pub engine: String,
    /// The oil's name.
    #[serde(default = "default_oil")]
    pub oil: String,
    /// Plugs, blankets and what is left open.
    #[serde(default)]
    pub covers: Covers,
    /// The heaters.
    #[serde(default)]
    pub heaters: Vec<HeaterEntry>,
    /// The hangar's name.
    pub hangar: String,
    /// The hangar's temperature when the night begins, in place of its own.
    #[serde(default)]
    pub hangar_start: Option<Temperature>,
    /// The weather.
    pub weather: WeatherEntry,
    /// How warm and how wet the engine is at the beginning.
    #[serde(default)]
    pub start: Start,
    /// The electric circuit.
    #[serde(default)]
    pub circuit: Circuit,
    /// What is asked.
    #[serde(default)]
    pub question: Question,
    /// The degrees results are told in.
    #[serde(default)]
    pub units: Units,
    /// How finely it is computed.
    #[serde(default)]
    pub accuracy: Accuracy,
    /// Which numbers are uncertain.
    #[serde(default)]
    pub unknowns: Unknowns,
}

impl HasRanges for NightFile {
    fn unknowns(&mut self) -> &mut Unknowns {
        &mut self.unknowns
    }
}

fn default_oil() -> String {
    DEFAULT_OIL.to_owned()
}

/// A heater by name, with what is different here.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HeaterEntry {
    /// The heater's name.
    pub heater: String,
    /// What it is called in the results.
    #[serde(default)]
    pub name: Option<String>,
    /// Its power, if not that of the model.
    #[serde(default)]
    pub power: Option<Power>,
    /// Where it is put, if not at the place of the model.
    #[serde(default)]
    pub place: Option<Place>,
    /// When it is plugged in, if not always.
    #[serde(default)]
    pub hours: Option<Hours>,
    /// Its thermostat, if not that of the model.
    #[serde(default)]
    pub thermostat: Option<Thermostat>,
    /// Its self-limiting element, if not that of the model.
    #[serde(default)]
    pub self_limiting: Option<SelfLimiting>,
}

/// Reads a night from a file, or from standard input if it is called `-`.
///
/// *Errors*: what is wrong with the file or with those it names.
pub fn load(path: &Path) -> Result<Loaded, FileError> {
    load_from(path, Sources::beside(path))
}

fn load_from(path: &Path, mut sources: Sources) -> Result<Loaded, FileError> {
    let text = sources.open(path)?;
    from_text(&called(path), &text, sources)
}

/// A built-in night.
///
/// *Errors*: no night of this name.
pub fn load_builtin(name: &str) -> Result<Loaded, FileError> {
    if let Some(fault) = other_builtin(name, Kind::Night) {
        return Err(fault.into());
    }
    let mut sources = Sources::builtin();
    let text = sources.text(Kind::Night, name, "the command line")?;
    from_text(&label(Kind::Night, name), &text, sources)
}

/// The night of a text, or the faults of all files that it names together with its own.
fn from_text(file: &str, text: &str, mut sources: Sources) -> Result<Loaded, FileError> {
    let mut gathered = ErrorList::default();
    let reading = read::<NightFile>(file, text);
    if !reading.faults.is_empty()
        && let Some(fault) = mistaken(file, text, Kind::Night)
    {
        return Err(fault.into());
    }
    let sure = reading.guessed.is_empty();
    gathered.add(reading.faults);
    let known = |path: &str| {
        !reading
            .guessed
            .iter()
            .any(|guessed| path.starts_with(guessed.as_str()))
    };
    let engine = reading.value.as_ref().map(|night| night.engine.clone());
    let engine = engine.unwrap_or_default();
    let scenario = reading
        .value
        .map(|night| with_units(night, text))
        .and_then(|night| gathered.keep(resolve_known(&night, file, &mut sources, &known)));
    if let Some(scenario) = scenario.as_ref().filter(|_| sure) {
        gathered.add(refused_too(scenario, &reading.ignored, file, &sources));
    }
    let scenario = gathered.ended(scenario)?;
    Ok(Loaded {
        scenario,
        inputs: sources.inputs(),
        sources,
        file: file.to_owned(),
        engine,
    })
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
    resolve_known(night, file, sources, &|_| true)
}

/// The scenario of a night, looking only after those names that are `known` to be the user's own.
fn resolve_known(
    night: &NightFile,
    file: &str,
    sources: &mut Sources,
    known: &dyn Fn(&str) -> bool,
) -> Result<Scenario, FileError> {
    let mut gathered = ErrorList::default();
    let engine = known("engine")
        .then(|| sources.value(Kind::Engine, &night.engine, file))
        .and_then(|read| gathered.keep(read));
    let oil = known("oil")
        .then(|| sources.value(Kind::Oil, &night.oil, file))
        .and_then(|read| gathered.keep(read));
    let hangar = known("hangar")
        .then(|| {
            sources.value::<crate::scenario::hangar::Hangar>(Kind::Hangar, &night.hangar, file)
        })
        .and_then(|read| gathered.keep(read));
    let weather = known("weather")
        .then(|| weather_entry::resolve(&night.weather, &night.clock, file, sources))
        .and_then(|read| gathered.keep(read));
    let heaters = gathered.keep(heaters(&night.heaters, file, sources, &|i| {
        known(&format!("heaters[{i}].heater"))
    }));
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
            start: night.start.clone(),
            circuit: night.circuit.clone(),
            question: night.question.clone(),
            units: night.units,
            accuracy: night.accuracy.clone(),
            unknowns: night.unknowns.clone(),
        })
    };
    gathered.ended(scenario())
}

/// The heaters that entries stand for, looking only after those whose number is `known` to be the user's own.
///
/// *Errors*: every name that leads nowhere, and every fault of a heater file.
pub fn heaters(
    entries: &[HeaterEntry],
    file: &str,
    sources: &mut Sources,
    known: &dyn Fn(usize) -> bool,
) -> Result<Vec<Heater>, FileError> {
    let mut gathered = ErrorList::default();
    let mut heaters = Vec::new();
    for (i, entry) in entries.iter().enumerate() {
        if !known(i) {
            continue;
        }
        let model = gathered.keep(sources.value::<Heater>(Kind::Heater, &entry.heater, file));
        heaters.extend(model.map(|model| Heater {
            name: entry.name.clone().unwrap_or(model.name),
            power: entry.power.unwrap_or(model.power),
            place: entry.place.clone().unwrap_or(model.place),
            hours: entry.hours.clone().unwrap_or(model.hours),
            thermostat: entry.thermostat.clone().or(model.thermostat),
            self_limiting: entry.self_limiting.clone().or(model.self_limiting),
            kind: model.kind,
            unknowns: model.unknowns,
        }));
    }
    gathered.ended(Some(heaters))
}
