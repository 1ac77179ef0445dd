//! Nine of every law of heat and of water on walls.

use super::places::{Places, each};
use crate::laws::{
    Bonded, FanWatts, Feed, FinCell, Fins, HeaterConstant, HeaterTerm, Law, Laws, Link, OilLink,
    OilSurface, Outdoors, PowerFace, Radiation, Surface, Term, WallFilm,
};
use crate::physics::convection::Facing;
use crate::physics::oil::{Piece, Walther};

/// Nine of every law of heat and of water on walls.
pub(super) fn heat(at: &Places, more: f64) -> Laws {
    let ix = &at.0;
    let hangar = ix.hangar();
    let gas = ix.gas_temperature();
    let inside = ix.gas_vapour();
    let wind = ix.input(2);
    let means = |n, size| Term::new(at.mean(), at.cell(n), 0.1 * size);
    let impacts = |n, size| {
        Term::new(
            at.impact(),
            if n == 0 { at.watts() } else { at.cell(n) },
            0.08 * size,
        )
    };
    Laws {
        means: [vec![Term::minus_itself(at.mean())], each(means, more)].concat(),
        fan_watts: each(
            |n, size| {
                FanWatts {
                    rated_w: 30.0 * size,
                    flow_w_per_k: 5.0 * size,
                    limits_c: limits(n, size),
                }
                .between([at.watts(), at.air(n)], [at.watts()])
            },
            more,
        ),
        impacts: [vec![Term::minus_itself(at.impact())], each(impacts, more)].concat(),
        fin_cells: each(
            |n, size| {
                FinCell {
                    ha_w_per_k: 2.0 * size,
                    share: 0.2 * size,
                }
                .between(
                    [at.stream(), at.air(n), at.air(n + 1), at.cell(n)],
                    [at.cell(n)],
                )
            },
            more,
        ),
        heater_terms: each(
            |n, size| {
                HeaterTerm {
                    heater: n % 2,
                    factor: 0.5 * size,
                }
                .between([at.impact()], [at.cell(n)])
            },
            more,
        ),
        heater_constants: each(
            |n, size| {
                HeaterConstant {
                    heater: n % 2,
                    value: if n == 8 { 1e-3 * size } else { 4.0 * size },
                }
                .between([], [if n == 8 { at.pressure(1) } else { at.cell(n) }])
            },
            more,
        ),
        wall_films: each(
            |n, size| {
                WallFilm {
                    area_m2: 0.1 * size,
                    facing: facing(n),
                    mass_factor: 2.0 * size,
                    drips: n != 7,
                }
                .between(
                    [at.cell(n), gas, inside, at.film(n)],
                    [at.cell(n), gas, inside, at.film(n), ix.oil_water()],
                )
            },
            more,
        ),
        oil_surfaces: each(
            |n, size| {
                OilSurface {
                    area_m2: 0.05 * size,
                    oil_film: 0.3 * size,
                }
                .between(
                    [at.cell(n), gas, inside, ix.oil_water()],
                    [at.cell(n), gas, inside, ix.oil_water()],
                )
            },
            more,
        ),
        gas_heat: vec![Term::minus_itself(at.heat())],
        links: each(
            |n, size| {
                Link {
                    w_per_k: 2.0 * size,
                }
                .between([at.cell(n), at.cell(n + 3)], [at.cell(n), at.cell(n + 3)])
            },
            more,
        ),
        oil_links: each(
            |n, size| {
                OilLink {
                    piece: Piece {
                        w_per_k: 3.0 * size,
                        stretch: 2.0 * size,
                        oil_depth_m: 0.08 * size,
                    },
                    viscosity: Walther::through(100.0 + 20.0 * size, 15.0),
                }
                .between(
                    [at.cell(n), at.cell(n + 1), at.mean()],
                    [at.cell(n), at.cell(n + 1)],
                )
            },
            more,
        ),
        radiations: each(
            |n, size| {
                Radiation {
                    area_m2: 0.3 * size,
                }
                .between([at.cell(n), at.cell(n + 4)], [at.cell(n), at.cell(n + 4)])
            },
            more,
        ),
        surfaces: each(
            |n, size| {
                Surface {
                    area_m2: 0.2 * size,
                    length_m: 0.1 * size,
                    facing: facing(n),
                    behind_k_per_w: 0.05 * size,
                }
                .between(
                    [at.cell(n), at.air(n), at.air_speed(n)],
                    [at.cell(n), at.air(n)],
                )
            },
            more,
        ),
        fins: each(
            |n, size| {
                Fins {
                    area_m2: 0.4 * size,
                    length_m: 0.1 * size,
                    penetration: 0.2 * size,
                }
                .between(
                    [at.cell(n), at.air(n), at.air_speed(n)],
                    [at.cell(n), at.air(n)],
                )
            },
            more,
        ),
        outdoors: each(
            |n, size| {
                Outdoors {
                    area_m2: 0.5 * size,
                    length_m: 0.4 * size,
                    facing: facing(n),
                    emissivity: 0.5 * size,
                    cover_m2k_per_w: 0.1 * size,
                }
                .between([at.cell(n), hangar, wind], [at.cell(n), at.book(3)])
            },
            more,
        ),
        power_faces: each(
            |n, size| {
                PowerFace {
                    w_per_k: 3.0 * size,
                    at_k: 20.0 * size,
                    exponent: 0.2 * size,
                    behind_k_per_w: 0.02 * size,
                }
                .between([at.cell(n), hangar], [at.cell(n), at.book(3)])
            },
            more,
        ),
        bonded: each(
            |n, size| {
                Bonded {
                    heater: n % 2,
                    rated_w: 20.0 * size,
                    limits_c: limits(n, size),
                }
                .between([at.cell(n)], [at.cell(n), at.book(3)])
            },
            more,
        ),
        feeds: each(
            |n, size| Feed { watts: 5.0 * size }.between([], [at.cell(n)]),
            more,
        ),
        ..Laws::default()
    }
}

/// The first four make one choice; of those that follow, two and three make another.
fn facing(n: usize) -> Facing {
    [Facing::Upright, Facing::Up, Facing::Down][n / 4 + usize::from(n == 6)]
}

fn limits(n: usize, size: f64) -> Option<[f64; 2]> {
    (n >= 5).then_some([-10.0, 60.0 + size])
}
