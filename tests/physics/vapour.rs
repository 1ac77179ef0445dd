//! Saturation, dew points, films and the oil's water against PsychroLib, IAPWS and worked examples.

use coldsoak::physics::vapour::*;

use super::table::{assert_agrees, assert_envelope, numbers, rows};

/// PsychroLib 2.5.0 (Hyland and Wexler) and iapws 1.5.5 (IAPWS 2011 over ice, IAPWS-97 over liquid).
const SATURATION: &str = include_str!("reference/saturation.csv");
/// CoolProp 8.0.0: saturated vapour.
const REAL_GAS: &str = include_str!("reference/vapour_density.csv");
/// PsychroLib 2.5.0.
const DEW_POINT: &str = include_str!("reference/dew_point.csv");
/// Magnus is a fit: over ice closer than over liquid.
const MAGNUS_K: f64 = 0.055;
/// Magnus against Hyland and Wexler over liquid, percent of vapour.
const MAGNUS: f64 = 3.5e-3;

fn saturation(over: &str, published: usize) -> Vec<(f64, f64)> {
    rows(SATURATION)
        .iter()
        .filter(|row| row[1] == over)
        .map(|row| {
            let temp_c: f64 = row[0].parse().unwrap();
            (
                saturation_pressure_pa(temp_c),
                row[published].parse().unwrap(),
            )
        })
        .collect()
}

#[test]
fn saturation_is_that_of_hyland_and_wexler_and_of_iapws() {
    assert_envelope(saturation("ice", 2), -0.015..=0.025, 0.015);
    assert_envelope(saturation("ice", 3), -0.005..=0.055, 0.015);
    assert_envelope(saturation("liquid", 2), -0.30..=0.26, 0.02);
    assert_envelope(saturation("liquid", 3), -0.32..=0.24, 0.02);
}

#[test]
fn supercooled_water_is_that_of_murphy_and_koop() {
    // Murphy and Koop 2005 (QJRMS 131:1539), equation 10, constants from memory.
    let published = [
        (-30.0, 50.936),
        (-20.0, 125.504),
        (-10.0, 286.453),
        (0.0, 611.213),
    ];
    let pairs = published.map(|(t, p)| (saturation_pressure_over_water_pa(t), p));
    assert_envelope(pairs, -0.01..=0.47, 0.02);
    for (dew_c, pressure) in published {
        let found = dew_point_over_water_c(pressure);
        assert!((found - dew_c).abs() < MAGNUS_K, "{dew_c}: {found}");
    }
}

#[test]
fn dew_and_frost_points_are_those_of_psychrolib() {
    let mut worst = 0.0_f64;
    for row in numbers(DEW_POINT) {
        worst = worst.max((dew_point_c(row[2]) - row[3]).abs());
    }
    assert!(worst < MAGNUS_K, "off by {worst} K");
}

#[test]
fn a_station_dew_point_over_water_becomes_a_frost_point() {
    // Dew point over water, frost point by Murphy and Koop 2005.
    for (dew_c, frost_c) in [
        (-28.0, -25.300),
        (-20.0, -17.950),
        (-13.0, -11.599),
        (-11.0, -9.798),
        (-5.0, -4.430),
        (-1.0, -0.882),
    ] {
        let found = dew_point_c(saturation_pressure_over_water_pa(dew_c));
        assert!(
            (found - frost_c).abs() < MAGNUS_K,
            "{dew_c}: {found} against {frost_c}"
        );
    }
}

/// Source: CoolProp 8.0.0, saturated vapour, a real gas.
#[test]
fn saturated_vapour_is_nearly_an_ideal_gas() {
    let pairs = numbers(REAL_GAS)
        .into_iter()
        .map(|row| (density_g_per_m3(row[1], row[0]), row[2]));
    // Real vapour is denser, the more the hotter: 0.06 percent at freezing, 0.5 at 60 degC.
    assert_envelope(pairs, -0.55..=0.0, 0.1);
}

