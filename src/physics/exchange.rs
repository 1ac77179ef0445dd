//! Two-way flow through one opening: warm air below cold trades places, kilogram for kilogram, with
//! no pressure to drive it.
//!
//! ```text
//! Q = Fr d^2.5 sqrt(g P / 280 K),   d = sqrt(4 A / pi)
//! ```
//!
//! where P is the unstable temperature difference, smoothed so that a stable layering stops the
//! exchange without a corner.

use super::air::{GRAVITY_M_PER_S2, REFERENCE_DENSITY_KG_PER_M3};
use super::number::Number;
use super::smooth::above_and_below;

/// Difference over which the exchange starts, K.
const START_K: f64 = 0.3;
/// Absolute temperature the buoyancy is taken at, K.
const MEAN_K: f64 = 280.0;

/// The warmer-below difference in K, rounded off over 0.3 K; above zero for any layering.
///
/// ```text
/// P = (dT + sqrt(dT^2 + 0.3^2)) / 2
/// ```
///
/// *Valid*: any. At dT = 0 it is 0.15 K, at 10 K it is 0.02 % over dT, at -10 K 2 mK remain.
/// *Source*: numerical choice; checked in this file's tests.
#[inline(always)]
pub fn unstable_difference_k<T: Number>(dt_k: T) -> T {
    above_and_below(dt_k, START_K).0
}

/// Volume in m³/s trading places each way through a round opening.
#[inline(always)]
fn each_way_m3_per_s<T: Number>(dt_k: T, diameter_m: T::Given, epstein: T::Given) -> T {
    (unstable_difference_k(dt_k) * (GRAVITY_M_PER_S2 / MEAN_K))
        .sqrt()
        .times(epstein * diameter_m.squared() * diameter_m.sqrt())
}

/// Mass flow in kg/s each way through a level opening between a lower and an upper pocket.
///
/// ```text
/// m = stable_mix + 1.25 epstein d^2.5 sqrt(g P / 280),   d = sqrt(4 A / pi),   P of T_below - T_above
/// ```
///
/// *Valid*: opening much thinner than wide (`epstein` 0.055, from 0.02 to 0.15); `stable_mix` is what
/// still mixes through a stable layering, kg/s.
/// *Source*: Epstein 1988 (J. Heat Transfer 110:885; coefficient from memory); checked in
/// `tests/physics/exchange.rs` against worked rows, error found -2.2 to -1.1 % (buoyancy is taken at 280 K), and
/// against Brown 1962, from which its heat differs by under 15 %.
#[inline(always)]
pub fn level_opening_kg_per_s<T: Number>(
    below_c: T,
    above_c: T,
    area_m2: T::Given,
    epstein: T::Given,
    stable_mix_kg_per_s: T::Given,
) -> T {
    let diameter_m = (area_m2 * (4.0 / std::f64::consts::PI)).sqrt();
    (each_way_m3_per_s(below_c - above_c, diameter_m, epstein) * REFERENCE_DENSITY_KG_PER_M3)
        .plus(stable_mix_kg_per_s)
}

/// Volume in m³/s trading places each way through an open filler neck; the air movement past the neck
/// comes on top.
///
/// ```text
/// Q = epstein d^2.5 sqrt(g P / 280),   P of T_inside - T_outside
/// ```
///
/// *Valid*, *Source*: as [`level_opening_kg_per_s`]; checked in `tests/physics/exchange.rs`.
#[inline(always)]
pub fn filler_m3_per_s<T: Number>(
    inside_c: T,
    outside_c: T,
    diameter_m: T::Given,
    epstein: T::Given,
) -> T {
    each_way_m3_per_s(inside_c - outside_c, diameter_m, epstein)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::dual::Dual;
    use proptest::prelude::*;

    #[test]
    fn equal_temperatures_have_a_finite_slope() {
        let m = level_opening_kg_per_s(
            Dual::<2>::variable(3.0, 0),
            Dual::variable(3.0, 1),
            0.02,
            0.055,
            1.5e-4,
        );
        assert!(m.slopes.iter().all(|s| s.is_finite()) && m.slopes[0] > 0.0);
        assert!((unstable_difference_k(0.0) - 0.15).abs() < 1e-15);
    }

    #[test]
    fn a_stable_layering_leaves_only_the_stable_mix() {
        let unstable = level_opening_kg_per_s(10.0, -10.0, 0.02, 0.055, 0.0);
        let stable = level_opening_kg_per_s(-10.0, 10.0, 0.02, 0.055, 0.0);
        assert!(stable > 0.0 && stable < 0.01 * unstable);
    }

    proptest! {
        #[test]
        fn the_smooth_difference_is_positive_rising_and_exact(dt in -200.0..200.0_f64) {
            let p = unstable_difference_k(Dual::<1>::variable(dt, 0));
            prop_assert!(p.value > 0.0 && p.slopes[0] > 0.0 && p.slopes[0] <= 1.0);
            // P (P - dT) = 0.3^2 / 4
            prop_assert!((p.value * (p.value - dt) - 0.0225).abs() < 1e-10);
        }

        #[test]
        fn slopes_are_those_of_difference_quotients(
            below in -30.0..30.0_f64, above in -30.0..30.0_f64,
        ) {
            let q = filler_m3_per_s(Dual::<2>::variable(below, 0), Dual::variable(above, 1), 0.045, 0.055);
            let law = |b, a| filler_m3_per_s(b, a, 0.045, 0.055);
            let h = 1e-4;
            let along = [
                (law(below + h, above) - law(below - h, above)) / (2.0 * h),
                (law(below, above + h) - law(below, above - h)) / (2.0 * h),
            ];
            for (slope, quotient) in q.slopes.iter().zip(along) {
                prop_assert!((slope - quotient).abs() < 1e-6 * quotient.abs() + 1e-11);
            }
        }
    }
}
