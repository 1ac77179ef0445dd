//! Film coefficients against the correlations of ht.

use coldsoak::physics::air::{
    CONDUCTIVITY_W_PER_MK, KINEMATIC_VISCOSITY_M2_PER_S, RAYLEIGH_PER_M3K,
};
use coldsoak::physics::convection::*;

use super::table::{assert_agrees, assert_envelope, numbers};

/// ht 1.2.0: Churchill and Chu 1975, upright; McAdams 1954, level, Ra 1e5 to 1e7.
const STILL: &str = include_str!("reference/convection.csv");
/// ht 1.2.0: laminar flat plate.
const FORCED: &str = include_str!("reference/forced.csv");
/// Excess at which a Rayleigh number is set up, by choosing the length: far beyond every rounding-off.
const EXCESS_K: f64 = 10.0;
/// Room left beside the measured envelopes, percent.
const SLACK: f64 = 0.6;

fn nusselt(ra: f64, dt_k: f64, facing: Facing) -> f64 {
    let length = (ra / (RAYLEIGH_PER_M3K * EXCESS_K)).cbrt();
    free(dt_k, length, facing) * length / CONDUCTIVITY_W_PER_MK
}

fn against(column: usize, dt_k: f64, facing: Facing) -> Vec<(f64, f64)> {
    numbers(STILL)
        .iter()
        .filter(|row| row[column].is_finite())
        .map(|row| (nusselt(row[0], dt_k, facing), row[column]))
        .collect()
}

#[test]
fn an_upright_surface_keeps_to_churchill_and_chu() {
    // The smooth law's measured envelope over Ra 1e3 to 1e8.
    for dt_k in [EXCESS_K, -EXCESS_K] {
        assert_envelope(against(1, dt_k, Facing::Upright), -12.4..=29.2, SLACK);
    }
}

#[test]
fn a_level_surface_keeps_to_mcadams() {
    for (dt_k, facing) in [(EXCESS_K, Facing::Up), (-EXCESS_K, Facing::Down)] {
        assert_envelope(against(2, dt_k, facing), -26.2..=1.4, SLACK);
    }
    for (dt_k, facing) in [(-EXCESS_K, Facing::Up), (EXCESS_K, Facing::Down)] {
        assert_envelope(against(3, dt_k, facing), 3.9..=12.6, SLACK);
    }
}

#[test]
fn forced_flow_is_a_laminar_plate() {
    let pairs = numbers(FORCED).into_iter().map(|row| {
        let length = 0.25;
        let speed = row[0] * KINEMATIC_VISCOSITY_M2_PER_S / length;
        (
            forced(speed, length) * length / CONDUCTIVITY_W_PER_MK,
            row[1],
        )
    });
    assert_envelope(pairs, -0.45..=-0.35, 0.1);
}

#[test]
fn both_together_are_the_cubic_sum() {
    // Churchill 1977: Nu^3 = Nu_free^3 + Nu_forced^3, with ht's own two at Ra 1e6 and Re 1e4: 16.558
    // and 59.236; each of ours differs by its envelope, so ours is held to the sum of ours exactly, and
    // to theirs within that of moving air, which here decides.
    let length = (1e6 / (RAYLEIGH_PER_M3K * EXCESS_K)).cbrt();
    let speed = 1e4 * KINEMATIC_VISCOSITY_M2_PER_S / length;
    let still = free(EXCESS_K, length, Facing::Upright);
    let found = combined(still, speed, length);
    assert_agrees(
        found.powi(3),
        still.powi(3) + forced(speed, length).powi(3),
        1e-13,
    );
    let published = (16.558_402_86_f64.powi(3) + 59.236_246_13_f64.powi(3)).cbrt();
    assert_agrees(found * length / CONDUCTIVITY_W_PER_MK, published, 5e-3);
}

#[test]
fn slopes_are_those_of_the_complex_step() {
    for facing in [Facing::Up, Facing::Down, Facing::Upright] {
        assert_slopes!(|dt| free(dt, 0.12, facing); [12.0], [-12.0], [0.1], [0.0], [-0.2]);
    }
    assert_slopes!(|v| forced(v, 0.12); [0.3], [1e-6]);
    assert_slopes!(|h, v| combined(h, v, 0.12); [3.0, 0.2], [3.0, 1e-9], [3.0, 0.0]);
}
