//! The parts, in the order in which a tie for the coldest is broken.

use super::names::{self, BARREL, Level, POCKETS, Side};
use super::plan::{K_STEEL, Plan};
use crate::quantity::{
    Area, Conductivity, Length, Mass, SpecificHeat, Temperature, TemperatureStep,
};
use crate::scenario::part::{AfterFlight, Part, Role, Shape};

/// Specific heats, J/kgK: light alloy, steel, and the mixtures of iron, copper and alloy in pistons
/// with their rods, and in magnetos and generators (the last two estimated).
const CP_ALLOY: f64 = 900.0;
const CP_STEEL: f64 = 470.0;
const CP_PISTON: f64 = 750.0;
const CP_ELECTRIC: f64 = 500.0;
/// Oil: density, kg/m3, and specific heat, J/kgK (mineral oil near 30 °C; NBS Misc. Pub. 97, from memory).
const OIL_DENSITY: f64 = 880.0;
const OIL_CP: f64 = 1900.0;
/// Layers the oil is computed in at a resolution of one.
const OIL_LAYERS: usize = 4;
/// Shares of a blade's length, from the root.
pub(super) const BLADE: [f64; 3] = [0.15, 0.30, 0.55];

/// Every part.
pub(super) fn all(plan: &Plan) -> Vec<Part> {
    let mut parts = crankcase(plan);
    parts.extend(cylinders(plan));
    parts.extend(crankshaft_and_propeller(plan));
    parts.extend(fittings(plan));
    parts.extend(structure(plan));
    parts
}

fn lump(name: String, label: String, kg: f64, cp: f64, after_c: f64) -> Part {
    Part {
        name,
        label,
        mass: Mass::kg(kg),
        specific_heat: SpecificHeat::J_kgK(cp),
        shape: Shape::lump,
        role: Role::engine,
        after_flight: AfterFlight::at(Temperature::degC(after_c)),
    }
}

fn bar(length: f64, section: f64, conductivity: f64) -> Shape {
    Shape::bar {
        length: Length::m(length),
        section: Area::m2(section),
        conductivity: Conductivity::W_mK(conductivity),
    }
}

fn crankcase(plan: &Plan) -> Vec<Part> {
    let quarter = plan.layout.m_case.si() / (4 * plan.stations) as f64;
    let mut parts = Vec::new();
    for station in 0..plan.stations {
        for level in Level::BOTH {
            for side in Side::BOTH {
                let at = names::station_word(station, plan.rows);
                let label = format!("{} {} crankcase, {at}", level.word(), side.word());
                let name = names::case(station, level, side);
                parts.push(lump(name, label, quarter, CP_ALLOY, 75.0));
            }
        }
    }
    parts
}

fn cylinders(plan: &Plan) -> Vec<Part> {
    let each = |make: &dyn Fn(Side, usize, String) -> Vec<Part>| -> Vec<Part> {
        let rows = plan.rows;
        Side::BOTH
            .into_iter()
            .flat_map(|side| (1..=rows).map(move |row| (side, row)))
            .flat_map(|(side, row)| make(side, row, names::cylinder_word(side, row, rows)))
            .collect()
    };
    let layout = plan.layout;
    let mut parts = each(&|side, row, cylinder| {
        let shown = [("inner", 88.0), ("middle", 100.0), ("outer", 110.0)];
        BARREL
            .into_iter()
            .zip(shown)
            .map(|(piece, (third, after_c))| Part {
                shape: bar(plan.third, plan.barrel_section, K_STEEL),
                ..lump(
                    names::cylinder(side, row, piece),
                    format!("{cylinder} barrel, {third} third"),
                    layout.m_barrel.si() / 3.0,
                    CP_STEEL,
                    after_c,
                )
            })
            .collect()
    });
    parts.extend(each(&|side, row, cylinder| {
        let name = names::cylinder(side, row, "head");
        let label = format!("{cylinder} head");
        vec![lump(name, label, layout.m_head.si(), CP_ALLOY, 125.0)]
    }));
    parts.extend(each(&|side, row, cylinder| {
        let name = names::piston(side, row);
        let label = format!("{cylinder} piston and rod");
        vec![lump(name, label, layout.m_piston.si(), CP_PISTON, 100.0)]
    }));
    parts
}

