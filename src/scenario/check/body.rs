//! The parts of a body, their shapes, and the groups in which they are read.

use super::super::body::{Body, PartGroup, SurroundingTemperature};
use super::super::part::{Part, Role, Shape};
use super::names::{Names, is_word};
use super::problem::Problems;
use super::surroundings::uncertain;
use std::collections::BTreeSet;

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
    readings(&body.part_groups, "engine.part_groups", names, problems);
    readings(&body.cylinders, "engine.cylinders", names, problems);
    for (i, bearing) in body.bearings.iter().enumerate() {
        let path = format!("engine.bearings[{i}]");
        names.part(&bearing.crank, &format!("{path}.crank"), problems);
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
    uncertain(&body.uncertain, "engine.uncertain", problems);
}

fn part(part: &Part, path: &str, names: &Names, problems: &mut Problems) {
    if let Role::skin(pocket) = &part.role {
        names.pocket(pocket, &format!("{path}.role"), problems);
    }
    if let Shape::tube { inner, outer, .. } | Shape::shell { inner, outer, .. } = &part.shape
        && outer.si() > 0.0
        && inner.si() >= outer.si()
    {
        let (inner, outer) = (inner.si(), outer.si());
        problems.tell(
            format!("{path}.shape.inner"),
            format!("`inner` must be less than `outer`, they are {inner} m and {outer} m"),
        );
    }
}

fn surrounding(given: &SurroundingTemperature, path: &str, problems: &mut Problems) {
    if let SurroundingTemperature::curve(points) = given {
        if points.is_empty() {
            problems.tell(path, "the curve has no points");
        }
        if !points.windows(2).all(|pair| pair[0].0 < pair[1].0) {
            problems.tell(path, "the hours of a curve must rise from point to point");
        }
    }
}

fn readings(readings: &[PartGroup], path: &str, names: &Names, problems: &mut Problems) {
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
