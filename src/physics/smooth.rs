//! A number parted smoothly into what is above zero and what is below.

use super::number::Number;

/// How far a number is above zero and how far below, both above zero and without a corner.
///
/// ```text
/// (above, below) = ((s + x)/2, (s - x)/2),   s = sqrt(x^2 + e^2)
/// ```
///
/// Their difference is the number; far from zero one of them is its size and the other fades as `e^2/(4 |x|)`.
///
/// *Valid*: softness e above zero. The smaller part is found as `e^2` over four times the greater, so it never cancels to
/// zero or below.
/// *Source*: identity `(s+x)(s-x) = e^2`; checked in this file's tests.
#[inline(always)]
pub fn above_and_below<T: Number>(x: T, softness: f64) -> (T, T) {
    let squared = softness * softness;
    let greater = ((x.squared() + squared).sqrt() + x.magnitude()) * 0.5;
    let lesser = T::constant(squared * 0.25) / greater;
    (
        x.where_positive(greater, lesser),
        x.where_positive(lesser, greater),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::dual::Dual;
    use proptest::prelude::*;

    #[test]
    fn at_zero_both_are_half_the_softness_and_even() {
        let (above, below) = above_and_below(Dual::<1>::variable(0.0, 0), 1e-5);
        assert!((above.value - 5e-6).abs() < 1e-20 && (below.value - 5e-6).abs() < 1e-20);
        assert!((above.slopes[0] - 0.5).abs() < 1e-12 && (below.slopes[0] + 0.5).abs() < 1e-12);
    }

    #[test]
    fn far_from_zero_the_lesser_is_a_quarter_of_the_softness_squared_over_it() {
        for (x, greater, lesser) in [(1e6, 0, 1), (-1e6, 1, 0)] {
            let parts: [f64; 2] = above_and_below(x, 1e-5).into();
            assert!(parts[greater] == 1e6 && (parts[lesser] / 2.5e-17 - 1.0).abs() < 1e-15);
        }
    }

    proptest! {
        #[test]
        fn both_are_above_zero_and_differ_by_the_number(x in -200.0..200.0_f64, e in 1e-6..1.0_f64) {
            let (above, below) = above_and_below(x, e);
            prop_assert!(above > 0.0 && below > 0.0);
            prop_assert!((above - below - x).abs() <= 4.0 * f64::EPSILON * x.abs().max(e));
            prop_assert!((above * below - 0.25 * e * e).abs() <= 1e-15 * e * e);
        }
    }
}
