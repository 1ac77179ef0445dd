//! Air through gaps and passages: a smooth law for the stream, and a smooth choice of where it comes
//! from.
//!
//! The sharp law has an infinite slope at no pressure and a jump in density when the stream turns.
//! Both are rounded off over a pressure far below anything that moves air worth counting.

use super::number::Number;
use super::smooth::above_and_below;

/// Discharge coefficient of a sharp-edged opening.
///
/// *Source*: 0.60 to 0.61 for sharp edges at high Reynolds number (ISO 5167-2, from memory).
pub const DISCHARGE: f64 = 0.6;

/// Mass flow in kg/s through an opening, positive from the first side to the second.
///
/// ```text
/// m = Cd A sqrt(2 rho) dP (dP^2 + d^2)^(-1/4)
/// rho = rho_to + (rho_from - rho_to)(1 + tanh(dP/d))/2
/// ```
///
/// with `dP` the pressure of the first side above the second, Cd = 0.6 and d the softness: the stream
/// is linear in dP well below d and the sharp square root well above.
///
/// *Valid*: softness above zero; densities within a factor of two of each other, for which the stream
/// always grows with dP. Stream at dP = 10 d is 0.25 % below the sharp law's.
/// *Source*: Bernoulli's orifice, the rounding being this project's; checked in
/// `tests/physics/orifice.rs` against worked stack flows in the sharp limit, error found under 1e-4.
#[inline(always)]
pub fn stream_kg_per_s<T: Number>(
    dp_pa: T,
    rho_from: T,
    rho_to: T,
    area_m2: T::Given,
    softness_pa: f64,
) -> T {
    let upstream = (dp_pa * (2.0 / softness_pa)).logistic();
    let rho = rho_to + (rho_from - rho_to) * upstream;
    let rounded = (dp_pa.squared() + softness_pa * softness_pa).sqrt().sqrt();
    ((rho * 2.0).sqrt() * dp_pa / rounded).times(area_m2 * DISCHARGE)
}

/// A stream in kg/s parted into what goes forward and what goes back, both above zero.
///
/// ```text
/// (forward, back) = above_and_below(m)
/// ```
///
/// Each carries what its own side holds, which makes the choice of the upstream side smooth.
///
/// *Valid*, *Source*: as [`above_and_below`]; checked in `tests/physics/orifice.rs`.
#[inline(always)]
pub fn both_ways<T: Number>(stream_kg_per_s: T, softness_kg_per_s: f64) -> (T, T) {
    above_and_below(stream_kg_per_s, softness_kg_per_s)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::dual::Dual;
    use proptest::prelude::*;

    #[test]
    fn no_pressure_moves_nothing_with_a_finite_slope() {
        let m = stream_kg_per_s(
            Dual::<3>::variable(0.0, 0),
            Dual::variable(1.3, 1),
            Dual::variable(1.2, 2),
            0.03,
            0.004,
        );
        assert!(m.value == 0.0 && m.slopes[1] == 0.0 && m.slopes[2] == 0.0);
        // Linear limit: Cd A sqrt(2 rho_mean / d).
        let expected = 0.6 * 0.03 * (2.0_f64 * 1.25 / 0.004).sqrt();
        assert!((m.slopes[0] - expected).abs() < 1e-12 * expected);
    }

    proptest! {
        #[test]
        fn the_stream_grows_with_pressure(
            over in -30.0..30.0_f64, from in 0.9..1.5_f64, to in 0.9..1.5_f64,
        ) {
            let d = 0.004;
            let m = stream_kg_per_s(
                Dual::<1>::variable(over * d, 0), Dual::constant(from), Dual::constant(to), 0.03, d,
            );
            prop_assert!(m.slopes[0] > 0.0);
            prop_assert!(m.value * over >= 0.0);
        }

        #[test]
        fn the_same_stream_read_from_the_other_side_is_its_opposite(
            dp in -0.1..0.1_f64, from in 0.9..1.5_f64, to in 0.9..1.5_f64,
        ) {
            let there = stream_kg_per_s(dp, from, to, 0.03, 0.004);
            let here = stream_kg_per_s(-dp, to, from, 0.03, 0.004);
            prop_assert!((there + here).abs() < 1e-15);
        }

        #[test]
        fn slopes_are_those_of_difference_quotients(
            dp in -0.1..0.1_f64, from in 1.0..1.5_f64, to in 1.0..1.5_f64,
        ) {
            let law = |dp, from, to| stream_kg_per_s(dp, from, to, 0.03, 0.004);
            let m = stream_kg_per_s(
                Dual::<3>::variable(dp, 0), Dual::variable(from, 1), Dual::variable(to, 2), 0.03, 0.004,
            );
            let h = 1e-6;
            let along = [
                (law(dp + h, from, to) - law(dp - h, from, to)) / (2.0 * h),
                (law(dp, from + h, to) - law(dp, from - h, to)) / (2.0 * h),
                (law(dp, from, to + h) - law(dp, from, to - h)) / (2.0 * h),
            ];
            for (slope, quotient) in m.slopes.iter().zip(along) {
                prop_assert!((slope - quotient).abs() < 1e-6 * (1.0 + quotient.abs()));
            }
        }
    }
}
