//! A network with nine of every kind of law: enough that some go side by side and some are left over, and of mixed choices.
//!
//! It is no engine: sizes and places are whatever makes every law say something, and differ from one element to the next.

use crate::laws::{
    Bonded, Breathing, Exchange, FanWatts, Feed, FinCarry, FinCell, FinStream, Fins, Gap,
    HangarVapour, HeaterConstant, HeaterTerm, HeaterVapour, Law, Laws, Link, OilLink, OilSurface,
    Outdoors, Passage, PowerFace, Radiation, Surface, Term, Vent, WallFilm,
};
use crate::network::graph::{Auxiliaries, HeaterSwitch, PocketColumns};
use crate::network::surroundings::Curve;
use crate::network::{Index, Network};
use crate::physics::convection::Facing;
use crate::physics::oil::{Piece, Walther};

/// How many of each kind.
const COUNT: usize = 9;

/// Where things stand in the all_laws_network.
pub struct Places(pub Index);

impl Places {
    fn cell(&self, n: usize) -> usize {
        self.0.cell(n % self.0.cells)
    }
    fn air(&self, n: usize) -> usize {
        self.0.pocket(n % self.0.pockets)
    }
    fn vapour(&self, n: usize) -> usize {
        self.0.vapour(n % self.0.pockets)
    }
    fn film(&self, n: usize) -> usize {
        self.0.film(n % self.0.films)
    }
    fn pressure(&self, n: usize) -> usize {
        self.0.auxiliary(n % 3)
    }
    fn air_speed(&self, n: usize) -> usize {
        self.0.auxiliary(3 + n % 3)
    }
    fn book(&self, n: usize) -> usize {
        self.0.book(n % self.0.books)
    }
    fn mean(&self) -> usize {
        self.0.auxiliary(6)
    }
    fn watts(&self) -> usize {
        self.0.auxiliary(7)
    }
    fn impact(&self) -> usize {
        self.0.auxiliary(8)
    }
    fn stream(&self) -> usize {
        self.0.auxiliary(9)
    }
    fn heat(&self) -> usize {
        self.0.auxiliary(10)
    }
    fn hangar_vapour(&self) -> usize {
        self.0.auxiliary(11)
    }
}

/// The all_laws_network, with sizes that grow with `more`.
pub fn all_laws_network(more: f64) -> Network {
    let at = Places(Index {
        cells: 10,
        films: 2,
        pockets: 3,
        gas: true,
        oil_water: true,
        auxiliaries: 12,
        inputs: 3,
        books: 4,
    });
    let pocket = |n: usize| PocketColumns {
        pressure: at.pressure(n),
        air_speed: at.air_speed(n),
        air_speed_scale: more * (0.02 + 0.01 * n as f64),
        pinned: false,
    };
    let inputs = [(-12.0, 2.0), (0.7, 0.05), (0.4, 0.3)].map(|(value, by)| {
        Curve::through([
            (0.0, value),
            (3600.0, value + by * more),
            (7200.0, value - by),
        ])
    });
    Network {
        capacities: vec![100.0 * more; at.0.states()],
        initial: initial(&at.0, more),
        laws: laws(&at, more),
        pockets: (0..3).map(pocket).collect(),
        auxiliaries: Auxiliaries {
            means: vec![at.mean(), at.hangar_vapour()],
            watts: vec![at.watts()],
            impacts: vec![at.impact()],
            fin_streams: vec![at.stream()],
            gas_heat: Some(at.heat()),
        },
        inputs: inputs.to_vec(),
        heaters: vec![HeaterSwitch::default(); 2],
        index: at.0,
        ..Network::default()
    }
}

fn initial(ix: &Index, more: f64) -> Vec<f64> {
    let mut states: Vec<f64> = (0..ix.states())
        .map(|i| 40.0 * more * (i as f64).sin() - 5.0)
        .collect();
    for (i, state) in states.iter_mut().enumerate() {
        let water = (ix.sparse() - ix.films..ix.sparse()).contains(&i)
            || (ix.vapour(0)..ix.vapour(0) + ix.pockets).contains(&i)
            || i == ix.gas_vapour()
            || i == ix.oil_water();
        if water {
            *state = 2.0 + state.abs() / 10.0;
        }
    }
    states
}

/// Each kind nine times.
fn each<L>(make: impl Fn(usize, f64) -> L, more: f64) -> Vec<L> {
    (0..COUNT)
        .map(|n| make(n, more * (1.0 + 0.1 * n as f64)))
        .collect()
}

/// The first four make one choice; of those that follow, two and three make another.
fn facing(n: usize) -> Facing {
    [Facing::Upright, Facing::Up, Facing::Down][n / 4 + usize::from(n == 6)]
}

fn limits(n: usize, size: f64) -> Option<[f64; 2]> {
    (n >= 5).then_some([-10.0, 60.0 + size])
}

