//! What is built in, with a few telling figures computed from each model as it is loaded.

use super::comparison::load_builtin_comparison;
use super::fault::{Fault, FileError};
use super::library::{Kind, builtin, model, names};
use super::night::load_builtin;
use super::starter::known;
use super::weather::read_plain;
use crate::quantity::Units;
use crate::scenario::body::Body;
use crate::scenario::document::Scenario;
use crate::scenario::engine::Engine;
use crate::scenario::hangar::Hangar;
use crate::scenario::heater::{Heater, HeaterKind, Place};
use crate::scenario::oil::Oil;
use crate::scenario::opposed::expand;
use crate::scenario::weather::utc;
use serde::Serialize;
use std::collections::BTreeMap;

/// The kinds in the order they are told.
pub const KINDS: [(Kind, &str, &str); 7] = [
    (Kind::Engine, "engine", "engines"),
    (Kind::Heater, "heater", "heaters"),
    (Kind::Hangar, "hangar", "hangars"),
    (Kind::Oil, "oil", "oils"),
    (Kind::Weather, "weather", "weather"),
    (Kind::Night, "night", "nights"),
    (Kind::Comparison, "comparison", "comparisons"),
];

/// A built-in model in one line.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Entry {
    /// Its kind, in the singular.
    pub kind: &'static str,
    /// Its name.
    pub name: &'static str,
    /// What it is.
    pub what: String,
    /// Numbers for other programs, each with its unit in the key.
    pub figures: BTreeMap<&'static str, f64>,
}

/// The kind that a word names, in the singular or the plural.
///
/// *Errors*: no such kind, with the nearest.
pub fn kind(word: &str) -> Result<Kind, Fault> {
    let found = KINDS
        .iter()
        .find(|(_, one, many)| word == *one || word == *many);
    found.map(|(kind, ..)| *kind).ok_or_else(|| {
        let words = KINDS.iter().flat_map(|(_, one, many)| [*one, *many]);
        let fault = Fault::of("the command line", format!("`{word}` is no kind of model"));
        match crate::scenario::check::nearest(word, words) {
            Some(near) => fault.help(format!("did you mean `{near}`?")),
            None => {
                let all: Vec<&str> = KINDS.iter().map(|(_, _, many)| *many).collect();
                fault.help(format!("there are {}", all.join(", ")))
            }
        }
    })
}

/// The text of a built-in model, with its comments and sources.
///
/// *Errors*: no such model, with the nearest name.
pub fn text(kind: Kind, name: &str) -> Result<&'static str, FileError> {
    known(kind, name)?;
    Ok(builtin(kind, name).unwrap_or_default())
}

/// The models of a kind, or of all; temperatures in the words are in these degrees, in the figures in °C.
///
/// *Errors*: a built-in model that does not load, which is a bug.
pub fn entries(wanted: Option<Kind>, units: Units) -> Result<Vec<Entry>, FileError> {
    let mut all = Vec::new();
    for (kind, one, _) in KINDS {
        if wanted.is_some_and(|w| w != kind) {
            continue;
        }
        for name in names(kind) {
            let (what, figures) = told(kind, name, units)?;
            all.push(Entry {
                kind: one,
                name,
                what,
                figures: figures.into_iter().collect(),
            });
        }
    }
    Ok(all)
}

