//! Fins and the passages between them against a numerical solution, ht and exact channel flow.

use coldsoak::physics::air::{CONDUCTIVITY_W_PER_MK, HEAT_CAPACITY_J_PER_KGK};
use coldsoak::physics::fin::*;

use super::table::{assert_agrees, assert_envelope, numbers};

/// scipy 1.17.1 solve_bvp of the fin's heat equation.
const FINS: &str = include_str!("reference/fins.csv");
/// ht 1.2.0: laminar stream between evenly heated plates.
const PASSAGE: &str = include_str!("reference/passage.csv");
/// ht 1.2.0: effectiveness against transfer units.
const EXCHANGER: &str = include_str!("reference/exchanger.csv");
/// The collocation's tolerance, with ten figures written.
const COLLOCATION: f64 = 1e-8;
/// Worked values are printed with six figures.
const PRINTED: f64 = 2e-6;

#[test]
fn a_fin_carries_what_its_heat_equation_says() {
    for row in numbers(FINS) {
        let found = straight_fin_w_per_k(row[0], row[1], row[2], row[3], row[4]);
        assert_agrees(found, row[5], COLLOCATION);
    }
}

#[test]
fn propeller_blades_carry_their_worked_heat() {
    // P = 0.32 m, A = 2.2e-3 m2, L = 0.85 m, adiabatic tip; the heat lost by the tip itself, left out,
    // is under 0.1 %.
    for (k, h, published, with_tip) in [
        (150.0, 8.0, 0.903_125, 0.903_721),
        (150.0, 15.0, 1.254_729, 1.254_925),
    ] {
        let found = straight_fin_w_per_k(k, 2.2e-3, 0.32, 0.85, h);
        assert_agrees(found, published, PRINTED);
        assert_agrees(found, with_tip, 1e-3);
    }
    assert_agrees(
        straight_fin_w_per_k(0.2, 2.2e-3, 0.32, 0.85, 8.0),
        0.033_562,
        2e-5,
    );
}

#[test]
fn very_long_rods_lose_their_textbook_heat() {
    // Incropera and DeWitt, example 3.9 (from memory): 5 mm rods, h = 100 W/m2K, 100 degC in 25 degC
    // air; copper 398 W/mK 8.3 W, aluminium 180 5.6 W, steel 14 1.6 W. Ten metres stand for very long.
    const TWO_FIGURES: f64 = 0.03;
    let (d, pi) = (0.005, std::f64::consts::PI);
    for (k, published) in [(398.0, 8.3), (180.0, 5.6), (14.0, 1.6)] {
        let found = 75.0 * straight_fin_w_per_k(k, pi * d * d / 4.0, pi * d, 10.0, 100.0);
        assert_agrees(found, published, TWO_FIGURES);
    }
}

#[test]
fn a_passage_has_the_film_of_parallel_plates() {
    let nusselt = |gap: f64| passage_film_coefficient(gap) * 2.0 * gap / CONDUCTIVITY_W_PER_MK;
    let published = numbers(PASSAGE)[0][1];
    assert_envelope(
        [0.0042, 0.0045].map(|gap| (nusselt(gap), published)),
        -0.5..=-0.4,
        0.1,
    );
}

#[test]
fn a_passage_lets_through_what_its_velocity_profile_says() {
    // mu u'' = -dP/l between walls at rest, by differences over n cells (exact for a parabola up to the
    // walls), summed by the trapezoidal rule, which leaves 1/n^2.
    let (area, gap, length, n) = (0.008, 0.0045, 0.12, 400_u32);
    let cell = gap / f64::from(n);
    let bend = cell * cell / (length * 1.75e-5);
    // Thomas's algorithm for -u[i-1] + 2 u[i] - u[i+1] = bend, interior points only.
    let (mut share, mut load) = (vec![0.0], vec![0.0]);
    for i in 1..n as usize {
        let pivot = 2.0 - share[i - 1];
        share.push(1.0 / pivot);
        load.push((bend + load[i - 1]) / pivot);
    }
    let (mut u, mut sum) = (0.0, 0.0);
    for i in (1..n as usize).rev() {
        u = load[i] + share[i] * u;
        sum += u;
    }
    let mean_speed = sum / f64::from(n);
    assert_agrees(
        passage_flow_conductance(area, gap, length),
        1.25 * area * mean_speed,
        1e-5,
    );
}

#[test]
fn a_passage_has_the_friction_factor_of_parallel_plates() {
    // Shah and London 1978 (from memory): Darcy's f Re = 96 on twice the gap.
    let (area, gap, length, dp) = (0.008, 0.0045, 0.12, 0.05);
    let mass = dp * passage_flow_conductance(area, gap, length);
    let speed = mass / (1.25 * area);
    let hydraulic = 2.0 * gap;
    let reynolds = 1.25 * speed * hydraulic / 1.75e-5;
    let friction = dp / (length / hydraulic * 0.5 * 1.25 * speed * speed);
    assert_agrees(friction * reynolds, 96.0, 1e-12);
    assert!(reynolds < 2000.0);
}

#[test]
fn a_stream_reaches_the_effectiveness_of_ht() {
    for row in numbers(EXCHANGER) {
        let mass = 1e-4;
        let found = passage_effectiveness(mass, row[0] * mass * HEAT_CAPACITY_J_PER_KGK);
        assert_agrees(found, row[1], 1e-9);
    }
}

#[test]
fn slopes_are_those_of_the_complex_step() {
    assert_slopes!(|m| passage_effectiveness(m, 0.5); [1e-4], [1e-2], [1e-9], [0.0]);
}
