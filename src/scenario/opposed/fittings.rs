//! What hangs on the engine and what it stands on: accessories, sump and oil, intake, exhaust,
//! mount, baffles and skins, by the joints that hold them.

use super::joints::{between, whole};
use super::names::{self, Level, Side};
use super::plan::Plan;
use crate::quantity::Conductance;
use crate::scenario::joint::{Contact, Joint};
use crate::scenario::part::Spot;

/// From the sump's side to the oil: a boundary layer in oil, W/m2K (estimated).
const OIL_SIDE_FILM: f64 = 22.0;
/// Skins that touch.
const NEIGHBOURS: [(&str, &str); 10] = [
    ("UL", "UR"),
    ("UL", "LO"),
    ("UR", "LO"),
    ("LO", "FL"),
    ("FR", "UL"),
    ("FR", "UR"),
    ("FR", "LO"),
    ("RE", "UL"),
    ("RE", "UR"),
    ("RE", "LO"),
];

/// Every joint of the fittings.
pub(super) fn joints(plan: &Plan) -> Vec<Joint> {
    let mut joints = accessories(plan);
    joints.extend(sump_and_oil(plan));
    joints.extend(intake_and_exhaust(plan));
    joints.extend(structure(plan));
    joints
}

fn quarters(station: usize) -> impl Iterator<Item = String> {
    Level::BOTH.into_iter().flat_map(move |level| {
        Side::BOTH
            .into_iter()
            .map(move |side| names::case(station, level, side))
    })
}

fn heads(plan: &Plan) -> impl Iterator<Item = String> {
    let rows = plan.rows;
    Side::BOTH
        .into_iter()
        .flat_map(move |side| (1..=rows).map(move |row| names::cylinder(side, row, "head")))
}

fn accessories(plan: &Plan) -> Vec<Joint> {
    let flange = plan.bay().acc_joint.si() / 4.0;
    let mut joints: Vec<Joint> = quarters(plan.rear())
        .map(|case| whole("acc_case", case, flange))
        .collect();
    joints.push(whole("acc_case", names::crank(plan.rear()), 1.0));
    joints.push(whole("acc_case", "mags", 1.5));
    joints.push(whole("acc_case", "gen", 1.5));
    joints.push(whole("acc_case", "filter", 1.0));
    joints
}

fn sump_and_oil(plan: &Plan) -> Vec<Joint> {
    let layout = plan.layout;
    let flange = layout.g_sump_case.si() / (2 * plan.stations) as f64;
    let mut joints = Vec::new();
    for station in 0..plan.stations {
        for side in Side::BOTH {
            let case = names::case(station, Level::Lower, side);
            joints.push(whole("sump_side", case, flange));
        }
    }
    let way = 0.5 * layout.sump_depth.si() + 0.25 * layout.sump_area.si().sqrt();
    let shell = 140.0 * plan.sump_wall * plan.girth / way;
    joints.push(whole("sump_side", "sump_bot", shell));
    joints.push(between(
        ("sump_bot".to_owned(), Spot::whole),
        ("oil".to_owned(), Spot::bottom),
        Contact::oil_floor,
    ));
    let wetted = OIL_SIDE_FILM * plan.girth * plan.oil_depth;
    joints.push(between(
        ("sump_side".to_owned(), Spot::whole),
        ("oil".to_owned(), Spot::whole),
        Contact::total(Conductance::W_K(wetted)),
    ));
    joints
}

fn intake_and_exhaust(plan: &Plan) -> Vec<Joint> {
    let mut joints = vec![whole("carb", "intake", 0.8)];
    joints.extend(heads(plan).map(|head| whole("intake", head, 0.6 / plan.cylinders())));
    joints.extend(Side::BOTH.map(|side| {
        let case = names::case(plan.rear(), Level::Lower, side);
        whole("intake", case, 0.3)
    }));
    joints.extend(heads(plan).map(|head| whole("exhaust", head, 0.8 / plan.cylinders())));
    joints
}

fn structure(plan: &Plan) -> Vec<Joint> {
    // Rubber mounts: little passes them.
    let mut joints: Vec<Joint> = quarters(plan.rear())
        .map(|case| whole("mount", case, 0.06))
        .collect();
    joints.push(whole("mount", "firewall", 0.25));
    joints.extend(heads(plan).map(|head| whole("baffle", head, 0.1)));
    joints.extend(Side::BOTH.map(|side| {
        let case = names::case(plan.rear(), Level::Upper, side);
        whole("baffle", case, 0.025)
    }));
    // One metre of seam over one metre of way, aluminium sheet at 180 W/mK.
    let sheet = 180.0 * plan.layout.cowl_thick.si();
    joints
        .extend(NEIGHBOURS.map(|(one, other)| whole(names::skin(one), names::skin(other), sheet)));
    joints
}
