//! What touches which air: the surfaces in the bay, the fins, and the outside.

use super::names::{self, BARREL, Level, POCKETS, Side};
use super::parts::BLADE;
use super::plan::Plan;
use crate::physics::convection::Facing;
use crate::quantity::{Area, Length};
use crate::scenario::joint::{FilmLaw, Surface};
use crate::scenario::part::Spot;

/// Length of the way between the fins of a cylinder, m.
pub(super) const FIN_WAY: f64 = 0.12;

/// Every face.
pub(super) fn all(plan: &Plan) -> Vec<Surface> {
    let mut faces = crankcase(plan);
    faces.extend(cylinders(plan));
    faces.extend(fittings(plan));
    faces.extend(skins_inside(plan));
    faces.extend(outside(plan));
    faces
}

fn face(part: impl Into<String>, meets: &str, m2: f64, law: FilmLaw) -> Surface {
    Surface {
        part: part.into(),
        at: Spot::whole,
        meets: meets.to_owned(),
        area: Area::m2(m2),
        law,
    }
}

fn air(part: impl Into<String>, pocket: &str, m2: f64, length: f64, facing: Facing) -> Surface {
    let length = Length::m(length);
    face(part, pocket, m2, FilmLaw::air { length, facing })
}

fn crankcase(plan: &Plan) -> Vec<Surface> {
    let a_up = plan.a_up;
    let mut faces = Vec::new();
    for side in Side::BOTH {
        let [upper, lower] = Level::BOTH.map(|level| names::case(0, level, side));
        faces.push(air(upper, "FR", 0.9 * a_up, 0.12, Facing::Upright));
        faces.push(air(lower.clone(), "FR", 0.5 * a_up, 0.12, Facing::Upright));
        faces.push(air(lower, "LO", 0.5 * a_up, 0.12, Facing::Upright));
    }
    for station in 1..plan.stations {
        for side in Side::BOTH {
            let [upper, lower] = Level::BOTH.map(|level| names::case(station, level, side));
            faces.push(air(upper, side.pocket(), a_up, 0.12, Facing::Up));
            faces.push(air(lower, "LO", 0.8 * a_up, 0.12, Facing::Upright));
        }
    }
    faces
}

/// Each piece of a cylinder meets the air above and below with its envelope, and with half its fins.
fn cylinders(plan: &Plan) -> Vec<Surface> {
    let layout = plan.layout;
    let mut faces = Vec::new();
    for side in Side::BOTH {
        for row in 1..=plan.rows {
            for piece in BARREL.into_iter().chain(["head"]) {
                let (envelope, length) = match piece {
                    "head" => (layout.a_env_head.si(), 0.14),
                    _ => (layout.a_env_barrel.si() / 3.0, 0.12),
                };
                let name = names::cylinder(side, row, piece);
                for pocket in [side.pocket(), "LO"] {
                    let half = envelope / 2.0;
                    faces.push(air(name.clone(), pocket, half, length, Facing::Upright));
                    let fins = FilmLaw::fins {
                        length: Length::m(FIN_WAY),
                        penetration: plan.bay().fin_air_fraction,
                    };
                    let half = plan.fin_area(piece) / 2.0;
                    faces.push(face(name.clone(), pocket, half, fins));
                }
            }
        }
    }
    faces
}

fn fittings(plan: &Plan) -> Vec<Surface> {
    use Facing::{Down, Up, Upright};
    let f = &plan.factor;
    let side = plan.sump_side();
    let baffle = 0.10 * f.baffle;
    vec![
        air("acc_case", "RE", 0.075 * f.accessory, 0.15, Upright),
        air("mags", "RE", 0.07, 0.10, Upright),
        air("gen", "RE", 0.10 * f.accessory, 0.12, Upright),
        air("filter", "RE", 0.035 * f.filter, 0.10, Upright),
        air("sump_side", "LO", 0.25 * side, 0.12, Upright),
        air("sump_side", "FL", 0.75 * side, 0.12, Upright),
        air("sump_bot", "FL", plan.layout.sump_area.si(), 0.15, Down),
        air("carb", "LO", 0.045 * f.carburettor, 0.10, Upright),
        air("intake", "LO", 0.14 * f.intake, 0.06, Upright),
        air("exhaust", "LO", 0.16 * f.exhaust, 0.06, Upright),
        air("exhaust", "FL", 0.08 * f.exhaust, 0.06, Upright),
        air("mount", "RE", 0.10, 0.03, Upright),
        air("firewall", "RE", plan.layout.a_firewall.si(), 0.4, Upright),
        air("baffle", "UL", baffle / 2.0, 0.15, Up),
        air("baffle", "UR", baffle / 2.0, 0.15, Up),
        air("baffle", "LO", baffle, 0.15, Down),
    ]
}

/// Which way a skin looks from inside; from outside it looks the other way.
fn inward(pocket: &str) -> Facing {
    match pocket {
        "UL" | "UR" => Facing::Down,
        "FL" => Facing::Up,
        _ => Facing::Upright,
    }
}

fn outward(pocket: &str) -> Facing {
    match inward(pocket) {
        Facing::Up => Facing::Down,
        Facing::Down => Facing::Up,
        Facing::Upright => Facing::Upright,
    }
}

fn skins_inside(plan: &Plan) -> Vec<Surface> {
    POCKETS
        .map(|pocket| {
            let area = plan.skin_area(pocket);
            air(names::skin(pocket), pocket, area, 0.35, inward(pocket))
        })
        .into()
}

fn outside(plan: &Plan) -> Vec<Surface> {
    let layout = plan.layout;
    let outdoors = |length, facing, emissivity| FilmLaw::outdoors {
        length: Length::m(length),
        facing,
        emissivity,
    };
    let mut faces: Vec<Surface> = POCKETS
        .map(|pocket| {
            let law = outdoors(0.5, outward(pocket), plan.bay().emis_cowl_out);
            let area = plan.skin_area(pocket);
            face(names::skin(pocket), "hangar", area, law)
        })
        .into();
    let blades = layout.n_blades as f64;
    let hub = 0.03 * (1.0 + 0.5 * (blades - 2.0));
    let law = outdoors(0.1, Facing::Upright, 0.6);
    faces.push(face("hub", "hangar", hub, law));
    let both_sides = 2.0 * blades * layout.blade_chord.si() * layout.blade_len.si();
    for (i, share) in BLADE.into_iter().enumerate() {
        let law = outdoors(layout.blade_chord.si(), Facing::Upright, 0.85);
        faces.push(face(format!("blade{i}"), "hangar", both_sides * share, law));
    }
    let law = FilmLaw::fixed(plan.bay().u_cabin);
    faces.push(face("firewall", "cabin", layout.a_firewall.si(), law));
    faces
}