fn crankshaft_and_propeller(plan: &Plan) -> Vec<Part> {
    let layout = plan.layout;
    let piece = layout.m_crank.si() / plan.stations as f64;
    let mut parts: Vec<Part> = (0..plan.stations)
        .map(|station| {
            let at = names::station_word(station, plan.rows);
            let label = format!("crankshaft {at}");
            lump(names::crank(station), label, piece, CP_STEEL, 80.0)
        })
        .collect();
    parts.push(Part {
        role: Role::propeller,
        ..lump(
            "hub".to_owned(),
            "propeller hub".to_owned(),
            layout.m_hub.si(),
            CP_ALLOY,
            45.0,
        )
    });
    let shown = [
        "propeller blades at the root",
        "propeller blades, middle",
        "propeller blades, outer half",
    ];
    for (i, (share, label)) in BLADE.into_iter().zip(shown).enumerate() {
        parts.push(Part {
            shape: bar(
                share * layout.blade_len.si(),
                plan.blade_section,
                layout.k_blade.si(),
            ),
            role: Role::propeller,
            after_flight: AfterFlight::above_hangar(TemperatureStep::K(0.0)),
            ..lump(
                format!("blade{i}"),
                label.to_owned(),
                share * layout.m_blades.si(),
                CP_ALLOY,
                0.0,
            )
        });
    }
    parts
}

fn fittings(plan: &Plan) -> Vec<Part> {
    let l = plan.layout;
    let said = |name: &str, label: &str, kg: f64, cp: f64, after_c: f64| {
        lump(name.to_owned(), label.to_owned(), kg, cp, after_c)
    };
    let sump = l.m_sump.si();
    let oil = Part {
        shape: Shape::stack {
            area: l.sump_area,
            depth: Length::m(plan.oil_depth),
            layers: OIL_LAYERS,
        },
        ..said("oil", "oil", l.oil_litres.si() * OIL_DENSITY, OIL_CP, 75.0)
    };
    let carburettor = Part {
        role: Role::carburettor,
        ..said("carb", "carburettor", l.m_carb.si(), CP_ALLOY, 15.0)
    };
    let (acc, mags, gen_) = (l.m_acc_case.si(), l.m_mags.si(), l.m_gen.si());
    vec![
        said("acc_case", "accessory case", acc, CP_ALLOY, 65.0),
        said("mags", "magnetos", mags, CP_ELECTRIC, 55.0),
        said("gen", "generator and starter", gen_, CP_ELECTRIC, 50.0),
        said("sump_side", "sump sides", 0.6 * sump, CP_ALLOY, 70.0),
        said("sump_bot", "sump bottom", 0.4 * sump, CP_ALLOY, 70.0),
        oil,
        carburettor,
        said("intake", "intake pipes", l.m_intake.si(), CP_ALLOY, 35.0),
        said(
            "filter",
            "oil screen, filter or cooler",
            l.m_filter.si(),
            CP_ALLOY,
            70.0,
        ),
        Part {
            role: Role::structure,
            ..said("exhaust", "exhaust", l.m_exhaust.si(), CP_ELECTRIC, 150.0)
        },
    ]
}

/// Mount, firewall, baffles and skins.
///
/// The firewall is 0.5 mm of stainless steel (7900 kg/m3, 470 J/kgK) under 10 mm of lining (60 kg/m3,
/// 900 J/kgK); its specific heat is that of the two together. Skins are sheet aluminium, 2700 kg/m3.
fn structure(plan: &Plan) -> Vec<Part> {
    let l = plan.layout;
    let carries = |name: &str, label: &str, kg: f64, cp: f64, after_c: f64| Part {
        role: Role::structure,
        ..lump(name.to_owned(), label.to_owned(), kg, cp, after_c)
    };
    let (steel, lining) = (0.0005 * 7900.0, 0.010 * 60.0);
    let cp_firewall = (steel * 470.0 + lining * 900.0) / (steel + lining);
    let firewall = l.a_firewall.si() * (steel + lining);
    let mut parts = vec![
        carries("mount", "engine mount", l.m_mount.si(), CP_STEEL, 35.0),
        carries("firewall", "firewall", firewall, cp_firewall, 30.0),
        carries("baffle", "baffles", l.m_baffle.si(), CP_ALLOY, 70.0),
    ];
    parts.extend(POCKETS.into_iter().map(|pocket| Part {
        role: Role::skin(pocket.to_owned()),
        after_flight: AfterFlight::above_hangar(TemperatureStep::K(10.0)),
        ..lump(
            names::skin(pocket),
            format!("cowl skin {}", names::pocket_word(pocket)),
            plan.skin_area(pocket) * l.cowl_thick.si() * 2700.0,
            CP_ALLOY,
            0.0,
        )
    }));
    parts
}
