//! The number a law is computed with.
//!
//! Every law of this folder is written once, over any [`Number`]: a plain `f64` for a march through
//! the night, a [`Dual`] for its exact slopes (forward-mode differentiation over the few variables a
//! law sees), and, in the tests, a complex number for an independent check of those slopes.
//! Laws branch only through [`Number::where_positive`], so that several nights may later share one
//! vector register.

use super::elementary;
use std::fmt::Debug;
use std::ops::{Add, Div, Mul, Neg, Sub};

/// A real-like number with the operations the laws need.
pub trait Number:
    Copy
    + Debug
    + Add<Output = Self>
    + Sub<Output = Self>
    + Mul<Output = Self>
    + Div<Output = Self>
    + Neg<Output = Self>
    + Add<f64, Output = Self>
    + Sub<f64, Output = Self>
    + Mul<f64, Output = Self>
    + Div<f64, Output = Self>
{
    /// The number with this value and no slope.
    fn constant(value: f64) -> Self;
    /// The real value, without slopes.
    fn value(self) -> f64;
    /// Square root.
    fn sqrt(self) -> Self;
    /// Cube root of a number not below zero.
    fn cbrt(self) -> Self;
    /// Exponential.
    fn exp(self) -> Self;
    /// Natural logarithm.
    fn ln(self) -> Self;
    /// `1/(1 + e^-x)`, which goes from zero to one; `(1 + tanh x)/2` is the logistic of `2x`.
    fn logistic(self) -> Self;
    /// Real power of a positive number.
    fn powf(self, exponent: f64) -> Self;
    /// `yes` where this number's value is above zero, `no` elsewhere.
    fn where_positive(self, yes: Self, no: Self) -> Self;

    /// The square.
    fn squared(self) -> Self {
        self * self
    }
    /// The cube.
    fn cubed(self) -> Self {
        self * self * self
    }
    /// This number where positive, zero elsewhere; the slope at zero is zero.
    fn positive_part(self) -> Self {
        self.where_positive(self, Self::constant(0.0))
    }
    /// The smaller of two.
    fn least(self, other: Self) -> Self {
        (other - self).where_positive(self, other)
    }
    /// The larger of two.
    fn largest(self, other: Self) -> Self {
        (self - other).where_positive(self, other)
    }
}

impl Number for f64 {
    #[inline(always)]
    fn constant(value: f64) -> Self {
        value
    }
    #[inline(always)]
    fn value(self) -> f64 {
        self
    }
    #[inline(always)]
    fn sqrt(self) -> Self {
        f64::sqrt(self)
    }
    #[inline(always)]
    fn cbrt(self) -> Self {
        elementary::cube_root(self)
    }
    #[inline(always)]
    fn exp(self) -> Self {
        elementary::exponential(self)
    }
    #[inline(always)]
    fn ln(self) -> Self {
        f64::ln(self)
    }
    #[inline(always)]
    fn logistic(self) -> Self {
        1.0 / (1.0 + elementary::exponential(-self))
    }
    #[inline(always)]
    fn powf(self, exponent: f64) -> Self {
        f64::powf(self, exponent)
    }
    #[inline(always)]
    fn where_positive(self, yes: Self, no: Self) -> Self {
        if self > 0.0 { yes } else { no }
    }
}

/// A value with its slopes along `K` variables.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Dual<const K: usize> {
    /// The value.
    pub value: f64,
    /// The partial derivative along each variable.
    pub slopes: [f64; K],
}

impl<const K: usize> Dual<K> {
    /// Variable number `which` with this value: slope one along itself, zero along the others.
    pub fn variable(value: f64, which: usize) -> Self {
        let mut slopes = [0.0; K];
        slopes[which] = 1.0;
        Self { value, slopes }
    }

    fn chain(self, value: f64, slope: f64) -> Self {
        Self {
            value,
            slopes: self.slopes.map(|s| s * slope),
        }
    }

    fn blend(self, other: Self, value: f64, mine: f64, theirs: f64) -> Self {
        Self {
            value,
            slopes: std::array::from_fn(|k| mine * self.slopes[k] + theirs * other.slopes[k]),
        }
    }
}

