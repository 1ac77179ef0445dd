//! What the engine itself is joined by: crankcase, cylinders, pistons, crankshaft, propeller.

use super::names::{self, Level, Side};
use super::plan::{CASE_HALF_WIDTH, K_STEEL, Plan};
use crate::quantity::{Area, Conductance};
use crate::scenario::joint::{Contact, Joint};
use crate::scenario::part::Spot;

/// Share of the crankcase side wall left at the nose, where no cylinder is let in.
const NOSE_CUT: f64 = 0.8;
/// Camshaft beside the crankshaft, as a factor on its section.
const WITH_CAMSHAFT: f64 = 1.4;

/// Every joint of the engine proper.
pub(super) fn of_the_engine(plan: &Plan) -> Vec<Joint> {
    let mut joints = crankcase(plan);
    joints.extend(cylinders(plan));
    joints.extend(crankshaft(plan));
    joints.extend(propeller(plan));
    joints
}

/// A joint between two whole parts, in W/K.
pub(super) fn whole(from: impl Into<String>, to: impl Into<String>, w_k: f64) -> Joint {
    let contact = Contact::total(Conductance::W_K(w_k));
    between(
        (from.into(), Spot::whole),
        (to.into(), Spot::whole),
        contact,
    )
}

/// A joint between two places.
pub(super) fn between(from: (String, Spot), to: (String, Spot), contact: Contact) -> Joint {
    Joint {
        from,
        to,
        contact,
        footprint: None,
    }
}

fn crankcase(plan: &Plan) -> Vec<Joint> {
    let layout = plan.layout;
    let (length, height) = (layout.row_len.si(), layout.case_half_h.si());
    let sheet = layout.case_wall.si() * layout.k_case.si();
    let web = 0.010 * 0.6 * CASE_HALF_WIDTH * layout.k_case.si() / 0.12;
    let cut = plan.bay().bore_cut;
    let mut joints = Vec::new();
    for station in 0..plan.stations {
        let left = if station == 0 { NOSE_CUT } else { cut };
        let down = length * sheet / height * left + web / 2.0;
        let across = 0.8 * length * sheet / CASE_HALF_WIDTH + web / 2.0;
        for side in Side::BOTH {
            let [upper, lower] = Level::BOTH.map(|level| names::case(station, level, side));
            joints.push(whole(upper, lower, down));
        }
        for level in Level::BOTH {
            let [left, right] = Side::BOTH.map(|side| names::case(station, level, side));
            joints.push(whole(left, right, across));
        }
    }
    let along = (0.9 * CASE_HALF_WIDTH + cut * height) * sheet / length;
    for station in 1..plan.stations {
        for level in Level::BOTH {
            for side in Side::BOTH {
                let [front, rear] = [station - 1, station].map(|a| names::case(a, level, side));
                joints.push(whole(front, rear, along));
            }
        }
    }
    joints
}

fn cylinders(plan: &Plan) -> Vec<Joint> {
    let mut joints = Vec::new();
    for side in Side::BOTH {
        for row in 1..=plan.rows {
            let [b0, b1, b2, head] =
                ["b0", "b1", "b2", "head"].map(|piece| names::cylinder(side, row, piece));
            // The barrel's flange: 24 W/K (estimated), half of it to the upper and half to the lower case.
            for level in Level::BOTH {
                joints.push(Joint {
                    footprint: Some(Area::m2(plan.barrel_section / 2.0)),
                    ..between(
                        (b0.clone(), Spot::start),
                        (names::case(row, level, side), Spot::whole),
                        Contact::total(Conductance::W_K(12.0)),
                    )
                });
            }
            for (inner, outer) in [(&b0, &b1), (&b1, &b2)] {
                let (inner, outer) = (inner.clone(), outer.clone());
                let (from, to) = ((inner, Spot::end), (outer, Spot::start));
                joints.push(between(from, to, Contact::perfect));
            }
            // Screwed and shrunk: 8 W/K (estimated).
            let screwed = Contact::total(Conductance::W_K(8.0));
            joints.push(between((b2, Spot::end), (head, Spot::whole), screwed));
            let piston = names::piston(side, row);
            joints.push(whole(piston.clone(), b1, 1.2));
            joints.push(whole(piston, names::crank(row), 0.25));
        }
    }
    joints
}

fn crankshaft(plan: &Plan) -> Vec<Joint> {
    let bay = plan.bay();
    let mut joints = Vec::new();
    for station in 0..plan.stations {
        for level in Level::BOTH {
            for side in Side::BOTH {
                let case = names::case(station, level, side);
                let quarter = bay.bearing.si() / 4.0;
                joints.push(whole(names::crank(station), case, quarter));
            }
        }
    }
    let bar = K_STEEL * plan.journal / plan.layout.row_len.si();
    let along = WITH_CAMSHAFT * bay.crank_conduction_factor * bar;
    for station in 1..plan.stations {
        let [front, rear] = [station - 1, station].map(names::crank);
        joints.push(whole(front, rear, along));
    }
    joints
}

/// The crankshaft's neck, 0.09 m of 1.3 journal sections, then the flange, 20 W/K (both estimated).
fn propeller(plan: &Plan) -> Vec<Joint> {
    let neck = 1.0 / (0.09 / (K_STEEL * 1.3 * plan.journal) + 1.0 / 20.0);
    let root = plan.layout.k_blade.si() * plan.blade_section / 0.03;
    let blade = |i: usize, spot: Spot| (format!("blade{i}"), spot);
    let hub = ("hub".to_owned(), Spot::whole);
    let rooted = Contact::total(Conductance::W_K(root));
    vec![
        whole(names::crank(0), "hub", neck),
        between(hub, blade(0, Spot::start), rooted),
        between(blade(0, Spot::end), blade(1, Spot::start), Contact::perfect),
        between(blade(1, Spot::end), blade(2, Spot::start), Contact::perfect),
    ]
}
