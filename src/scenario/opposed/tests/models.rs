//! Every file under `models/` reads as what its folder says, says where its numbers are from, and fits
//! together with the others.

use super::*;
use crate::scenario::hangar::Hangar;
use crate::scenario::heater::{Heater, HeaterKind, Place};
use crate::scenario::oil::Oil;
use crate::scenario::uncertain::Uncertain;

/// The files of a folder, each with its text.
fn files(kind: &str) -> Vec<(PathBuf, String)> {
    let mut files: Vec<_> = std::fs::read_dir(folder(kind))
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|end| end == "ron"))
        .map(|path| (path.clone(), std::fs::read_to_string(path).unwrap()))
        .collect();
    files.sort();
    files
}

/// What a file must do whatever it holds: open with a comment that gives a source or says `estimated`,
/// and bound each uncertain number in order.
fn assert_accounted_for(file: &Path, text: &str, uncertain: &Uncertain) {
    let file = file.display();
    let opening: String = text
        .lines()
        .take_while(|line| line.starts_with("//"))
        .collect();
    let says = ["estimated", "from memory", "public"];
    assert!(
        says.iter().any(|word| opening.contains(word)),
        "{file}: no source"
    );
    assert!(!uncertain.is_empty(), "{file}: nothing uncertain");
    for (path, unknown) in uncertain {
        assert!(unknown.low < unknown.high, "{file}: {path}");
        assert!(!unknown.source.is_empty(), "{file}: {path}");
    }
}

fn engines() -> Vec<(String, Body)> {
    let expanded = files("engines").into_iter().map(|(file, text)| {
        let name = file.file_stem().unwrap().to_string_lossy().into_owned();
        let body = match read(&file) {
            Engine::opposed(layout) => expand(&layout),
            Engine::body(body) => body,
        };
        assert_accounted_for(&file, &text, &body.uncertain);
        (name, body)
    });
    expanded.collect()
}

fn heaters() -> Vec<Heater> {
    let read_all = files("heaters").into_iter().map(|(file, text)| {
        let heater: Heater = read(&file);
        assert_accounted_for(&file, &text, &heater.uncertain);
        heater
    });
    read_all.collect()
}

#[test]
fn engines_read_and_their_names_resolve() {
    let engines = engines();
    assert_eq!(engines.len(), 5);
    for (name, body) in &engines {
        assert_names_resolve(name, body);
        assert!(!body.part_groups.is_empty(), "{name}");
    }
}

#[test]
fn oils_read_and_thin_as_they_warm() {
    let files = files("oils");
    assert_eq!(files.len(), 6);
    for (file, text) in files {
        let oil: Oil = read(&file);
        assert_accounted_for(&file, &text, &oil.uncertain);
        assert!(oil.at_100.si() < oil.at_40.si(), "{}", file.display());
    }
}

#[test]
fn hangars_read_and_the_airier_follow_faster() {
    let mut hangars: Vec<Hangar> = Vec::new();
    for (file, text) in files("hangars") {
        let hangar: Hangar = read(&file);
        assert_accounted_for(&file, &text, &hangar.uncertain);
        hangars.push(hangar);
    }
    assert_eq!(hangars.len(), 3);
    hangars.sort_by(|a, b| a.time_constant.si().total_cmp(&b.time_constant.si()));
    for pair in hangars.windows(2) {
        assert!(pair[0].air_speed.si() > pair[1].air_speed.si());
        assert!(pair[0].wind_fraction > pair[1].wind_fraction);
    }
}

#[test]
fn every_heater_fits_every_engine() {
    let heaters = heaters();
    assert_eq!(heaters.len(), 7);
    for (engine, body) in engines() {
        if engine == "aluminium-block" {
            continue;
        }
        for heater in &heaters {
            let shown = format!("{} on {engine}", heater.name);
            let Place::at(place) = &heater.place else {
                panic!("{shown}: aimed by hand");
            };
            let aim = body
                .places
                .get(place)
                .unwrap_or_else(|| panic!("{shown}: no {place}"));
            let sum = |list: &[(String, f64)]| list.iter().map(|(_, share)| share).sum::<f64>();
            let whole = |list: &[(String, f64)]| (sum(list) - 1.0).abs() < 1e-9;
            match &heater.kind {
                HeaterKind::bay_fan { .. } => {
                    assert!(whole(&aim.intake) && whole(&aim.discharge), "{shown}");
                }
                HeaterKind::ducted { .. } => {
                    assert!(whole(&aim.discharge) && whole(&aim.impingement), "{shown}");
                }
                HeaterKind::bonded => assert!(whole(&aim.impingement), "{shown}"),
                HeaterKind::radiant { .. } => {
                    assert!(whole(&aim.discharge) && whole(&aim.impingement), "{shown}");
                }
            }
            if let Some(thermostat) = &heater.thermostat {
                let found = body.parts.iter().any(|p| p.name == thermostat.sensor);
                assert!(found, "{shown}: no {}", thermostat.sensor);
            }
        }
    }
}

/// How many of the unit a file writes a number in make one SI unit.
fn written_in(path: &str) -> f64 {
    match path {
        "oil_litres" | "gas_litres" => 1e3,
        "time_constant" => 1.0 / 3600.0,
        _ => 1.0,
    }
}

/// Each path of an `uncertain` map leads to a number of its file, between the bounds given for it.
fn assert_unknowns_hold(file: &str, held: &impl serde::Serialize, uncertain: &Uncertain) {
    let held = serde_json::to_value(held).unwrap();
    for (path, unknown) in uncertain {
        let pointer = path.replace(['.', '['], "/").replace(']', "");
        let found = held.pointer(&format!("/{pointer}"));
        let found = found.unwrap_or_else(|| panic!("{file}: nothing at {path}"));
        let si = match found {
            serde_json::Value::Object(unit) => unit.values().next().and_then(|v| v.as_f64()),
            plain => plain.as_f64(),
        };
        let value = si.unwrap() * written_in(path);
        let shown = format!(
            "{file}: {path} is {value}, not {} to {}",
            unknown.low, unknown.high
        );
        assert!(unknown.low <= value && value <= unknown.high, "{shown}");
    }
}

#[test]
fn unknowns_are_numbers_the_file_holds() {
    for (file, _) in files("engines") {
        let name = file.display().to_string();
        match read(&file) {
            Engine::opposed(layout) => assert_unknowns_hold(&name, &layout, &layout.uncertain),
            Engine::body(body) => assert_unknowns_hold(&name, &body, &body.uncertain),
        }
    }
    for heater in heaters() {
        assert_unknowns_hold(&heater.name, &heater, &heater.uncertain);
    }
    for (file, _) in files("oils") {
        let oil: Oil = read(&file);
        assert_unknowns_hold(&oil.grade, &oil, &oil.uncertain);
    }
    for (file, _) in files("hangars") {
        let hangar: Hangar = read(&file);
        assert_unknowns_hold(&hangar.name, &hangar, &hangar.uncertain);
    }
}
