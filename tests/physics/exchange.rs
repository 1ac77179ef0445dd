//! Exchange through level openings against worked rows of Epstein and against Brown.

use coldsoak::physics::exchange::*;

use super::table::{assert_agrees, assert_envelope};

/// Coefficient of a thin opening, length under 0.15 of its diameter: Epstein 1988 (from memory).
const THIN: f64 = 0.055;

/// Diameter m, below degC, above degC, litres per second each way: Q = Fr sqrt(g (drho/rho) D^5) at the
/// mean temperature of each row, evaluated.
const ROWS: [(f64, f64, f64, f64); 3] = [
    (0.1, 0.0, -10.0, 0.1052),
    (0.2, 10.0, -10.0, 0.8337),
    (0.25, 5.0, -15.0, 1.4699),
];

#[test]
fn a_filler_neck_breathes_as_epstein_says() {
    // Buoyancy is taken at 280 K whatever the temperatures, which leaves one or two percent.
    let pairs = ROWS
        .map(|(d, below, above, litres)| (1e3 * filler_m3_per_s(below, above, d, THIN), litres));
    assert_envelope(pairs, -2.2..=-1.1, 0.2);
    for (d, below, above, litres) in ROWS {
        let at_280_k = litres * ((273.15 + 0.5 * (below + above)) / 280.0_f64).sqrt();
        assert_agrees(1e3 * filler_m3_per_s(below, above, d, THIN), at_280_k, 5e-4);
    }
}

#[test]
fn a_level_opening_trades_the_same_volume_plus_its_stable_mix() {
    for (d, below, above, litres) in ROWS {
        let area = std::f64::consts::PI * d * d / 4.0;
        let mass = level_opening_kg_per_s(below, above, area, THIN, 1.5e-4);
        assert_agrees((mass - 1.5e-4) / 1.25, 1e-3 * litres, 0.022);
    }
}

#[test]
fn a_square_opening_passes_the_heat_brown_measured() {
    // Brown 1962 (IJHMT 5:869; form from memory): Nu = 0.0546 Gr^0.55 Pr (L/H)^(1/3); square of 0.2 m,
    // 0.05 m thick, 10 K at 268.15 K: 11.64 W. Epstein's coefficient at that thickness is 0.06919. The
    // two publications differ by 15 %.
    const PUBLICATIONS: f64 = 0.15;
    let mass = level_opening_kg_per_s(0.0, -10.0, 0.04, 0.06919, 0.0);
    assert_agrees(mass * 1006.0 * 10.0, 11.64, PUBLICATIONS);
}

#[test]
fn slopes_are_those_of_the_complex_step() {
    assert_slopes!(|b, a| level_opening_kg_per_s(b, a, 0.02, 0.055, 1.5e-4);
        [10.0, -10.0], [3.0, 3.0], [-10.0, 10.0], [0.1, 0.2]);
    assert_slopes!(|b, a| filler_m3_per_s(b, a, 0.045, 0.055); [20.0, -5.0], [0.0, 0.0], [-5.0, 20.0]);
}
