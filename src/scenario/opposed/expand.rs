//! The way from a Layout to a Body, one thing after another.

use super::plan::Plan;
use super::{air, faces, fittings, joints, moisture, parts, places, readings, sights};
use crate::scenario::body::Body;
use crate::scenario::engine::Layout;

/// The body of an opposed engine: every part, joint, face, air volume, opening, inner wall, reading and
/// place that follows from its Layout.
///
/// It never fails: numbers that make no sense (no rows, a negative mass) give a body that makes no
/// sense, which [`crate::scenario::check`] refuses.
pub fn expand(layout: &Layout) -> Body {
    let plan = Plan::of(layout);
    let mut all_joints = joints::of_the_engine(&plan);
    all_joints.extend(fittings::joints(&plan));
    Body {
        parts: parts::all(&plan),
        joints: all_joints,
        surfaces: faces::all(&plan),
        radiation_pairs: sights::all(&plan),
        air_volumes: air::pockets(&plan),
        openings: air::passages(&plan),
        mixing_openings: air::exchanges(&plan),
        cowl_leaks: air::gaps(&plan),
        fin_passages: air::fin_passages(&plan),
        air: air::coefficients(&plan),
        crankcase_gas: Some(moisture::gas_room(&plan)),
        part_groups: readings::groups(&plan),
        cylinders: readings::cylinders(&plan),
        bearings: readings::bearings(&plan),
        oil: Some("oil".to_owned()),
        places: places::all(&plan),
        uncertain: layout.uncertain.clone(),
        enclosures: Vec::new(),
        feeds: Vec::new(),
        surroundings: Vec::new(),
    }
}
