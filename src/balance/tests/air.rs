//! Air through openings, and what it carries.

use super::{added, gives, near};
use crate::laws::{Exchange, Gap, HangarVapour, Passage};
use crate::physics::air::{
    GRAVITY_M_PER_S2, HEAT_CAPACITY_J_PER_KGK as CP, REFERENCE_DENSITY_KG_PER_M3 as RHO,
    density_kg_per_m3 as rho,
};
use crate::physics::{exchange, orifice, vapour};

/// What drives a stream is the pressure at the height of its opening: `p + (rho_hangar - rho) g h`.
#[test]
fn a_passage_carries_the_air_of_where_it_comes_from() {
    let (a, b, hangar, area_m2) = (20.0, 5.0, -10.0, 0.002);
    let passage = Passage {
        area_m2,
        heights_m: [0.3, -0.2],
    };
    let lift = |t: f64, h: f64| (rho(hangar) - rho(t)) * GRAVITY_M_PER_S2 * h;
    let (wa, wb) = (4.0, 3.0);
    for (pa, pb) in [(9.0, -3.0), (-6.0, 5.0)] {
        let dp = pa + lift(a, 0.3) - (pb + lift(b, -0.2));
        let m = orifice::stream_kg_per_s(dp, rho(a), rho(b), area_m2, 1e-6);
        let (from, w) = if dp > 0.0 {
            (a, wa / rho(a))
        } else {
            (b, wb / rho(b))
        };
        let heat = m * CP * (from - hangar);
        let found = added(&passage, [pa, pb, a, b, wa, wb, hangar]);
        let expected = [
            -heat,
            heat,
            -m * w,
            m * w,
            -m,
            m,
            m.abs() / 2.0,
            m.abs() / 2.0,
        ];
        for (found, expected) in found.iter().zip(expected) {
            near(*found, expected, 2e-3);
        }
    }
}

/// Wind of speed u holds `c rho u^2 / 2` against the way out, and its gusts pump air both ways.
#[test]
fn a_gap_loses_to_the_hangar_what_leaves_and_takes_in_what_comes() {
    let (t, hangar, wind, w, w_hangar) = (20.0, -10.0, 2.0, 5.0, 1.5);
    let (area_m2, height_m, gust) = (0.003, 0.25, 0.1);
    let gap = Gap {
        area_m2,
        height_m,
        wind_coefficient: 0.4,
        gust,
    };
    let pumped = wind * gust * RHO * area_m2;
    for p in [7.0, -7.0] {
        let held = rho(hangar) * 0.5 * wind * wind * 0.4;
        let dp = p + (rho(hangar) - rho(t)) * GRAVITY_M_PER_S2 * height_m - held;
        let m = orifice::stream_kg_per_s(dp, rho(t), rho(hangar), area_m2, 1e-6);
        let (out, back) = (m.max(0.0) + pumped, (-m).max(0.0) + pumped);
        let heat = out * CP * (t - hangar);
        let water = out * w / rho(t) - back * w_hangar / rho(hangar);
        let found = added(&gap, [p, t, w, hangar, w_hangar, wind]);
        let expected = [-heat, -water, -m, (out + back) / 2.0, heat, water];
        for (found, expected) in found.iter().zip(expected) {
            near(*found, expected, 2e-3);
        }
    }
}

#[test]
fn a_level_opening_exchanges_heat_and_water_and_no_air() {
    let (area_m2, epstein, stable_mix_kg_per_s) = (0.02, 0.05, 1e-4);
    let opening = Exchange {
        area_m2,
        epstein,
        stable_mix_kg_per_s,
    };
    for (low, high) in [(20.0, 5.0), (5.0, 20.0)] {
        let m = exchange::level_opening_kg_per_s(low, high, area_m2, epstein, stable_mix_kg_per_s);
        let heat = m * CP * (low - high);
        let found = added(&opening, [low, high, 4.0, 3.0]);
        let water = m * (4.0 / rho(low) - 3.0 / rho(high));
        let expected = [-heat, heat, -water, water, m, m];
        for (found, expected) in found.iter().zip(expected) {
            near(*found, expected, 1e-9);
        }
    }
}

#[test]
fn the_hangar_holds_the_water_of_outdoors_up_to_its_own_saturation() {
    let air = |dew_point| HangarVapour { dew_point };
    let full = vapour::saturation_density_g_per_m3::<f64>;
    gives(&air(false), [0.5, 0.0, -5.0, 0.7], [0.7 * full(-5.0) - 0.5]);
    gives(&air(false), [0.5, -25.0, -5.0, 0.7], [full(-25.0) - 0.5]);
    let over_water = vapour::saturation_pressure_over_water_pa(-12.0);
    let dew = vapour::density_g_per_m3(over_water, -5.0);
    gives(&air(true), [0.5, 0.0, -5.0, -12.0], [dew - 0.5]);
    // Over ice there is less than over water: a dew point at the temperature itself is more than the air holds.
    gives(&air(true), [0.5, 0.0, -5.0, -5.0], [full(-5.0) - 0.5]);
}