type Told = (String, Vec<(&'static str, f64)>);

fn told(kind: Kind, name: &str, units: Units) -> Result<Told, FileError> {
    Ok(match kind {
        Kind::Engine => engine(&model(kind, name)?),
        Kind::Heater => heater(&model(kind, name)?, units),
        Kind::Hangar => hangar(&model(kind, name)?),
        Kind::Oil => oil(&model(kind, name)?, units),
        Kind::Weather => weather(name, units)?,
        Kind::Night => night(&load_builtin(name)?.scenario),
        Kind::Comparison => {
            let loaded = load_builtin_comparison(name)?;
            let count = loaded.choices.len();
            let title = loaded.base.scenario.title;
            (
                format!("{title}: {count} choices"),
                vec![("choices", count as f64)],
            )
        }
    })
}

fn engine(engine: &Engine) -> Told {
    let expanded;
    let (body, shape): (&Body, _) = match engine {
        Engine::opposed(layout) => {
            expanded = expand(layout);
            (&expanded, "opposed")
        }
        Engine::body(body) => (body, "part by part"),
    };
    let oil_kg: f64 = body
        .parts
        .iter()
        .filter(|p| body.oil.as_ref() == Some(&p.name))
        .map(|p| p.mass.si())
        // A sum over nothing would be minus nothing.
        .fold(0.0, |sum, kg| sum + kg);
    let engine_kg: f64 = body
        .parts
        .iter()
        .filter(|p| p.role.is_engine())
        .map(|p| p.mass.si())
        .sum::<f64>()
        - oil_kg;
    let capacity: f64 = body
        .parts
        .iter()
        .filter(|p| p.role.is_engine())
        .map(|p| p.mass.si() * p.specific_heat.si() * 1e-3)
        .sum();
    let cylinders = body.cylinders.len();
    let what = format!(
        "{cylinders} cylinders, {shape}; {engine_kg:.0} kg, oil {oil_kg:.1} kg, {capacity:.0} kJ/K with it; parts: {}, heater places: {}",
        body.parts.len(),
        body.places.len(),
    );
    (
        what,
        vec![
            ("cylinders", cylinders as f64),
            ("engine_kg", engine_kg),
            ("oil_kg", oil_kg),
            ("heat_capacity_kj_per_k", capacity),
            ("parts", body.parts.len() as f64),
            ("places", body.places.len() as f64),
        ],
    )
}

fn heater(heater: &Heater, units: Units) -> Told {
    let kind = match heater.kind {
        HeaterKind::bay_fan { .. } => "fan in the bay",
        HeaterKind::ducted { .. } => "hot air by a duct",
        HeaterKind::bonded => "bonded to the metal",
        HeaterKind::radiant { .. } => "lamp",
    };
    let watts = heater.power.si();
    let place = match &heater.place {
        Place::at(place) => format!("at {place}"),
        Place::aimed(_) => "aimed by hand".to_owned(),
    };
    let thermostat = heater.thermostat.as_ref().map_or(String::new(), |t| {
        format!(
            ", thermostat {:.0} to {:.0} {}",
            units.temperature(t.lo.celsius()),
            units.temperature(t.hi.celsius()),
            units.symbol()
        )
    });
    (
        format!("{kind}, {watts:.0} W, {place}{thermostat}"),
        vec![("power_w", watts)],
    )
}

fn hangar(hangar: &Hangar) -> Told {
    let lag_h = hangar.lag.si() / 3600.0;
    let (draught, share) = (hangar.draught.si(), hangar.draught_share);
    (
        format!(
            "{}: follows the outdoors in {lag_h} h, draught {draught} m/s, {:.0} percent of a recorded wind",
            hangar.name,
            100.0 * share
        ),
        vec![
            ("lag_h", lag_h),
            ("draught_m_s", draught),
            ("draught_share", share),
        ],
    )
}

fn oil(oil: &Oil, units: Units) -> Told {
    (
        format!(
            "{}: {:.0} mm²/s at 40 °C, {:.1} mm²/s at 100 °C, pour point {}",
            oil.grade,
            oil.at_40.si(),
            oil.at_100.si(),
            oil.pour_point.told(units)
        ),
        vec![
            ("viscosity_40_mm2_s", oil.at_40.si()),
            ("viscosity_100_mm2_s", oil.at_100.si()),
            ("pour_point_c", oil.pour_point.celsius()),
        ],
    )
}

fn weather(name: &str, units: Units) -> Result<Told, FileError> {
    let text = builtin(Kind::Weather, name).unwrap_or_default();
    let record = read_plain(name, text)?;
    let readings = &record.readings;
    let first = readings.first().map_or(0.0, |r| r.unix_s);
    let last = readings.last().map_or(0.0, |r| r.unix_s);
    let coldest = readings.iter().min_by(|a, b| a.temp_c.total_cmp(&b.temp_c));
    let (coldest_c, at) = coldest.map_or((0.0, 0.0), |r| (r.temp_c, r.unix_s));
    let wind = readings.iter().map(|r| r.wind_m_s).fold(0.0, f64::max);
    let place = place_of(name);
    let what = format!(
        "{place}, {:.0} h from {}; coldest {:.1} {} at {}, wind to {wind:.0} m/s",
        (last - first) / 3600.0,
        utc(first),
        units.temperature(coldest_c),
        units.symbol(),
        utc(at),
    );
    Ok((
        what,
        vec![
            ("hours", (last - first) / 3600.0),
            ("readings", readings.len() as f64),
            ("coldest_c", coldest_c),
            ("most_wind_m_s", wind),
        ],
    ))
}

/// `greensboro_nc_1996-02-04` is of Greensboro, NC.
fn place_of(name: &str) -> String {
    let mut words: Vec<&str> = name.split('_').collect();
    words.pop();
    let state = words.pop().unwrap_or("").to_uppercase();
    let capital = |word: &&str| {
        let (head, rest) = word.split_at(1.min(word.len()));
        head.to_uppercase() + rest
    };
    let town: Vec<String> = words.iter().map(capital).collect();
    format!("{}, {state}", town.join(" "))
}

fn night(scenario: &Scenario) -> Told {
    let powers = scenario.heaters.iter().map(|h| h.power.si());
    let watts = powers.fold(0.0, |sum, w| sum + w);
    let hours = scenario
        .clock
        .resolve()
        .map_or(0.0, |c| c.night_s() / 3600.0);
    (
        format!("{}; {hours} h, {watts:.0} W", scenario.title),
        vec![("hours", hours), ("power_w", watts)],
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_built_in_model_has_a_line_and_figures_of_its_own() {
        let all = entries(None, Units::Celsius).unwrap();
        assert_eq!(all.len(), super::super::library::MODELS.len());
        let find = |name: &str| all.iter().find(|e| e.name == name).unwrap();
        assert_eq!(find("flat-six-8l5").figures["cylinders"], 6.0);
        assert_eq!(find("radial-nine").figures["cylinders"], 9.0);
        // 0.30 x 0.20 x 0.20 m at 2700 kg/m3 and 900 J/kgK, as its file says.
        assert_eq!(find("aluminium-block").figures["engine_kg"], 32.4);
        assert!((find("aluminium-block").figures["heat_capacity_kj_per_k"] - 29.16).abs() < 1e-9);
        assert_eq!(find("bay-fan-350w").figures["power_w"], 350.0);
        let record = find("greensboro_nc_1996-02-04");
        assert!(
            record
                .what
                .starts_with("Greensboro, NC, 48 h from 1996-02-04 17:00 UTC"),
            "{}",
            record.what
        );
    }

    #[test]
    fn thermostats_are_told_in_the_readers_degrees() {
        let pad = |units| {
            let all = entries(Some(Kind::Heater), units).unwrap();
            all.into_iter()
                .find(|e| e.name == "sump-pad-150w")
                .unwrap()
                .what
        };
        let celsius = pad(Units::Celsius);
        assert!(celsius.ends_with("thermostat 80 to 90 °C"), "{celsius}");
        // 80 and 90 °C by their definition, F = 1.8 C + 32.
        let fahrenheit = pad(Units::Fahrenheit);
        assert!(
            fahrenheit.ends_with("thermostat 176 to 194 °F"),
            "{fahrenheit}"
        );
    }

    #[test]
    fn nothing_is_told_as_minus_nothing() {
        for entry in entries(None, Units::Celsius).unwrap() {
            assert!(
                !entry.what.contains("-0 ") && !entry.what.contains("-0.0 "),
                "{}",
                entry.what
            );
            assert!(
                entry
                    .figures
                    .values()
                    .all(|v| *v != 0.0 || v.is_sign_positive())
            );
        }
    }

    #[test]
    fn kinds_are_known_in_singular_and_plural_and_by_their_nearest() {
        assert_eq!(kind("engine").unwrap(), kind("engines").unwrap());
        assert!(
            kind("heatr")
                .unwrap_err()
                .to_string()
                .contains("did you mean `heater`?")
        );
    }
}
