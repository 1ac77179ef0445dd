//! Water inside the engine, and its breather.

use super::{added, gives, near};
use crate::laws::{Breathing, OilSurface, Vent, WallFilm};
use crate::physics::air::{HEAT_CAPACITY_J_PER_KGK as CP, REFERENCE_DENSITY_KG_PER_M3 as RHO};
use crate::physics::convection::{self, Facing};
use crate::physics::exchange;
use crate::physics::vapour::{self, LATENT_HEAT_J_PER_G as LATENT};

/// A wall gains the latent heat of what settles, the air inside loses the water, and what drips reaches the oil.
#[test]
fn water_settles_drips_and_evaporates_with_its_heat() {
    let (area_m2, mass_factor) = (0.2, 4.0);
    let wall = |drips| {
        let facing = Facing::Upright;
        WallFilm {
            area_m2,
            facing,
            mass_factor,
            drips,
        }
    };
    let (cold, gas, w) = (-5.0, 20.0, 9.0);
    let h = convection::free(cold - gas, 0.10, Facing::Upright);
    let q = h * (cold - gas) * area_m2 * 2.0;
    let drive = w - vapour::saturation_density_g_per_m3(cold);
    let h_m = vapour::transfer_coefficient_m_per_s(h, mass_factor);
    // Below what it holds (60 g/m2) nothing drips; 6 g more fall in ten minutes.
    for (film, drips, drip) in [(5.0, true, 0.0), (18.0, true, 0.01), (18.0, false, 0.0)] {
        let gained = vapour::condensation_g_per_s(h_m, area_m2, drive, film);
        let rows = [gained * LATENT - q, q, -gained, gained - drip, drip];
        gives(&wall(drips), [cold, gas, w, film], rows);
        let found = added(&wall(drips), [cold, gas, w, film]);
        assert!((found[4] - drip).abs() < 1e-12 && (found[3] - (gained - drip)).abs() < 1e-12);
    }
    let oil = OilSurface {
        area_m2,
        oil_film: 0.3,
    };
    let (warm, cool) = (40.0, 10.0);
    let h = convection::free(warm - cool, 0.10, Facing::Up);
    let q = h * (warm - cool) * area_m2;
    let h_m = vapour::transfer_coefficient_m_per_s(h, 1.0);
    let given = vapour::oil_evaporation_g_per_s(h_m, area_m2, 0.3, 15.0, warm, 4.0);
    gives(
        &oil,
        [warm, cool, 4.0, 15.0],
        [-q - given * LATENT, q, given, -given],
    );
    let found = added(&oil, [warm, cool, 4.0, 15.0]);
    assert!(given > 0.0 && found[2] == given && found[3] == -given);
}

#[test]
fn a_breather_exchanges_air_and_an_open_filler_more() {
    let (gas, rear, w_gas, w_rear) = (25.0, 5.0, 8.0, 3.0);
    for filler_m in [0.0, 0.05] {
        let vent = Vent {
            steady_m3_per_s: 2e-5,
            filler_m,
            epstein: 0.05,
        };
        let flow = 2e-5 + exchange::filler_m3_per_s(gas, rear, filler_m, 0.05);
        let (q, lost) = (flow * (gas - rear) * RHO * CP, flow * (w_gas - w_rear));
        gives(
            &vent,
            [gas, rear, w_gas, w_rear],
            [-q, q, -lost, lost, lost * LATENT],
        );
        let found = added(&vent, [gas, rear, w_gas, w_rear]);
        assert!((found[3] / lost - 1.0).abs() < 1e-9 && found[2] == -found[3]);
    }
}

/// Gas that warms by r breathes out `V r/T` (at constant pressure), gas that cools breathes in as much.
#[test]
fn warming_gas_breathes_out_and_cooling_gas_breathes_in() {
    let (gas, rear, w_gas, w_rear) = (25.0, 5.0, 8.0, 3.0);
    let (capacity_j_per_k, volume_m3) = (10.0, 0.009);
    let lungs = Breathing {
        capacity_j_per_k,
        volume_m3,
    };
    for heat in [20.0, -20.0] {
        let found = added(&lungs, [heat, gas, rear, w_gas, w_rear]);
        let swept = volume_m3 * (found[0] / capacity_j_per_k) / (gas + 273.15);
        let q = swept.abs() * (gas - rear) * RHO * CP;
        near(found[1], q, 1e-9);
        assert!((found[0] + found[1] - heat).abs() < 1e-9, "{found:?}");
        let lost = swept * if heat > 0.0 { w_gas } else { w_rear };
        assert!((found[3] / lost - 1.0).abs() < 1e-9 && found[2] == -found[3]);
        near(found[4], lost * LATENT, 1e-9);
    }
}
