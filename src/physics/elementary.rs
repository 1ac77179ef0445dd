//! Cube root and exponential without branches or table look-ups, so that they can be inlined into the laws.
//!
//! The functions of the platform's library are calls; these are as exact for the purpose (the tests give the bounds), the
//! same on every machine, and the same in every lane of a register.

use super::number::Register;

/// Bits from which a third of an exponent is taken away to begin the inverse cube root: 4/3 of the bits of one, less a
/// shift that evens out the error (from memory; the start is then within 3.5 percent, as tried over three octaves).
pub(super) const THIRD: u64 = 0x553e_f0ff_289d_d794;
/// A third of the upper half of a number's bits is the upper half of their product with this.
pub(super) const A_THIRD: u64 = 0x5555_5556;

/// A first guess of one over the cube root.
#[inline(always)]
pub(super) fn inverse_cube_root_begun(x: f64) -> f64 {
    let third = ((x.to_bits() >> 32) * A_THIRD) >> 32 << 32;
    f64::from_bits(THIRD.wrapping_sub(third))
}

/// The cube root of a number that is not below zero, to 1e-15 of it.
///
/// The inverse cube root is refined twice by the third-order expansion of `(1 - e)^(-1/3)` with `e = 1 - x y^3`: no
/// division, no branch. *Valid*: zero, and from 1e-290 to 1e290.
///
/// *Source*: the binomial series; the start by the bits of the number is common practice (from memory).
#[inline(always)]
pub fn cube_root<G: Register>(x: G) -> G {
    let mut y = x.inverse_cube_root_begun();
    for _ in 0..2 {
        let e = -(x * y * (y * y)) + 1.0;
        y = y + y * e * (e * (e * (14.0 / 81.0) + 2.0 / 9.0) + 1.0 / 3.0);
    }
    let root = x * (y * y);
    // One correction of the root itself, for the digits its rounding cost.
    root + root * (-(root * y) + 1.0) * (2.0 / 3.0)
}

/// Added and taken away again, this rounds a number to a whole one and leaves that one in its last bits.
const ROUNDING: f64 = 6_755_399_441_055_744.0;
/// ln 2 in two parts: the first has so many zeros at its end that its products with whole numbers are exact.
const LN_2_HIGH: f64 = f64::from_bits(0x3fe6_2e42_fefa_3800);
const LN_2_LOW: f64 = f64::from_bits(0x3d2e_f357_93c7_6730);
/// Beyond this the exponential stays what it is there.
const MOST: f64 = 700.0;
/// The exponent of one, in the bits of a number.
pub(super) const EXPONENT_OF_ONE: i64 = 1023 << 52;

/// Two to the power of a whole number to which [`ROUNDING`] was added.
#[inline(always)]
pub(super) fn power_of_two(shifted: f64) -> f64 {
    f64::from_bits((shifted.to_bits() << 52).wrapping_add(EXPONENT_OF_ONE as u64))
}

/// The exponential, to 5e-16 of it; below -700 and above 700 it stays what it is there.
///
/// `e^x = 2^n e^r` with `|r| <= (ln 2)/2` and the Taylor series of `e^r` to the thirteenth power, whose rest is below 1e-17.
///
/// *Source*: the series; ln 2 in two parts after Cody and Waite (from memory).
#[inline(always)]
pub fn exponential<G: Register>(x: G) -> G {
    let x = (x - MOST).where_positive(G::all(MOST), x);
    let x = (-x - MOST).where_positive(G::all(-MOST), x);
    let shifted = x * std::f64::consts::LOG2_E + ROUNDING;
    let n = shifted - ROUNDING;
    let r = (x - n * LN_2_HIGH) - n * LN_2_LOW;
    let r2 = r * r;
    let r4 = r2 * r2;
    let low = (r * (1.0 / 6.0) + 1.0 / 2.0) + r2 * (r * (1.0 / 120.0) + 1.0 / 24.0);
    let middle =
        (r * (1.0 / 5_040.0) + 1.0 / 720.0) + r2 * (r * (1.0 / 362_880.0) + 1.0 / 40_320.0);
    let high = (r * (1.0 / 39_916_800.0) + 1.0 / 3_628_800.0)
        + r2 * (r * (1.0 / 6_227_020_800.0) + 1.0 / 479_001_600.0);
    let power = (r + r2 * (low + r4 * (middle + r4 * high))) + 1.0;
    power * shifted.power_of_two()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The largest relative difference from the standard library over an even grid.
    fn worst(from: f64, to: f64, ours: fn(f64) -> f64, theirs: fn(f64) -> f64) -> f64 {
        let steps = 200_003;
        (0..=steps)
            .map(|k| from + (to - from) * f64::from(k) / f64::from(steps))
            .map(|x| (ours(x) / theirs(x) - 1.0).abs())
            .inspect(|error| assert!(error.is_finite()))
            .fold(0.0, f64::max)
    }

    #[test]
    fn the_cube_root_is_that_of_the_standard_library() {
        assert!(worst(1e-9, 8.0, cube_root, f64::cbrt) < 1e-15);
        assert!(worst(8.0, 1e12, cube_root, f64::cbrt) < 1e-15);
        for decade in -290..290 {
            let x = 2.7 * 10_f64.powi(decade);
            assert!((cube_root(x) / x.cbrt() - 1.0).abs() < 1e-15, "{x:e}");
        }
        assert_eq!(cube_root(0.0), 0.0);
        for astray in [
            f64::NAN,
            -f64::NAN,
            f64::NEG_INFINITY,
            std::hint::black_box(-1.0_f64).sqrt(),
        ] {
            assert!(!cube_root(astray).is_finite());
        }
    }

    #[test]
    fn the_exponential_is_that_of_the_standard_library() {
        assert!(worst(-40.0, 40.0, exponential, f64::exp) < 5e-16);
        assert!(worst(-690.0, 690.0, exponential, f64::exp) < 5e-16);
        assert!(worst(-1e-3, 1e-3, exponential, f64::exp) < 5e-16);
        assert_eq!(exponential(0.0), 1.0);
        assert_eq!(exponential(-1e9), exponential(-700.0));
        assert_eq!(exponential(1e9), exponential(700.0));
        assert!(exponential(f64::NAN).is_nan());
    }
}
