//! A night to start from: one commented text, with_values with the names of built-in models.
//!
//! Where a heater can go depends on the engine: its places are tried with `check`, that of its model first.

use super::fault::{FileError, InputError};
use super::library::{ASKED_BY, Kind, builtin, known, model};
use super::night::{NightFile, resolve};
use super::ron::parse;
use super::sources::Sources;
use super::weather_entry::read_plain;
use crate::scenario::body::Body;
use crate::scenario::check::check;
use crate::scenario::engine::Engine;
use crate::scenario::heater::{Heater, Place};
use crate::scenario::opposed::expand;
use crate::scenario::part::Role;
use jiff::{Timestamp, civil};
use std::collections::BTreeSet;

/// Shares of the inlets that are plugged, tried in this order: the default, then open, which a duct may need.
const INLET_PLUGS: [f64; 2] = [0.84, 0.0];
/// The night, with markers such as `<engine>`.
const NIGHT: &str = include_str!("template/night.txt");
/// One of its heaters.
const HEATER: &str = include_str!("template/heater.txt");
/// Letters in a line of comment.
const WIDTH: usize = 100;

/// The built-in models a night is to refer to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TemplateOptions {
    /// The engine.
    pub engine: String,
    /// The heaters, none or several.
    pub heaters: Vec<String>,
    /// The hangar.
    pub hangar: String,
    /// The oil.
    pub oil: String,
    /// A weather record; steady weather if none is named.
    pub weather: Option<String>,
}

