//! A night as a user writes it: a file that names engine, oil, hangar, heaters and weather.

use super::fault::FileError;
use super::library::{Kind, builtin};
use super::ron::parse;
use super::sources::{Input, Sources, label};
use super::weather_csv;
use super::written_units::{Doubted, with_units};
use crate::quantity::{Power, Speed, Temperature, Units};
use crate::scenario::circuit::Circuit;
use crate::scenario::clock::{Clock, Hours};
use crate::scenario::cover::Covers;
use crate::scenario::document::{Accuracy, Scenario};
use crate::scenario::heater::{Heater, Place, SelfLimiting, Thermostat};
use crate::scenario::question::Question;
use crate::scenario::start::Start;
use crate::scenario::unknowns::Unknowns;
use crate::scenario::weather::Weather;
use serde::{Deserialize, Serialize};
use std::path::Path;

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

impl Doubted for NightFile {
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

/// The weather, steady or by the name of a record.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[allow(non_camel_case_types)]
pub enum WeatherEntry {
    /// The same all night.
    steady {
        /// Temperature outdoors.
        outdoors: Temperature,
        /// Relative humidity, over ice below freezing.
        #[serde(default = "usual_humidity")]
        humidity: f64,
        /// Wind outdoors; none leaves the hangar its own draught.
        #[serde(default)]
        wind: Option<Speed>,
    },
    /// A built-in record, or a CSV file beside the night.
    recorded(String),
}

fn usual_humidity() -> f64 {
    0.8
}

/// A scenario with the files it came from.
#[derive(Debug, Clone)]
pub struct Loaded {
    /// The scenario.
    pub scenario: Scenario,
    /// Every file that went into it.
    pub inputs: Vec<Input>,
    /// What was read, for faults that come to light later.
    pub sources: Sources,
    /// The file it came from.
    pub file: String,
}

/// Reads a night from a file.
///
/// *Errors*: what is wrong with the file or with those it names.
pub fn load(path: &Path) -> Result<Loaded, FileError> {
    let mut sources = Sources::beside(path);
    let text = sources.open(path)?;
    let file = path.display().to_string();
    let night: NightFile = with_units(parse(&file, &text)?, &text);
    let scenario = resolve(&night, &file, &mut sources)?;
    Ok(Loaded {
        scenario,
        inputs: sources.inputs(),
        sources,
        file,
    })
}

/// A built-in night.
///
/// *Errors*: no night of this name.
pub fn load_builtin(name: &str) -> Result<Loaded, FileError> {
    let mut sources = Sources::builtin();
    let text = sources.text(Kind::Night, name, "the command line")?;
    let file = label(Kind::Night, name);
    let night: NightFile = with_units(parse(&file, &text)?, &text);
    let scenario = resolve(&night, &file, &mut sources)?;
    Ok(Loaded {
        scenario,
        inputs: sources.inputs(),
        sources,
        file,
    })
}

/// A night by its path, or by the name of a built-in one.
///
/// *Errors*: neither exists, or the file has faults.
pub fn load_named(name: &str) -> Result<Loaded, FileError> {
    if builtin(Kind::Night, name).is_some() && !Path::new(name).is_file() {
        load_builtin(name)
    } else if Path::new(name).extension().is_none() && !Path::new(name).exists() {
        // Neither a file nor a built-in: say which names there are.
        load_builtin(name)
    } else {
        load(Path::new(name))
    }
}

/// The scenario that a night file stands for.
///
/// *Errors*: a name that leads nowhere, or a named file with faults.
pub fn resolve(
    night: &NightFile,
    file: &str,
    sources: &mut Sources,
) -> Result<Scenario, FileError> {
    let mut hangar: crate::scenario::hangar::Hangar =
        sources.value(Kind::Hangar, &night.hangar, file)?;
    hangar.start = night.hangar_start.or(hangar.start);
    let weather = match &night.weather {
        WeatherEntry::steady {
            outdoors,
            humidity,
            wind,
        } => Weather::steady {
            outdoors: *outdoors,
            humidity: *humidity,
            wind: *wind,
        },
        WeatherEntry::recorded(name) => {
            let text = sources.text(Kind::Weather, name, file)?;
            Weather::recorded(weather_csv::read(name, &text)?)
        }
    };
    Ok(Scenario {
        title: night.title.clone(),
        clock: night.clock.clone(),
        engine: sources.value(Kind::Engine, &night.engine, file)?,
        oil: sources.value(Kind::Oil, &night.oil, file)?,
        covers: night.covers.clone(),
        heaters: heaters(&night.heaters, file, sources)?,
        hangar,
        weather,
        start: night.start.clone(),
        circuit: night.circuit.clone(),
        question: night.question.clone(),
        units: night.units,
        accuracy: night.accuracy.clone(),
        unknowns: night.unknowns.clone(),
    })
}

/// The heaters that entries stand for.
///
/// *Errors*: a name that leads nowhere, or a heater file with faults.
pub fn heaters(
    entries: &[HeaterEntry],
    file: &str,
    sources: &mut Sources,
) -> Result<Vec<Heater>, FileError> {
    entries
        .iter()
        .map(|entry| {
            let model: Heater = sources.value(Kind::Heater, &entry.heater, file)?;
            Ok(Heater {
                name: entry.name.clone().unwrap_or(model.name),
                power: entry.power.unwrap_or(model.power),
                place: entry.place.clone().unwrap_or(model.place),
                hours: entry.hours.clone().unwrap_or(model.hours),
                thermostat: entry.thermostat.clone().or(model.thermostat),
                self_limiting: entry.self_limiting.clone().or(model.self_limiting),
                kind: model.kind,
                unknowns: model.unknowns,
            })
        })
        .collect()
}
