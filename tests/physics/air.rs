//! The constants of cold air and its density against CoolProp, and against the standard atmosphere.

use coldsoak::physics::air::*;

use super::table::{assert_agrees, assert_envelope, numbers};

/// CoolProp 8.0.0, dry air at 101325 Pa.
const AIR: &str = include_str!("reference/air.csv");
/// Room left beside the measured envelopes, percent.
const SLACK: f64 = 0.6;
/// The ideal gas leaves out compressibility, which grows towards -60 degC.
const IDEAL_GAS: f64 = 2e-3;
/// The standard atmosphere's rows are printed with five figures.
const PRINTED: f64 = 5e-5;

fn column(which: usize, from_c: f64, to_c: f64) -> impl Iterator<Item = f64> {
    numbers(AIR)
        .into_iter()
        .filter(move |row| (from_c..=to_c).contains(&row[0]))
        .map(move |row| row[which])
}

#[test]
fn one_value_serves_the_night_within_the_stated_envelopes() {
    let night =
        |which, value: f64| column(which, -30.0, 40.0).map(move |published| (value, published));
    assert_envelope(night(3, CONDUCTIVITY_W_PER_MK), -10.5..=11.3, SLACK);
    assert_envelope(night(4, DYNAMIC_VISCOSITY_PA_S), -9.0..=12.0, SLACK);
    assert_envelope(night(5, KINEMATIC_VISCOSITY_M2_PER_S), -18.0..=30.0, SLACK);
    let cube_roots = column(7, -30.0, 40.0).map(|b| (RAYLEIGH_PER_M3K.cbrt(), b.cbrt()));
    assert_envelope(cube_roots, -20.0..=19.0, SLACK);
    let capacity = column(2, -30.0, 60.0).map(|cp| (HEAT_CAPACITY_J_PER_KGK, cp));
    assert_envelope(capacity, -0.25..=0.1, 0.1);
}

#[test]
fn the_constants_are_near_those_of_280_kelvin() {
    // Between the rows at 0 and 10 degC, by straight line: 280 K is 6.85 degC.
    for (which, value, within) in [
        (3, CONDUCTIVITY_W_PER_MK, 0.02),
        (4, DYNAMIC_VISCOSITY_PA_S, 0.01),
        (5, KINEMATIC_VISCOSITY_M2_PER_S, 0.01),
        (7, RAYLEIGH_PER_M3K, 0.02),
    ] {
        let ends: Vec<f64> = column(which, 0.0, 10.0).collect();
        assert_agrees(value, ends[0] + 0.685 * (ends[1] - ends[0]), within);
    }
}

#[test]
fn density_is_that_of_dry_air() {
    for row in numbers(AIR) {
        assert_agrees(density_kg_per_m3(row[0]), row[1], IDEAL_GAS);
    }
    // ISO 2533:1975 ideal gas at sea level.
    for (temp_c, published) in [
        (-30.0, 1.4517),
        (-10.0, 1.3414),
        (0.0, 1.2923),
        (20.0, 1.2041),
    ] {
        assert_agrees(density_kg_per_m3(temp_c), published, PRINTED);
    }
    assert_agrees(density_kg_per_m3(9.2), REFERENCE_DENSITY_KG_PER_M3, 2e-4);
}

#[test]
fn slopes_are_those_of_the_complex_step() {
    assert_slopes!(|t| density_kg_per_m3(t); [-30.0], [0.0], [40.0]);
}
