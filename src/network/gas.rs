//! The air inside the engine, its walls, the oil surface and the breather.

use super::frame::Frame;
use super::graph::Network;
use crate::laws::{Breathing, Law, OilSurface, Term, Vent, WallFilm};
use crate::physics::air;
use crate::scenario::moisture::CrankcaseGas;
use crate::trace::LossPath;

/// Share of the gas that takes part in its heat capacity (estimate, 0.5 to 1).
const GAS_SHARE: f64 = 0.8;
/// What goes along with the gas, J/K: thin things inside that follow it at once (estimate, 2 to 10).
const GAS_EXTRA_J_PER_K: f64 = 5.0;

/// Lays down the air inside, if there is any.
pub fn lay(frame: &Frame, net: &mut Network) {
    let Some(room) = &frame.body.crankcase_gas else {
        return;
    };
    let ix = &frame.index;
    let volume = room.volume.si();
    let capacity =
        volume * air::REFERENCE_DENSITY_KG_PER_M3 * air::HEAT_CAPACITY_J_PER_KGK * GAS_SHARE
            + GAS_EXTRA_J_PER_K;
    let (gas, vapour, heat) = (ix.gas_temperature(), ix.gas_vapour(), frame.gas_heat());
    net.capacities[gas] = capacity;
    net.capacities[vapour] = volume;

    let mut film = 0;
    for wall in &room.walls {
        for touched in frame.cut(&wall.part).touched(wall.at, None) {
            let water = if ix.oil_water {
                ix.oil_water()
            } else {
                ix.unused_row()
            };
            net.laws.wall_films.push(
                WallFilm {
                    area_m2: wall.area.si() * touched.share,
                    facing: wall.facing,
                    mass_factor: wall.mass_factor,
                    drips: ix.oil_water,
                }
                .between(
                    [touched.cell, gas, vapour, ix.film(film)],
                    [touched.cell, heat, vapour, ix.film(film), water],
                ),
            );
            film += 1;
        }
    }
    if let Some(oil) = &room.oil {
        for touched in frame
            .cut(&oil.part)
            .touched(crate::scenario::part::Spot::top, None)
        {
            net.laws.oil_surfaces.push(
                OilSurface {
                    area_m2: oil.area.si() * touched.share,
                    oil_film: oil.oil_film,
                }
                .between(
                    [touched.cell, gas, vapour, ix.oil_water()],
                    [touched.cell, heat, vapour, ix.oil_water()],
                ),
            );
        }
    }
    breathe(frame, net, room, capacity);
}

fn breathe(frame: &Frame, net: &mut Network, room: &CrankcaseGas, capacity: f64) {
    let ix = &frame.index;
    let (gas, vapour, heat) = (ix.gas_temperature(), ix.gas_vapour(), frame.gas_heat());
    let pocket = frame.pocket(&room.breather);
    let (rear, rear_vapour) = (ix.pocket(pocket), ix.vapour(pocket));
    let book = frame.path_book(LossPath::Breather);
    let open = frame.checked.scenario().covers.filler_open;
    let litres = room.breather_l_s + if open { room.filler_flow_l_s } else { 0.0 };
    net.laws.vents.push(
        Vent {
            steady_m3_per_s: litres * 1e-3,
            filler_m: if open { room.filler_diameter.si() } else { 0.0 },
            epstein: frame.body.air.epstein,
        }
        .between(
            [gas, rear, vapour, rear_vapour],
            [heat, rear, vapour, rear_vapour, book],
        ),
    );
    net.auxiliaries.gas_heat = Some(heat);
    net.laws.gas_heat.push(Term::minus_itself(heat));
    net.laws.breathings.push(
        Breathing {
            capacity_j_per_k: capacity,
            volume_m3: room.volume.si(),
        }
        .between(
            [heat, gas, rear, vapour, rear_vapour],
            [gas, rear, vapour, rear_vapour, book],
        ),
    );
}
