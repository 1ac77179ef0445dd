//! What radiates to what: engine parts to the cowl around them, and the oil to the case over it.

use super::names::{self, Level, Side};
use super::plan::Plan;
use crate::quantity::Area;
use crate::scenario::joint::RadiationPair;

/// Area of a part over that of what surrounds it: one estimate for the whole bay.
const AREA_RATIO: f64 = 0.4;
/// Emissivities of the oil's surface and of the oily case over it (estimated).
const OIL_AND_CASE: (f64, f64) = (0.9, 0.8);

/// Every radiating pair.
pub(super) fn all(plan: &Plan) -> Vec<RadiationPair> {
    let bay = plan.bay();
    let emissivities = (bay.emis_part, bay.emis_cowl_in);
    let mut seen = crankcase(plan);
    seen.extend(cylinders(plan));
    seen.extend(fittings(plan));
    let mut sights: Vec<RadiationPair> = seen
        .into_iter()
        .map(|(from, to, m2)| sight(from, to, m2, emissivities))
        .collect();
    let share = 0.5 * plan.layout.sump_area.si() / (2 * plan.stations) as f64;
    for station in 0..plan.stations {
        for side in Side::BOTH {
            let case = names::case(station, Level::Upper, side);
            sights.push(sight("oil".to_owned(), case, share, OIL_AND_CASE));
        }
    }
    sights
}

fn sight(from: String, to: String, m2: f64, emissivities: (f64, f64)) -> RadiationPair {
    RadiationPair {
        from,
        to,
        area: Area::m2(m2),
        emissivities,
        area_ratio: AREA_RATIO,
    }
}

type Seen = Vec<(String, String, f64)>;

fn crankcase(plan: &Plan) -> Seen {
    let mut seen = Vec::new();
    for station in 0..plan.stations {
        for side in Side::BOTH {
            let [upper, lower] = Level::BOTH.map(|level| names::case(station, level, side));
            if station == 0 {
                seen.push((upper, names::skin("FR"), 0.6 * plan.a_up));
                seen.push((lower, names::skin("FR"), 0.3 * plan.a_up));
            } else {
                seen.push((upper, names::skin(side.pocket()), plan.a_up));
                seen.push((lower, names::skin("LO"), 0.4 * plan.a_up));
            }
        }
    }
    seen
}

fn cylinders(plan: &Plan) -> Seen {
    let layout = plan.layout;
    let (head, barrel) = (layout.a_env_head.si(), layout.a_env_barrel.si());
    let mut seen = Vec::new();
    for side in Side::BOTH {
        for row in 1..=plan.rows {
            let above = names::skin(side.pocket());
            let under = names::skin("LO");
            let [h, b1] = ["head", "b1"].map(|piece| names::cylinder(side, row, piece));
            seen.push((h.clone(), above.clone(), 0.40 * head));
            seen.push((h, under.clone(), 0.40 * head));
            seen.push((b1.clone(), above, 0.30 * barrel));
            seen.push((b1, under, 0.25 * barrel));
        }
    }
    seen
}

fn fittings(plan: &Plan) -> Seen {
    let f = &plan.factor;
    let side = plan.sump_side();
    [
        ("acc_case", "firewall", 0.04 * f.accessory),
        ("mags", "firewall", 0.03),
        ("gen", "firewall", 0.03 * f.accessory),
        ("gen", "cowlRE", 0.03 * f.accessory),
        ("sump_side", "cowlFL", 0.4 * side),
        ("sump_side", "cowlLO", 0.3 * side),
        ("sump_bot", "cowlFL", plan.layout.sump_area.si()),
        ("intake", "cowlLO", 0.06 * f.intake),
        ("exhaust", "cowlLO", 0.08 * f.exhaust),
        ("carb", "cowlLO", 0.015 * f.carburettor),
    ]
    .map(|(from, to, m2)| (from.to_owned(), to.to_owned(), m2))
    .into()
}