fn laws(at: &Places, more: f64) -> Laws {
    let ix = &at.0;
    let (hangar, gas, inside) = (ix.hangar(), ix.gas_temperature(), ix.gas_vapour());
    let [outdoors, humidity, wind] = [0, 1, 2].map(|which| ix.input(which));
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
        hangar_vapour: each(
            |n, _| {
                HangarVapour { dew_point: n == 4 }.between(
                    [at.hangar_vapour(), hangar, outdoors, humidity],
                    [at.hangar_vapour()],
                )
            },
            more,
        ),
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
        fin_streams: each(
            |n, size| {
                FinStream {
                    kg_per_s_pa: 1e-3 * size,
                    heights_m: [-0.05 * size, 0.06 * size],
                    length_m: 0.1 * size,
                }
                .between(
                    [
                        at.stream(),
                        at.pressure(n),
                        at.pressure(n + 1),
                        at.air(n),
                        at.air(n + 1),
                        hangar,
                        at.cell(n),
                    ],
                    [at.stream()],
                )
            },
            more,
        ),
        passages: each(
            |n, size| {
                Passage {
                    area_m2: 2e-3 * size,
                    heights_m: [0.1 * size, -0.1],
                }
                .between(
                    [
                        at.pressure(n),
                        at.pressure(n + 1),
                        at.air(n),
                        at.air(n + 1),
                        at.vapour(n),
                        at.vapour(n + 1),
                        hangar,
                    ],
                    [
                        at.air(n),
                        at.air(n + 1),
                        at.vapour(n),
                        at.vapour(n + 1),
                        at.pressure(n),
                        at.pressure(n + 1),
                        at.air_speed(n),
                        at.air_speed(n + 1),
                    ],
                )
            },
            more,
        ),
        gaps: each(
            |n, size| {
                Gap {
                    area_m2: 3e-3 * size,
                    height_m: 0.1 * size,
                    wind_coefficient: 0.3 * size,
                    gust: 0.02 * size,
                }
                .between(
                    [
                        at.pressure(n),
                        at.air(n),
                        at.vapour(n),
                        hangar,
                        at.hangar_vapour(),
                        wind,
                    ],
                    [
                        at.air(n),
                        at.vapour(n),
                        at.pressure(n),
                        at.air_speed(n),
                        at.book(0),
                        at.book(1),
                    ],
                )
            },
            more,
        ),
        exchanges: each(
            |n, size| {
                Exchange {
                    area_m2: 0.01 * size,
                    epstein: 0.05 * size,
                    stable_mix_kg_per_s: 1e-4 * size,
                }
                .between(
                    [at.air(n), at.air(n + 1), at.vapour(n), at.vapour(n + 1)],
                    [
                        at.air(n),
                        at.air(n + 1),
                        at.vapour(n),
                        at.vapour(n + 1),
                        at.air_speed(n),
                        at.air_speed(n + 1),
                    ],
                )
            },
            more,
        ),
        fin_carries: each(
            |n, size| {
                FinCarry {
                    ha_w_per_k: 2.0 * size,
                }
                .between(
                    [
                        at.stream(),
                        at.air(n),
                        at.air(n + 1),
                        at.vapour(n),
                        at.vapour(n + 1),
                        hangar,
                        at.cell(n),
                    ],
                    [
                        at.air(n),
                        at.air(n + 1),
                        at.vapour(n),
                        at.vapour(n + 1),
                        at.pressure(n),
                        at.pressure(n + 1),
                    ],
                )
            },
            more,
        ),
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
        heater_vapours: each(
            |n, size| {
                HeaterVapour {
                    heater: n % 2,
                    kg_per_s: 1e-3 * size,
                }
                .between([at.air(n), at.vapour(n)], [at.vapour(n), at.vapour(n + 1)])
            },
            more,
        ),
        air_speeds: each(
            |n, size| Term::new(at.air_speed(n), at.air_speed(n), -0.03 * size),
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
        vents: each(
            |n, size| {
                Vent {
                    steady_m3_per_s: 2e-5 * size,
                    filler_m: if n == 4 { 0.0 } else { 0.04 * size },
                    epstein: 0.05 * size,
                }
                .between(
                    [gas, at.air(n), inside, at.vapour(n)],
                    [gas, at.air(n), inside, at.vapour(n), at.book(2)],
                )
            },
            more,
        ),
        gas_heat: vec![Term::minus_itself(at.heat())],
        breathings: each(
            |n, size| {
                Breathing {
                    capacity_j_per_k: 10.0 * size,
                    volume_m3: 0.01 * size,
                }
                .between(
                    [at.heat(), gas, at.air(n), inside, at.vapour(n)],
                    [gas, at.air(n), inside, at.vapour(n), at.book(2)],
                )
            },
            more,
        ),
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
    }
}