#[test]
fn vapour_density_is_that_of_an_ideal_gas() {
    // PsychroLib 2.5.0 vapour pressures and their densities at R = 461.52.
    const ROUNDED: f64 = 2e-4;
    for (temp_c, pressure, density) in [
        (-20.0, 77.45, 0.6629),
        (-10.0, 181.93, 1.4980),
        (0.0, 550.04, 4.3632),
        (20.0, 1403.28, 10.3720),
        (60.0, 1994.38, 12.9711),
    ] {
        assert_agrees(density_g_per_m3(pressure, temp_c), density, ROUNDED);
        assert_agrees(
            pressure_pa(density_g_per_m3(pressure, temp_c), temp_c),
            pressure,
            1e-14,
        );
    }
}

#[test]
fn the_latent_heat_is_within_four_percent() {
    // -30 and 0 degC: Murphy and Koop 2005 over supercooled liquid; 20 and 40: CoolProp 8.0.0. J/g.
    let published = [2575.5, 2500.7, 2453.5, 2406.0];
    assert_envelope(published.map(|l| (LATENT_HEAT_J_PER_G, l)), -3.0..=4.0, 0.1);
}

#[test]
fn mass_goes_over_as_heat_does() {
    // h_m of h = 5 W/m2K by the analogy with air of CoolProp 8.0.0 and the diffusivity of Sherwood and
    // Pigford (from memory), mm/s; constant density accounts for the ends.
    let published = [
        (-20.0, 3.9125),
        (0.0, 4.2473),
        (20.0, 4.5819),
        (40.0, 4.9159),
    ];
    let found = 1000.0 * transfer_coefficient_m_per_s(5.0, 1.0);
    assert_envelope(published.map(|(_, h_m)| (found, h_m)), -11.2..=11.8, 0.2);
    // Lewis numbers of the same source at 0 degC, and with the diffusivity of Marrero and Mason 1972.
    let lewis = [0.8613_f64, 18.733 / 20.896].map(|le| le.powf(2.0 / 3.0));
    assert!(
        lewis[0] < LEWIS_FACTOR && LEWIS_FACTOR < lewis[1],
        "{lewis:?}"
    );
    assert_agrees(
        transfer_coefficient_m_per_s(5.0, 0.12),
        0.12e-3 * found,
        1e-14,
    );
}

#[test]
fn a_closed_box_condenses_what_it_cannot_hold() {
    // Rigid box, ideal gas, vapour fixed by its dew point, cooled: grams at first and at last, and the
    // temperature at which condensing starts. Computed with Hyland and Wexler's saturation.
    for (litres, warm_c, dew_c, cold_c, first_g, last_g, starts_c) in [
        (20.0, 60.0, 45.0, 10.0, 1.24785, 0.18794, 44.049),
        (20.0, 60.0, 45.0, 0.0, 1.24785, 0.09696, 44.049),
        (20.0, 60.0, 45.0, -10.0, 1.24785, 0.04280, 44.049),
        (30.0, 80.0, 55.0, -20.0, 2.90081, 0.02651, 53.373),
    ] {
        let volume = litres * 1e-3;
        let density = density_g_per_m3(saturation_pressure_pa(dew_c), warm_c);
        let left = saturation_density_g_per_m3(cold_c);
        assert_agrees(volume * density, first_g, MAGNUS);
        assert_agrees(volume * left, last_g, MAGNUS);
        let (mut low, mut high) = (cold_c, warm_c);
        for _ in 0..60 {
            let middle = 0.5 * (low + high);
            if saturation_density_g_per_m3(middle) < density {
                low = middle;
            } else {
                high = middle;
            }
        }
        assert!(
            (low - starts_c).abs() < MAGNUS_K,
            "{low} against {starts_c}"
        );
    }
}

