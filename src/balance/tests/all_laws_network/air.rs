//! Nine of every law that moves air and vapour.

use super::places::{Places, each};
use crate::laws::{
    Breathing, Exchange, FinCarry, FinStream, Gap, HangarVapour, HeaterVapour, Law, Laws, Passage,
    Term, Vent,
};

/// Nine of every law that moves air and vapour.
pub(super) fn air(at: &Places, more: f64) -> Laws {
    let ix = &at.0;
    let hangar = ix.hangar();
    let gas = ix.gas_temperature();
    let inside = ix.gas_vapour();
    let outdoors = ix.input(0);
    let humidity = ix.input(1);
    let wind = ix.input(2);
    Laws {
        hangar_vapour: each(
            |n, _| {
                HangarVapour { dew_point: n == 4 }.between(
                    [at.hangar_vapour(), hangar, outdoors, humidity],
                    [at.hangar_vapour()],
                )
            },
            more,
        ),
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
        ..Laws::default()
    }
}
