//! How many of everything there are, in which order, and that the printed body reads back the same.

use super::*;
use crate::document::{self, Source};
use crate::scenario::joint::{Contact, FilmLaw};
use crate::scenario::part::{Role, Shape};
use std::collections::BTreeSet;

fn cells(body: &Body) -> usize {
    let of = |shape: &Shape| match shape {
        Shape::stack { layers, .. } => *layers,
        _ => 1,
    };
    body.parts.iter().map(|part| of(&part.shape)).sum()
}

#[test]
fn a_flat_four_has_61_cells_and_29_walls_a_flat_six_76_and_40() {
    for (name, rows, _) in OPPOSED {
        let body = body(name);
        let expected = if rows == 2 { (61, 29) } else { (76, 40) };
        let walls = body.crankcase_gas.as_ref().unwrap().walls.len();
        assert_eq!((cells(&body), walls), expected, "{name}");
        assert_eq!(body.air_volumes.len(), 6);
        assert_eq!((body.openings.len(), body.mixing_openings.len()), (12, 3));
        assert_eq!(
            (body.cowl_leaks.len(), body.fin_passages.len()),
            (7, 2 * rows)
        );
        assert_eq!(body.bearings.len(), rows + 1);
        assert_eq!(body.cylinders.len(), 2 * rows);
        assert_eq!(body.places.len(), 10);
    }
}

#[test]
fn parked_masses_are_those_of_the_class_within_two_percent() {
    let parked = [
        "case", "cyl", "piston", "crank", "acc_case", "mags", "gen", "sump", "carb", "intake",
        "filter",
    ];
    for (name, _, kg) in OPPOSED {
        let sum: f64 = body(name)
            .parts
            .iter()
            .filter(|part| parked.iter().any(|start| part.name.starts_with(start)))
            .map(|part| part.mass.si())
            .sum();
        assert!((sum / kg - 1.0).abs() < 0.02, "{name}: {sum} kg, not {kg}");
    }
}

#[test]
fn every_name_used_is_the_name_of_one_thing() {
    for (name, ..) in OPPOSED {
        assert_names_resolve(name, &body(name));
    }
}

#[test]
fn labels_are_unique_and_in_plain_words() {
    for (name, ..) in OPPOSED {
        let body = body(name);
        let labels: BTreeSet<&str> = body.parts.iter().map(|p| p.label.as_str()).collect();
        assert_eq!(labels.len(), body.parts.len(), "{name}");
    }
    let said = |body: &Body, part: &str| {
        let found = body.parts.iter().find(|p| p.name == part);
        found.map(|p| p.label.clone()).unwrap()
    };
    let six = body("flat-six-8l5");
    assert_eq!(said(&six, "cylL1head"), "left front cylinder head");
    assert_eq!(
        said(&six, "cylR2b1"),
        "right middle cylinder barrel, middle third"
    );
    assert_eq!(said(&six, "case0ul"), "upper left crankcase, nose");
    assert_eq!(said(&six, "cowlUL"), "cowl skin over the left cylinders");
}

#[test]
fn the_parts_that_need_not_be_warm_are_skins_propeller_and_structure() {
    let body = body("flat-four-3l1");
    let excused: Vec<&str> = body
        .parts
        .iter()
        .filter(|part| !part.role.is_engine())
        .map(|part| part.name.as_str())
        .collect();
    let expected = [
        "hub", "blade0", "blade1", "blade2", "exhaust", "mount", "firewall", "baffle", "cowlUL",
        "cowlUR", "cowlFR", "cowlLO", "cowlFL", "cowlRE",
    ];
    assert_eq!(excused, expected);
    let watched = body.parts.iter().filter(|p| p.role == Role::carburettor);
    assert_eq!(watched.count(), 1);
}

#[test]
fn readings_come_in_the_reported_order() {
    let keys: Vec<String> = body("flat-six-8l5")
        .part_groups
        .into_iter()
        .map(|reading| reading.key)
        .collect();
    let expected = [
        "left_cylinders",
        "right_cylinders",
        "upper_case",
        "lower_case",
        "rear",
        "carburettor",
        "sump",
        "oil",
    ];
    assert_eq!(keys, expected);
}

#[test]
fn the_oil_stands_on_the_sump_floor_and_against_its_sides() {
    let body = body("flat-four-5l9");
    let floors = body
        .joints
        .iter()
        .filter(|joint| joint.contact == Contact::oil_floor);
    let floors: Vec<_> = floors.map(|joint| (&joint.from.0, &joint.to.0)).collect();
    assert_eq!(floors.len(), 1);
    assert_eq!(
        (floors[0].0.as_str(), floors[0].1.as_str()),
        ("sump_bot", "oil")
    );
    let outdoors = |face: &&crate::scenario::joint::Surface| {
        matches!(face.law, FilmLaw::outdoors { .. }) != (face.meets == "hangar")
    };
    assert_eq!(body.surfaces.iter().filter(outdoors).count(), 0);
}

#[test]
fn a_printed_body_reads_back_the_same() {
    for (name, ..) in OPPOSED {
        let body = body(name);
        let pretty = ron::ser::PrettyConfig::default();
        let text = ron().to_string_pretty(&body, pretty).unwrap();
        let plain = ron::to_string(&body).unwrap();
        for text in [text, plain] {
            let reading = document::read::<Body>(&Source::new(name, &text));
            assert_eq!(reading.errors.count(), 0, "{}", reading.errors);
            assert_eq!(reading.value.as_ref(), Some(&body), "{name}");
        }
    }
}

#[test]
fn an_engine_without_rows_expands_without_a_panic() {
    let none = Layout {
        rows: 0,
        ..layout("flat-four-3l1")
    };
    assert!(expand(&none).cylinders.is_empty());
}
