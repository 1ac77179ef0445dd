//! The air inside the engine, and the walls it can wet.

use super::names::{self, Level, Side};
use super::plan::{CASE_HALF_WIDTH, Plan};
use crate::physics::convection::Facing;
use crate::quantity::{Area, Length, Temperature};
use crate::scenario::moisture::{CrankcaseGas, OilSurface, Wall, WallGroup};
use crate::scenario::part::{AfterFlight, Spot};
use std::f64::consts::PI;

/// The crankcase air with its walls, upper ones first.
pub(super) fn gas_room(plan: &Plan) -> CrankcaseGas {
    let bay = plan.bay();
    let mut walls = crankcase(plan);
    walls.extend(cylinders(plan));
    walls.extend(below_and_behind(plan));
    CrankcaseGas {
        volume: plan.layout.gas_litres,
        walls,
        oil: Some(OilSurface {
            part: "oil".to_owned(),
            area: plan.layout.sump_area,
            oil_film: bay.oil_film,
        }),
        breather: "RE".to_owned(),
        breather_l_s: bay.breather_l_s,
        filler_flow_l_s: bay.filler_flow_l_s,
        filler_diameter: Length::m(bay.filler_diameter_m),
        after_flight: AfterFlight::at(Temperature::degC(75.0)),
    }
}

fn wall(part: String, m2: f64, facing: Facing, mass_factor: f64, group: WallGroup) -> Wall {
    Wall {
        part,
        at: Spot::whole,
        area: Area::m2(m2),
        facing,
        mass_factor,
        group,
    }
}

fn crankcase(plan: &Plan) -> Vec<Wall> {
    let layout = plan.layout;
    let area = 0.8 * layout.row_len.si() * (CASE_HALF_WIDTH + layout.case_half_h.si());
    let mut walls = Vec::new();
    for level in Level::BOTH {
        let (facing, group) = match level {
            Level::Upper => (Facing::Down, WallGroup::upper),
            Level::Lower => (Facing::Upright, WallGroup::lower),
        };
        for station in 0..plan.stations {
            for side in Side::BOTH {
                let part = names::case(station, level, side);
                walls.push(wall(part, area, facing, 1.0, group));
            }
        }
    }
    walls
}

/// Barrels at the crankcase, pistons, and the rocker spaces behind the pushrod tubes.
fn cylinders(plan: &Plan) -> Vec<Wall> {
    let layout = plan.layout;
    let bore = layout.bore.si();
    let barrel = 0.7 * PI * bore * plan.third;
    let piston = 1.5 * PI * bore.powi(2) / 4.0;
    let rockers = 0.03 * layout.m_head.si() / 3.6;
    let each = |area: f64, factor: f64, name: &dyn Fn(Side, usize) -> String| {
        let mut walls = Vec::new();
        for side in Side::BOTH {
            for row in 1..=plan.rows {
                let part = name(side, row);
                walls.push(wall(part, area, Facing::Upright, factor, WallGroup::upper));
            }
        }
        walls
    };
    let mut walls = each(barrel, 1.0, &|side, row| names::cylinder(side, row, "b0"));
    walls.extend(each(piston, 0.7, &names::piston));
    let head = |side, row| names::cylinder(side, row, "head");
    walls.extend(each(rockers, 0.12, &head));
    walls
}

fn below_and_behind(plan: &Plan) -> Vec<Wall> {
    let layout = plan.layout;
    let stations = plan.stations as f64;
    let crank = 0.05 * (layout.m_crank.si() / 13.0) * (3.0 / stations);
    let mut walls: Vec<Wall> = (0..plan.stations)
        .map(|station| {
            let part = names::crank(station);
            wall(part, crank, Facing::Upright, 1.0, WallGroup::crank)
        })
        .collect();
    walls.push(wall(
        "acc_case".to_owned(),
        0.07 * plan.factor.accessory,
        Facing::Upright,
        0.7,
        WallGroup::accessory,
    ));
    let depth = layout.sump_depth.si();
    let above_oil = (depth - plan.oil_depth).max(0.1 * depth);
    walls.push(wall(
        "sump_side".to_owned(),
        plan.girth * above_oil,
        Facing::Upright,
        1.0,
        WallGroup::lower,
    ));
    walls
}
