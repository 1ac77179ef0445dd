//! Groups of parts as a thermometer would read them, and the main bearings.

use super::names::{self, Level, Side};
use super::plan::Plan;
use crate::scenario::body::{Bearing, PartGroup};

fn reading(key: &str, label: &str, parts: Vec<String>) -> PartGroup {
    PartGroup {
        key: key.to_owned(),
        label: label.to_owned(),
        parts,
    }
}

/// A cylinder reads as the mean of its head and the middle of its barrel.
fn cylinder(side: Side, row: usize) -> [String; 2] {
    ["head", "b1"].map(|piece| names::cylinder(side, row, piece))
}

/// The groups, in the order in which they are reported.
pub(super) fn groups(plan: &Plan) -> Vec<PartGroup> {
    let side = |side: Side| {
        let parts = (1..=plan.rows).flat_map(|row| cylinder(side, row));
        let (key, label) = match side {
            Side::Left => ("left_cylinders", "left cylinders"),
            Side::Right => ("right_cylinders", "right cylinders"),
        };
        reading(key, label, parts.collect())
    };
    let case = |level: Level| {
        let parts = (1..plan.stations)
            .flat_map(|station| Side::BOTH.map(|side| names::case(station, level, side)));
        let (key, label) = match level {
            Level::Upper => ("upper_case", "upper crankcase"),
            Level::Lower => ("lower_case", "lower crankcase"),
        };
        reading(key, label, parts.collect())
    };
    let two = |one: &str, other: &str| vec![one.to_owned(), other.to_owned()];
    vec![
        side(Side::Left),
        side(Side::Right),
        case(Level::Upper),
        case(Level::Lower),
        reading(
            "rear",
            "accessory case and magnetos",
            two("acc_case", "mags"),
        ),
        reading(
            "carburettor",
            "carburettor and intake",
            two("carb", "intake"),
        ),
        reading("sump", "sump", two("sump_side", "sump_bot")),
        reading("oil", "oil", vec!["oil".to_owned()]),
    ]
}

/// One reading a cylinder.
pub(super) fn cylinders(plan: &Plan) -> Vec<PartGroup> {
    let mut readings = Vec::new();
    for side in Side::BOTH {
        for row in 1..=plan.rows {
            let label = names::cylinder_word(side, row, plan.rows);
            let key = names::cylinder(side, row, "");
            readings.push(reading(&key, &label, cylinder(side, row).into()));
        }
    }
    readings
}

/// One bearing a station.
pub(super) fn bearings(plan: &Plan) -> Vec<Bearing> {
    let bearing = |station: usize| Bearing {
        label: format!("main bearing, {}", names::station_word(station, plan.rows)),
        crank: names::crank(station),
        case: Level::BOTH
            .into_iter()
            .flat_map(|level| Side::BOTH.map(|side| names::case(station, level, side)))
            .collect(),
        diameter: plan.layout.d_crank,
    };
    (0..plan.stations).map(bearing).collect()
}
