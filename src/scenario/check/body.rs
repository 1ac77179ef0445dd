//! The parts of a body, their shapes, and the groups in which they are read.

use super::super::body::{Body, Reading, SurroundingTemperature};
use super::super::part::{AfterFlight, Part, Role, Shape};
use super::names::{Names, is_word};
use super::problem::Problems;
use super::surroundings::{temperature, unknowns};
use std::collections::BTreeSet;

/// The most layers of a stack before it is cut further.
const MOST_LAYERS: f64 = 64.0;
/// Engine and exhaust temperatures just after a flight that are believed, in degrees Celsius.
const AFTER_FLIGHT_C: (f64, f64) = (-60.0, 600.0);

/// Checks parts, surroundings, readings, bearings and oil.
pub(super) fn check(body: &Body, names: &Names, problems: &mut Problems) {
    if body.parts.is_empty() {
        problems
            .tell("engine.parts", "the engine has no parts")
            .help("name at least one part with its mass and specific heat");
    } else if !body.parts.iter().any(|p| p.role.is_engine()) {
        problems
            .tell(
                "engine.parts",
                "no part is an engine part, so nothing could ever be ready",
            )
            .help("leave `role` out, or write `role: engine`, on the parts that must be warm");
    }
    for (i, p) in body.parts.iter().enumerate() {
        part(p, &format!("engine.parts[{i}]"), names, problems);
    }
    for (i, s) in body.surroundings.iter().enumerate() {
        let path = format!("engine.surroundings[{i}].temperature");
        surrounding(&s.temperature, &path, problems);
    }
    readings(&body.readings, "engine.readings", names, problems);
    readings(&body.cylinders, "engine.cylinders", names, problems);
    for (i, bearing) in body.bearings.iter().enumerate() {
        let path = format!("engine.bearings[{i}]");
        names.part(&bearing.crank, &format!("{path}.crank"), problems);
        problems.positive(format!("{path}.diameter"), bearing.diameter.si());
        if bearing.case.is_empty() {
            problems.tell(format!("{path}.case"), "a bearing needs a case around it");
        }
        for name in &bearing.case {
            names.part(name, &format!("{path}.case"), problems);
        }
    }
    if let Some(oil) = &body.oil {
        names.part(oil, "engine.oil", problems);
    }
    unknowns(&body.unknowns, "engine.unknowns", problems);
}

fn part(part: &Part, path: &str, names: &Names, problems: &mut Problems) {
    problems.positive(format!("{path}.mass"), part.mass.si());
    problems.positive(format!("{path}.specific_heat"), part.specific_heat.si());
    shape(&part.shape, &format!("{path}.shape"), problems);
    if let Role::skin(pocket) = &part.role {
        names.pocket(pocket, &format!("{path}.role"), problems);
    }
    after_flight(
        &part.after_flight,
        &format!("{path}.after_flight"),
        problems,
    );
}

/// Checks a temperature just after a flight.
pub(super) fn after_flight(after: &AfterFlight, path: &str, problems: &mut Problems) {
    match after {
        AfterFlight::at(t) => temperature(*t, path, AFTER_FLIGHT_C, problems),
        AfterFlight::above_hangar(step) => {
            problems.within(path, step.kelvin(), -60.0, 600.0, "K");
        }
    }
}

fn shape(shape: &Shape, path: &str, problems: &mut Problems) {
    let positive = |problems: &mut Problems, key: &str, number: f64| {
        problems.positive(format!("{path}.{key}"), number);
    };
    match shape {
        Shape::lump => {}
        Shape::bar {
            length,
            section,
            conductivity,
        } => {
            positive(problems, "length", length.si());
            positive(problems, "section", section.si());
            positive(problems, "conductivity", conductivity.si());
        }
        Shape::block {
            size, conductivity, ..
        } => {
            for edge in [size.0, size.1, size.2] {
                positive(problems, "size", edge.si());
            }
            positive(problems, "conductivity", conductivity.si());
        }
        Shape::tube {
            inner,
            outer,
            length,
            conductivity,
            ..
        } => {
            radii(inner.si(), outer.si(), path, problems);
            positive(problems, "length", length.si());
            positive(problems, "conductivity", conductivity.si());
        }
        Shape::shell {
            inner,
            outer,
            conductivity,
        } => {
            radii(inner.si(), outer.si(), path, problems);
            positive(problems, "conductivity", conductivity.si());
        }
        Shape::stack {
            area,
            depth,
            layers,
        } => {
            positive(problems, "area", area.si());
            positive(problems, "depth", depth.si());
            let layers = *layers as f64;
            problems.within(format!("{path}.layers"), layers, 1.0, MOST_LAYERS, "");
        }
    }
}

fn radii(inner: f64, outer: f64, path: &str, problems: &mut Problems) {
    problems.not_negative(format!("{path}.inner"), inner);
    if problems.positive(format!("{path}.outer"), outer) && inner >= outer {
        problems.tell(
            format!("{path}.inner"),
            format!("`inner` must be less than `outer`, they are {inner} m and {outer} m"),
        );
    }
}

fn surrounding(given: &SurroundingTemperature, path: &str, problems: &mut Problems) {
    const BELIEVED_C: (f64, f64) = (-273.15, 2000.0);
    match given {
        SurroundingTemperature::steady(t) => temperature(*t, path, BELIEVED_C, problems),
        SurroundingTemperature::curve(points) => {
            if points.is_empty() {
                problems.tell(path, "the curve has no points");
            }
            for (_, t) in points {
                temperature(*t, path, BELIEVED_C, problems);
            }
            let rising = points.windows(2).all(|pair| pair[0].0 < pair[1].0);
            if !rising || !points.iter().all(|(hours, _)| hours.is_finite()) {
                problems.tell(path, "the hours of a curve must rise from point to point");
            }
        }
    }
}

fn readings(readings: &[Reading], path: &str, names: &Names, problems: &mut Problems) {
    let mut keys = BTreeSet::new();
    for (i, reading) in readings.iter().enumerate() {
        let path = format!("{path}[{i}]");
        if !is_word(&reading.key) {
            problems
                .tell(
                    format!("{path}.key"),
                    format!("`{}` is not a key", reading.key),
                )
                .word(&reading.key)
                .help("a key is one word of letters, digits, `_` and `-`");
        }
        if !keys.insert(&reading.key) {
            problems
                .tell(
                    format!("{path}.key"),
                    format!(
                        "the key `{}` is already taken by another reading",
                        reading.key
                    ),
                )
                .word(&reading.key);
        }
        if reading.parts.is_empty() {
            problems.tell(format!("{path}.parts"), "a reading needs at least one part");
        }
        for name in &reading.parts {
            names.part(name, &format!("{path}.parts"), problems);
        }
    }
}
