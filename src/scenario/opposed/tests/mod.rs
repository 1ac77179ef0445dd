//! The expansion, held against hand calculation, against the mirror, and against the model files.

mod counts;
mod hand;
mod mirror;
mod models;
mod sums;

use super::expand;
use crate::document::{self, Read, Source};
use crate::scenario::body::Body;
use crate::scenario::engine::{Engine, Layout};
use std::path::{Path, PathBuf};

/// The opposed engines: file, rows, parked mass in kg.
const OPPOSED: [(&str, usize, f64); 3] = [
    ("flat-four-3l1", 2, 84.0),
    ("flat-four-5l9", 2, 133.0),
    ("flat-six-8l5", 3, 201.0),
];

fn folder(kind: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("models")
        .join(kind)
}

fn ron() -> ron::Options {
    ron::Options::default().with_default_extension(ron::extensions::Extensions::IMPLICIT_SOME)
}

fn read<T: Read>(file: &Path) -> T {
    let text = std::fs::read_to_string(file).unwrap();
    let reading = document::read::<T>(&Source::new(&file.display().to_string(), &text));
    assert_eq!(reading.errors.count(), 0, "{}", reading.errors);
    reading.value.unwrap()
}

fn layout(name: &str) -> Layout {
    match read(&folder("engines").join(format!("{name}.ron"))) {
        Engine::opposed(layout) => layout,
        Engine::body(_) => panic!("{name} is no Layout"),
    }
}

fn body(name: &str) -> Body {
    expand(&layout(name))
}

/// Every name that something in the body refers to: parts, and air volumes or surroundings.
fn references(body: &Body) -> (Vec<&str>, Vec<&str>) {
    let (mut parts, mut airs): (Vec<&str>, Vec<&str>) = Default::default();
    for joint in &body.joints {
        parts.extend([joint.from.0.as_str(), joint.to.0.as_str()]);
    }
    for face in &body.surfaces {
        parts.push(&face.part);
        airs.push(&face.meets);
    }
    for sight in &body.radiation_pairs {
        parts.extend([sight.from.as_str(), sight.to.as_str()]);
    }
    for passage in &body.openings {
        airs.extend([passage.between.0.as_str(), passage.between.1.as_str()]);
    }
    for exchange in &body.mixing_openings {
        airs.extend([exchange.below.as_str(), exchange.above.as_str()]);
    }
    airs.extend(body.cowl_leaks.iter().map(|gap| gap.pocket.as_str()));
    for fins in &body.fin_passages {
        airs.extend([fins.below.as_str(), fins.above.as_str()]);
        parts.extend(fins.fins.iter().map(|(part, _)| part.as_str()));
    }
    if let Some(room) = &body.crankcase_gas {
        parts.extend(room.walls.iter().map(|wall| wall.part.as_str()));
        parts.extend(room.oil.iter().map(|oil| oil.part.as_str()));
        airs.push(&room.breather);
    }
    for reading in body.part_groups.iter().chain(&body.cylinders) {
        parts.extend(reading.parts.iter().map(String::as_str));
    }
    for bearing in &body.bearings {
        parts.push(&bearing.crank);
        parts.extend(bearing.case.iter().map(String::as_str));
    }
    parts.extend(body.oil.as_deref());
    for aim in body.places.values() {
        let thrown = aim.intake.iter().chain(&aim.discharge);
        airs.extend(thrown.map(|(pocket, _)| pocket.as_str()));
        parts.extend(aim.impingement.iter().map(|(part, _)| part.as_str()));
    }
    (parts, airs)
}

/// Panics on the first name that nothing in the body answers to.
fn assert_names_resolve(name: &str, body: &Body) {
    let (parts, airs) = references(body);
    let mut known: Vec<&str> = body.parts.iter().map(|part| part.name.as_str()).collect();
    let listed = known.len();
    known.sort_unstable();
    known.dedup();
    assert_eq!(known.len(), listed, "{name}: a part's name is used twice");
    for part in parts {
        assert!(known.contains(&part), "{name}: no part is named `{part}`");
    }
    let mut around = vec!["hangar", "cabin"];
    around.extend(body.air_volumes.iter().map(|pocket| pocket.name.as_str()));
    around.extend(body.surroundings.iter().map(|s| s.name.as_str()));
    for air in airs {
        assert!(around.contains(&air), "{name}: no air is named `{air}`");
    }
}
