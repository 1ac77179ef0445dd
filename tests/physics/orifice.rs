//! Gaps against worked stack flows and the sharp orifice.

use coldsoak::physics::air::{GRAVITY_M_PER_S2, density_kg_per_m3};
use coldsoak::physics::orifice::*;

use super::table::{assert_agrees, numbers};

/// Softness at which the law is sharp for any pressure here, Pa.
const SHARP_PA: f64 = 1e-9;
/// Worked flows are printed with four figures.
const PRINTED: f64 = 1e-4;

/// Area m2, height m, inside and outside degC, whole stack pressure Pa, flow in m3/s of outside air.
/// Handbook form Q = Cd A sqrt(2 g dH (Ti - To)/Ti), ASHRAE Fundamentals 2017 chapter 16 (from memory),
/// Cd 0.6, neutral level midway.
const STACKS: [(f64, f64, f64, f64, f64, f64); 3] = [
    (0.02, 0.5, 10.0, -10.0, 0.4646, 0.007_062),
    (0.04, 0.6, 0.0, -15.0, 0.4418, 0.013_642),
    (0.03, 0.5, 30.0, -20.0, 1.1277, 0.016_187),
];

/// fluids 1.3.1: a sharp opening in a wide wall.
const SHARP: &str = include_str!("reference/orifice.csv");
/// What a rounding-off of 1e-9 Pa and a wall of finite width leave.
const NEARLY_SHARP: f64 = 1e-8;

/// Source: fluids 1.3.1 `flow_meter_discharge` (ISO 5167-1).
#[test]
fn a_sharp_opening_passes_what_fluids_says() {
    for row in numbers(SHARP) {
        let (area, dp, rho, flow) = (row[0], row[1], row[2], row[3]);
        assert_agrees(
            stream_kg_per_s(dp, rho, 0.9 * rho, area, SHARP_PA),
            flow,
            NEARLY_SHARP,
        );
    }
}

fn stack_pa(height: f64, inside_c: f64, outside_c: f64) -> f64 {
    (density_kg_per_m3(outside_c) - density_kg_per_m3(inside_c)) * GRAVITY_M_PER_S2 * height
}

#[test]
fn a_stack_draws_its_worked_flow() {
    for (area, height, inside_c, outside_c, whole_pa, flow) in STACKS {
        let dp = stack_pa(height, inside_c, outside_c);
        assert_agrees(dp, whole_pa, 2.0 * PRINTED);
        let (inside, outside) = (density_kg_per_m3(inside_c), density_kg_per_m3(outside_c));
        let entering = stream_kg_per_s(0.5 * dp, outside, inside, area, SHARP_PA);
        assert_agrees(entering / outside, flow, PRINTED);
    }
}

#[test]
fn two_gaps_find_the_neutral_level_of_the_exact_solution() {
    // Equal openings, mass in = mass out: m = Cd A sqrt(2 dp / (1/rho_o + 1/rho_i)), exact.
    for (area, height, inside_c, outside_c, ..) in STACKS {
        let dp = stack_pa(height, inside_c, outside_c);
        let (inside, outside) = (density_kg_per_m3(inside_c), density_kg_per_m3(outside_c));
        let entering = |p: f64| stream_kg_per_s(p, outside, inside, area, SHARP_PA);
        let leaving = |p: f64| stream_kg_per_s(dp - p, inside, outside, area, SHARP_PA);
        let (mut low, mut high) = (0.0, dp);
        for _ in 0..80 {
            let middle = 0.5 * (low + high);
            if entering(middle) < leaving(middle) {
                low = middle;
            } else {
                high = middle;
            }
        }
        let exact = DISCHARGE * area * (2.0 * dp / (1.0 / outside + 1.0 / inside)).sqrt();
        assert_agrees(entering(low), exact, 1e-9);
    }
}

#[test]
fn the_rounding_off_is_gone_at_ten_softnesses() {
    let (d, rho, area) = (0.02, 1.3, 0.03);
    let sharp = |dp: f64| DISCHARGE * area * (2.0 * rho * dp).sqrt();
    let soft = stream_kg_per_s(10.0 * d, rho, 1.2, area, d);
    assert_agrees(soft, sharp(10.0 * d), 2.5e-3);
    // At the softness itself 2^(-1/4) of the sharp law is left, by the law's definition.
    let at_d = stream_kg_per_s(d, rho, rho, area, d);
    assert_agrees(at_d, sharp(d) * 2.0_f64.powf(-0.25), 1e-12);
}

#[test]
fn both_ways_multiply_to_a_quarter_of_the_softness_squared() {
    for m in [0.0, 1e-9, 1e-5, -3e-5, 0.02, -5.0, 1e9] {
        let (forward, back) = both_ways(m, 1e-5);
        assert_agrees(forward * back, 0.25e-10, 1e-14);
        assert!(forward > 0.0 && back > 0.0);
    }
}

#[test]
fn slopes_are_those_of_the_complex_step() {
    assert_slopes!(|dp, from, to| stream_kg_per_s(dp, from, to, 0.03, 0.004);
        [0.1, 1.3, 1.2], [-0.003, 1.3, 1.2], [0.0, 1.3, 1.2], [-8.0, 1.1, 1.4]);
    assert_slopes!(|m| both_ways(m, 1e-5).0; [0.0], [1e-5], [-2e-6], [0.03], [-0.03]);
    assert_slopes!(|m| both_ways(m, 1e-5).1; [0.0], [1e-5], [-2e-6], [0.03], [-0.03]);
}