impl<const K: usize> Add for Dual<K> {
    type Output = Self;
    fn add(self, o: Self) -> Self {
        self.blend(o, self.value + o.value, 1.0, 1.0)
    }
}
impl<const K: usize> Sub for Dual<K> {
    type Output = Self;
    fn sub(self, o: Self) -> Self {
        self.blend(o, self.value - o.value, 1.0, -1.0)
    }
}
impl<const K: usize> Mul for Dual<K> {
    type Output = Self;
    fn mul(self, o: Self) -> Self {
        self.blend(o, self.value * o.value, o.value, self.value)
    }
}
impl<const K: usize> Div for Dual<K> {
    type Output = Self;
    fn div(self, o: Self) -> Self {
        let value = self.value / o.value;
        self.blend(o, value, 1.0 / o.value, -value / o.value)
    }
}
impl<const K: usize> Neg for Dual<K> {
    type Output = Self;
    fn neg(self) -> Self {
        self.chain(-self.value, -1.0)
    }
}
impl<const K: usize> Add<f64> for Dual<K> {
    type Output = Self;
    fn add(self, o: f64) -> Self {
        self.chain(self.value + o, 1.0)
    }
}
impl<const K: usize> Sub<f64> for Dual<K> {
    type Output = Self;
    fn sub(self, o: f64) -> Self {
        self.chain(self.value - o, 1.0)
    }
}
impl<const K: usize> Mul<f64> for Dual<K> {
    type Output = Self;
    fn mul(self, o: f64) -> Self {
        self.chain(self.value * o, o)
    }
}
impl<const K: usize> Div<f64> for Dual<K> {
    type Output = Self;
    fn div(self, o: f64) -> Self {
        self.chain(self.value / o, 1.0 / o)
    }
}

impl<const K: usize> Number for Dual<K> {
    fn constant(value: f64) -> Self {
        Self {
            value,
            slopes: [0.0; K],
        }
    }
    fn value(self) -> f64 {
        self.value
    }
    fn sqrt(self) -> Self {
        let root = self.value.sqrt();
        self.chain(root, 0.5 / root)
    }
    fn cbrt(self) -> Self {
        let root = elementary::cube_root(self.value);
        self.chain(root, 1.0 / (3.0 * root * root))
    }
    fn exp(self) -> Self {
        let e = elementary::exponential(self.value);
        self.chain(e, e)
    }
    fn ln(self) -> Self {
        self.chain(self.value.ln(), 1.0 / self.value)
    }
    fn logistic(self) -> Self {
        let part = Number::logistic(self.value);
        self.chain(part, part * (1.0 - part))
    }
    fn powf(self, exponent: f64) -> Self {
        let p = self.value.powf(exponent);
        self.chain(p, exponent * self.value.powf(exponent - 1.0))
    }
    fn where_positive(self, yes: Self, no: Self) -> Self {
        if self.value > 0.0 { yes } else { no }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mixed<T: Number>(x: T, y: T) -> T {
        (x * y).exp() / (y.sqrt() + 2.0) - x.cubed().logistic() + (y.ln() * x).cbrt() + y.powf(1.7)
    }

    #[test]
    fn a_dual_carries_the_slopes_a_difference_quotient_finds() {
        let (x, y) = (0.7, 1.9);
        let d = mixed(Dual::<2>::variable(x, 0), Dual::<2>::variable(y, 1));
        let h = 1e-5;
        let dx = (mixed(x + h, y) - mixed(x - h, y)) / (2.0 * h);
        let dy = (mixed(x, y + h) - mixed(x, y - h)) / (2.0 * h);
        assert!((d.value - mixed(x, y)).abs() < 1e-14);
        assert!((d.slopes[0] - dx).abs() < 1e-8 * dx.abs());
        assert!((d.slopes[1] - dy).abs() < 1e-8 * dy.abs());
    }
    #[test]
    fn the_smaller_the_larger_and_what_is_positive_are_chosen_whole() {
        assert_eq!((3.0.least(2.0), 2.0.least(3.0)), (2.0, 2.0));
        assert_eq!((3.0.largest(2.0), 2.0.largest(3.0)), (3.0, 3.0));
        assert_eq!(
            (Number::positive_part(-4.0), 4.0.positive_part()),
            (0.0, 4.0)
        );
        assert_eq!(Number::value(7.5), 7.5);
        assert_eq!(Number::value(Dual::<1>::variable(7.5, 0)), 7.5);
        // At nothing itself the other side is taken, with its slopes.
        assert_eq!(0.0.where_positive(1.0, 2.0), 2.0);
        let (yes, no) = (Dual::<1>::variable(1.0, 0), Dual::constant(2.0));
        assert_eq!(Dual::constant(0.0).where_positive(yes, no), no);
    }
}