#[test]
fn a_wet_floor_feeds_a_cold_wall() {
    // Quasi-steady: free water on the floor, condensing on the wall, the gas between in balance.
    // Published with rho cp Le^(2/3) = 1207 x 0.85^(2/3) J/m3K, ours being 1.25 x 1006 x 0.91.
    let analogy = 1207.0 * 0.85_f64.powf(2.0 / 3.0) / (1.25 * 1006.0 * 0.91);
    let ample = 1e9;
    for (water_c, wall_c, gas_density, g_per_h) in
        [(40.0, 0.0, 11.2259, 31.7941), (20.0, -5.0, 5.1830, 9.6540)]
    {
        let from_floor = |gas| {
            let h_m = transfer_coefficient_m_per_s(4.0, 1.0);
            oil_evaporation_g_per_s(h_m, 0.06, 1.0, ample, water_c, gas)
        };
        let to_wall = |gas| {
            let h_m = transfer_coefficient_m_per_s(3.0, 1.0);
            condensation_g_per_s(h_m, 0.5, gas - saturation_density_g_per_m3(wall_c), 0.0)
        };
        let (mut low, mut high) = (0.0, 60.0);
        for _ in 0..60 {
            let middle = 0.5 * (low + high);
            if from_floor(middle) > to_wall(middle) {
                low = middle;
            } else {
                high = middle;
            }
        }
        assert_agrees(low, gas_density, MAGNUS);
        assert_agrees(3600.0 * to_wall(low), g_per_h * analogy, MAGNUS);
    }
    assert_agrees(analogy, 0.946, 1e-3);
}

#[test]
fn a_thick_film_evaporates_like_free_water_and_a_trace_hardly() {
    let free = 2e-3 * 0.3 * 4.0;
    assert_agrees(-condensation_g_per_s(2e-3, 0.3, -4.0, 1e6), free, 1e-6);
    // Half a gram per square metre evaporates at half that rate, by the limiter's definition.
    assert_agrees(
        -condensation_g_per_s(2e-3, 0.3, -4.0, 0.15),
        0.5 * free,
        1e-14,
    );
    assert_agrees(condensation_g_per_s(2e-3, 0.3, 4.0, 0.0), free, 1e-14);
}

#[test]
fn a_rounding_error_below_none_is_none() {
    // A method may undershoot a film or the oil's water by its tolerance; neither may then give any.
    assert!(condensation_g_per_s(2e-3, 0.3, -4.0, -1e-3) == 0.0);
    let taken_up = -0.2 * 2e-3 * 0.05 * 5.0;
    assert_agrees(
        oil_evaporation_g_per_s(2e-3, 0.05, 0.2, -1e-3, 20.0, 5.0),
        taken_up,
        1e-14,
    );
}

#[test]
fn half_a_gram_in_the_oil_is_half_as_active_as_ample_water() {
    // By the limiter's definition; the gas is dry.
    let rate = |water| oil_evaporation_g_per_s(2e-3, 0.05, 0.2, water, 20.0, 0.0);
    assert_agrees(rate(0.5), 0.5 * rate(1e9), 1e-8);
}

#[test]
fn a_wall_drips_beyond_what_it_holds() {
    assert!(drip_g_per_s(11.9, 0.2) == 0.0);
    assert_agrees(drip_g_per_s(20.0, 0.2), 8.0 / 600.0, 1e-12);
}

#[test]
fn slopes_are_those_of_the_complex_step() {
    assert_slopes!(|t| saturation_pressure_pa(t); [-25.0], [0.0], [12.0]);
    assert_slopes!(|t| saturation_pressure_over_water_pa(t); [-25.0], [0.0], [12.0]);
    assert_slopes!(|p, t| density_g_per_m3(p, t); [600.0, -5.0]);
    assert_slopes!(|w, t| pressure_pa(w, t); [6.0, -5.0]);
    assert_slopes!(|h, drive, film| condensation_g_per_s(h, 0.1, drive, film);
        [2e-3, 3.0, 0.4], [2e-3, -3.0, 0.4], [2e-3, 0.0, 0.0], [2e-3, -3.0, 0.0]);
    assert_slopes!(|film| drip_g_per_s(film, 0.1); [5.0], [7.0]);
    assert_slopes!(|h, water, oil, gas| oil_evaporation_g_per_s(h, 0.05, 0.2, water, oil, gas);
        [2e-3, 15.0, 20.0, 5.0], [2e-3, 0.0, -8.0, 5.0], [2e-3, -1e-9, -8.0, 5.0]);
}
