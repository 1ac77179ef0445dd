//! Air between fins, and what it takes from them.

use super::gives;
use crate::laws::{FinCarry, FinCell, FinStream};
use crate::physics::air::{
    GRAVITY_M_PER_S2, HEAT_CAPACITY_J_PER_KGK as CP, density_kg_per_m3 as rho,
};
use crate::physics::fin;

/// Warm fins lift the air between them by `(rho_hangar - rho_fins) g L` as well.
#[test]
fn the_stream_between_fins_is_what_drives_it_times_its_conductance() {
    let (pl, ph, low, high, hangar, fins) = (0.5, 0.2, 5.0, 15.0, -10.0, 60.0);
    let heights_m = [-0.1, 0.2];
    let stream = FinStream {
        kg_per_s_pa: 0.01,
        heights_m,
        length_m: 0.15,
    };
    let lift = |t: f64, h: f64| (rho(hangar) - rho(t)) * GRAVITY_M_PER_S2 * h;
    let dp = pl + lift(low, -0.1) - ph - lift(high, 0.2) + lift(fins, 0.15);
    gives(
        &stream,
        [0.002, pl, ph, low, high, hangar, fins],
        [0.01 * dp - 0.002],
    );
}

/// Air leaves the passage warmer by its effectiveness times the difference; the fins give just that.
#[test]
fn the_stream_between_fins_takes_from_them_what_it_brings() {
    let (low, high, hangar, fins, ha_w_per_k) = (5.0, 15.0, -10.0, 60.0, 2.0);
    let carry = FinCarry { ha_w_per_k };
    let cell = FinCell {
        ha_w_per_k,
        share: 0.25,
    };
    // 1e-5 kg/s of either way is soft: of 0.02 kg/s, that is nothing.
    let m = 0.02;
    let taken = |from: f64| m * CP * fin::passage_effectiveness(m, ha_w_per_k) * (fins - from);
    let (wl, wh) = (3.0, 4.0);
    let sensible = m * CP * (low - hangar);
    let water = m * wl / rho(low);
    let up = [-sensible, sensible + taken(low), -water, water, -m, m];
    gives(&carry, [m, low, high, wl, wh, hangar, fins], up);
    gives(&cell, [m, low, high, fins], [-0.25 * taken(low)]);
    let sensible = m * CP * (high - hangar);
    let water = m * wh / rho(high);
    let down = [sensible + taken(high), -sensible, water, -water, m, -m];
    gives(&carry, [-m, low, high, wl, wh, hangar, fins], down);
    gives(&cell, [-m, low, high, fins], [-0.25 * taken(high)]);
}