/// Markers of a text and what replaces them.
type Values = Vec<(&'static str, String)>;

/// The text of a night that refers to these models; it passes `check`.
///
/// *Errors*: a name that is not built in, with the nearest; or a heater for which this engine has no place.
pub fn template(options: &TemplateOptions) -> Result<String, FileError> {
    let heaters = options.heaters.iter().map(|name| (Kind::Heater, name));
    let weather = options.weather.iter().map(|name| (Kind::Weather, name));
    let others = [
        (Kind::Engine, &options.engine),
        (Kind::Hangar, &options.hangar),
        (Kind::Oil, &options.oil),
    ];
    for (kind, name) in others.into_iter().chain(heaters).chain(weather) {
        known(kind, name)?;
    }
    let body = match model(Kind::Engine, &options.engine)? {
        Engine::opposed(layout) => expand(&layout),
        Engine::body(body) => body,
    };
    let values = night_values(options, &body)?;
    let first = with_heaters(options, &body, &values, INLET_PLUGS[0]);
    first.or_else(|error| with_heaters(options, &body, &values, INLET_PLUGS[1]).map_err(|_| error))
}

/// The night with each heater at the first place that takes it, if all have one with this much of the inlets plugged.
fn with_heaters(
    options: &TemplateOptions,
    body: &Body,
    values: &Values,
    inlet_plug: f64,
) -> Result<String, FileError> {
    let night = |heaters: &[String]| {
        let mut values = values.clone();
        values.push(("inlet_plug", format!("{inlet_plug:?}")));
        values.push(("heaters", heaters.concat().trim_end().to_owned()));
        with_values(NIGHT, &values)
    };
    let mut heaters: Vec<String> = Vec::new();
    for (k, name) in options.heaters.iter().enumerate() {
        let heater: Heater = model(Kind::Heater, name)?;
        let before = options.heaters[..k].iter().filter(|n| *n == name).count();
        let own = match &heater.place {
            Place::at(place) => body.places.get_key_value(place),
            Place::aimed(_) => None,
        };
        let others = body.places.iter().filter(|p| Some(p.0) != own.map(|o| o.0));
        let mut refusal = None;
        let placed = own.into_iter().chain(others).find_map(|(place, aim)| {
            let mut values = heater_values(&heater, place, body);
            // A thermostat on a part that this engine does not have goes to what the heater heats.
            if let Some(t) = &heater.thermostat
                && !body.parts.iter().any(|p| p.name == t.sensor)
                && let Some((sensor, _)) = aim.impingement.first()
            {
                values.retain(|(marker, _)| !marker.ends_with("sensor"));
                values.extend([
                    ("mismatch", String::new()),
                    ("other_sensor", sensor.clone()),
                    ("on_at", format!("{:?}", t.on_at.celsius())),
                    ("off_at", format!("{:?}", t.off_at.celsius())),
                ]);
            }
            values.push(("heater", name.clone()));
            values.push((
                "name",
                match before {
                    0 => "//name: \"the old fan\"".to_owned(),
                    n => format!("name: \"{} {}\"", heater.name, n + 1),
                },
            ));
            let mut all = heaters.clone();
            all.push(with_values(HEATER, &values));
            let why = fault_of(&night(&all));
            refusal = refusal.take().or(why.clone());
            why.is_none().then_some(all)
        });
        heaters = placed.ok_or_else(|| {
            let engine = &options.engine;
            let what =
                format!("the engine `{engine}` has no place where the heater `{name}` could go");
            InputError::of(ASKED_BY, what).help(match refusal {
                Some(why) => format!("at the first that was tried: {why}"),
                None => "it names no places at all".to_owned(),
            })
        })?;
    }
    let text = night(&heaters);
    match fault_of(&text) {
        Some(why) => Err(InputError::of(ASKED_BY, why).into()),
        None => Ok(text),
    }
}

fn night_values(options: &TemplateOptions, body: &Body) -> Result<Values, FileError> {
    let (begin, departure, zone) = match &options.weather {
        None => ("19:00".to_owned(), "07:30".to_owned(), String::new()),
        Some(name) => recorded_clock(name)?,
    };
    let weather = match &options.weather {
        Some(name) => format!("recorded(\"{name}\")"),
        None => "steady(\n        outdoors: degC(-12),\n        humidity: 0.8,\n        //wind: m_s(3),\n    )"
            .to_owned(),
    };
    let places: Vec<&str> = body.places.keys().map(String::as_str).collect();
    let mut values = vec![
        ("begin", begin),
        ("departure", departure),
        ("zone", zone),
        ("engine", options.engine.clone()),
        ("oil", options.oil.clone()),
        ("hangar", options.hangar.clone()),
        ("weather", weather),
        ("places", comment(&places.join(", "))),
    ];
    let skins = body.parts.iter().filter_map(|part| match &part.role {
        Role::skin(pocket) => body.air_volumes.iter().find(|p| p.name == *pocket),
        _ => None,
    });
    let skins: BTreeSet<(&str, &str)> = skins.map(|p| (&*p.name, &*p.label)).collect();
    if let Some((first, _)) = skins.first() {
        let labels = skins
            .iter()
            .map(|(name, label)| format!("{name} ({label})"));
        let labels: Vec<String> = labels.collect();
        values.push(("skin", (*first).to_owned()));
        values.push(("skins", comment(&labels.join(", "))));
    }
    if body.parts.iter().any(|p| p.role == Role::propeller) {
        values.push(("propeller", String::new()));
    }
    if let Some(part) = body.parts.first() {
        values.push(("part", part.name.clone()));
    }
    Ok(values)
}

fn heater_values(heater: &Heater, place: &str, body: &Body) -> Values {
    let mut values = vec![
        ("place", place.to_owned()),
        ("power", format!("{:?}", heater.power.si())),
    ];
    match &heater.place {
        Place::at(own) if own == place => {}
        Place::at(own) => values.push(("moved", format!("The place of its model, \"{own}\","))),
        Place::aimed(_) => values.push(("moved", "Where its model is aimed by hand".to_owned())),
    }
    if let Some(part) = body.parts.first() {
        values.push(("own_sensor", String::new()));
        values.push(("sensor", part.name.clone()));
    }
    values
}

/// Beginning, departure and zone for a record: from 18:00 in its first evening to 07:30; in UTC if its zone is not known.
fn recorded_clock(name: &str) -> Result<(String, String, String), FileError> {
    let zone = match name.rsplit('_').nth(1) {
        Some("nc" | "nj") => "America/New_York",
        Some("il") => "America/Chicago",
        Some("co") => "America/Denver",
        _ => "UTC",
    };
    let record = read_plain(name, builtin(Kind::Weather, name).unwrap_or(""))?;
    let first = record.readings.first().map_or(0.0, |r| r.unix_s);
    let refused = |e: jiff::Error| InputError::of(name, e.to_string());
    let first = Timestamp::from_second(first as i64).map_err(refused)?;
    let first = first.in_tz(zone).map_err(refused)?;
    let evening = civil::time(18, 0, 0, 0);
    let mut day = first.date();
    if first.time() > evening {
        day = day.tomorrow().map_err(refused)?;
    }
    let next = day.tomorrow().map_err(refused)?;
    Ok((
        format!("{day} 18:00"),
        format!("{next} 07:30"),
        format!(", zone: \"{zone}\""),
    ))
}

/// A list that goes on in further lines of comment.
fn comment(words: &str) -> String {
    textwrap::wrap(words, WIDTH).join("\n    // ")
}

/// The text with its markers replaced; a line with a marker that has no value is left out.
fn with_values(text: &str, values: &Values) -> String {
    let lines = text.lines().map(|line| {
        let replace = |line: String, (marker, value): &(&str, String)| {
            line.replace(&format!("<{marker}>"), value)
        };
        values.iter().fold(line.to_owned(), replace)
    });
    lines
        .filter(|line| !line.contains('<'))
        .map(|line| line + "\n")
        .collect()
}

/// The first error of a text, read and checked as a night.
fn fault_of(text: &str) -> Option<String> {
    let file = "the new night";
    let night: Result<NightFile, FileError> = parse(file, text);
    let resolved = night.and_then(|night| resolve(&night, None, file, &mut Sources::builtin()));
    match resolved {
        Err(e) => Some(e.to_string()),
        Ok(scenario) => {
            let problems = check(&scenario).err()?;
            Some(problems.first().map_or(String::new(), |p| p.what.clone()))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::library::names;
    use super::*;

    fn options(engine: &str, heaters: &[&str]) -> TemplateOptions {
        TemplateOptions {
            engine: engine.to_owned(),
            heaters: heaters.iter().map(|h| (*h).to_owned()).collect(),
            hangar: "shut".to_owned(),
            oil: "15w-50".to_owned(),
            weather: None,
        }
    }

    /// Optional keys stand behind `//` without a blank; words behind `// `.
    fn with_every_optional_key(text: &str) -> String {
        let live = |line: &str| {
            let inner = line.trim_start();
            match inner.strip_prefix("//") {
                Some(key) if !key.starts_with(' ') && !key.is_empty() => key.to_owned(),
                _ => line.to_owned(),
            }
        };
        text.lines().map(live).collect::<Vec<_>>().join("\n")
    }

    #[test]
    fn every_engine_takes_every_heater_it_has_a_place_for() {
        for engine in names(Kind::Engine) {
            for heater in names(Kind::Heater) {
                let shown = template(&options(engine, &[heater]));
                // The block stands in the open: what blows or shines into a bay has no place there.
                let bonded = heater.contains("pad") || heater.contains("rings");
                if engine == "aluminium-block" && !bonded {
                    let e = shown.unwrap_err().to_string();
                    assert!(e.contains("no place"), "{e}");
                } else {
                    shown.unwrap_or_else(|e| panic!("{engine} {heater}: {e}"));
                }
            }
        }
    }

    #[test]
    fn every_record_and_several_heaters_make_a_night() {
        for weather in names(Kind::Weather) {
            let mut wanted = options(
                "flat-six-8l5",
                &["sump-pad-250w", "sump-pad-250w", "lamp-100w"],
            );
            wanted.weather = Some(weather.to_owned());
            template(&wanted).unwrap_or_else(|e| panic!("{weather}: {e}"));
        }
        template(&options("flat-four-3l1", &[])).unwrap();
    }

    #[test]
    fn the_resolutions_named_are_those_that_are_read() {
        let (least, most) = crate::scenario::document::Accuracy::RESOLUTION;
        assert!(NIGHT.contains(&format!("of a part ({least} to {most})")));
    }

    #[test]
    fn the_optional_keys_are_keys() {
        for engine in ["flat-four-5l9", "radial-nine"] {
            let text = template(&options(engine, &["bay-fan-350w"])).unwrap();
            let all = with_every_optional_key(&text);
            assert!(
                all.lines()
                    .filter(|l| text.lines().all(|t| t != *l))
                    .count()
                    > 15
            );
            assert_eq!(fault_of(&all), None, "{engine}:\n{all}");
        }
    }

    /// Every heater that does not stand at the place of its model says so, and no other does.
    #[test]
    fn a_heater_that_is_moved_says_so() {
        let mut moved = 0;
        for engine in names(Kind::Engine) {
            for heater in names(Kind::Heater) {
                let Ok(text) = template(&options(engine, &[heater])) else {
                    continue;
                };
                let model: Heater = model(Kind::Heater, heater).unwrap();
                let own = match &model.place {
                    Place::at(own) => {
                        text.contains(&format!("place: at(\"{own}\"),\n            hours"))
                    }
                    Place::aimed(_) => false,
                };
                assert_eq!(
                    !own,
                    text.contains("is not possible on this engine"),
                    "{engine} {heater}"
                );
                moved += usize::from(!own);
            }
        }
        assert!(moved > 0);
    }

    #[test]
    fn a_name_that_is_not_built_in_is_told_with_the_nearest() {
        let e = template(&options("flat-four-5l8", &[]))
            .unwrap_err()
            .to_string();
        assert!(e.contains("Try: flat-four-5l9"), "{e}");
    }
}
