//! Conduction through solid shapes, as conductances in W/K, and conductances one behind the other.
//!
//! These are worked out once for an engine, not in the night, so they are plain numbers. A coating or
//! an air gap per square metre is a bar of one square metre.

use std::f64::consts::PI;

/// Conductance in W/K along a bar or through a flat wall.
///
/// ```text
/// G = k A / L
/// ```
///
/// *Valid*: insulated sides; no length gives an infinite conductance, which [`series_w_per_k`]
/// accepts.
/// *Source*: Fourier's law; checked in `tests/physics/conduction.rs` against a five-layer wall, error
/// found under 2e-6.
pub fn bar_w_per_k(conductivity_w_per_mk: f64, area_m2: f64, length_m: f64) -> f64 {
    conductivity_w_per_mk * area_m2 / length_m
}

/// Conductance in W/K through the wall of a tube, inside to outside.
///
/// ```text
/// G = 2 pi k L / ln(r2/r1)
/// ```
///
/// *Valid*: ends insulated, outer radius above the inner.
/// *Source*: Carslaw and Jaeger 1959, section 7.2 (from memory); checked in `tests/physics/conduction.rs` against
/// ht 1.2.0, error found under 1e-12.
pub fn tube_wall_w_per_k(
    conductivity_w_per_mk: f64,
    length_m: f64,
    inner_radius_m: f64,
    outer_radius_m: f64,
) -> f64 {
    2.0 * PI * conductivity_w_per_mk * length_m / (outer_radius_m / inner_radius_m).ln()
}

/// Conductance in W/K through the wall of a hollow ball.
///
/// ```text
/// G = 4 pi k / (1/r1 - 1/r2)
/// ```
///
/// *Valid*: outer radius above the inner; an infinite outer radius is a ball buried in its
/// surroundings.
/// *Source*: Carslaw and Jaeger 1959, section 9.2 (from memory); checked in `tests/physics/conduction.rs` against
/// the shape factor of a buried sphere and a sum of thin shells, error found under 1e-6.
pub fn shell_wall_w_per_k(
    conductivity_w_per_mk: f64,
    inner_radius_m: f64,
    outer_radius_m: f64,
) -> f64 {
    4.0 * PI * conductivity_w_per_mk / (1.0 / inner_radius_m - 1.0 / outer_radius_m)
}

/// Conductance in W/K of two conductances one behind the other.
///
/// ```text
/// G = 1 / (1/G_a + 1/G_b)
/// ```
///
/// *Valid*: zero to infinity, both included: an infinite one (a perfect joint) leaves the other, and
/// a zero one (a broken path) leaves none.
/// *Source*: resistances add; checked in `tests/physics/conduction.rs` with a five-layer wall.
pub fn series_w_per_k(a: f64, b: f64) -> f64 {
    1.0 / (1.0 / a + 1.0 / b)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_perfect_joint_leaves_the_other_and_a_broken_one_leaves_none() {
        assert!((series_w_per_k(f64::INFINITY, 3.0) - 3.0).abs() < 1e-15);
        assert!(series_w_per_k(f64::INFINITY, f64::INFINITY).is_infinite());
        assert!(series_w_per_k(0.0, 3.0) == 0.0 && series_w_per_k(0.0, 0.0) == 0.0);
        assert!(series_w_per_k(0.0, f64::INFINITY) == 0.0);
    }

    proptest! {
        #[test]
        fn two_in_series_carry_less_than_either(a in 1e-3..1e3_f64, b in 1e-3..1e3_f64) {
            let both = series_w_per_k(a, b);
            prop_assert!(both < a.min(b) && both >= 0.5 * a.min(b) * (1.0 - 1e-12));
        }

        #[test]
        fn thin_curved_walls_are_flat_ones(k in 0.02..200.0_f64, r in 0.02..0.5_f64) {
            let t = 1e-5 * r;
            let tube = bar_w_per_k(k, 2.0 * PI * r * 0.3, t);
            let ball = bar_w_per_k(k, 4.0 * PI * r * r, t);
            prop_assert!((tube_wall_w_per_k(k, 0.3, r, r + t) / tube - 1.0).abs() < 2e-5);
            prop_assert!((shell_wall_w_per_k(k, r, r + t) / ball - 1.0).abs() < 2e-5);
        }
    }
}
