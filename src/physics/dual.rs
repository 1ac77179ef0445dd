//! A number that carries its slopes: forward-mode differentiation over the few variables a law sees.

use super::number::{Number, Register};
use std::ops::{Add, Div, Mul, Neg, Sub};

/// A value with its slopes along `K` variables.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Dual<const K: usize, G = f64> {
    /// The value.
    pub value: G,
    /// The partial derivative along each variable.
    pub slopes: [G; K],
}

impl<const K: usize, G: Register> Dual<K, G> {
    /// Variable number `which` with this value: slope one along itself, zero along the others.
    #[inline(always)]
    pub fn variable(value: G, which: usize) -> Self {
        let mut slopes = [G::all(0.0); K];
        slopes[which] = G::all(1.0);
        Self { value, slopes }
    }

    #[inline(always)]
    fn chain(self, value: G, slope: G) -> Self {
        let mut slopes = self.slopes;
        for mine in &mut slopes {
            *mine = *mine * slope;
        }
        Self { value, slopes }
    }

    #[inline(always)]
    fn blend(self, other: Self, value: G, mine: G, theirs: G) -> Self {
        let mut slopes = self.slopes;
        for (slope, other) in slopes.iter_mut().zip(&other.slopes) {
            *slope = mine * *slope + theirs * *other;
        }
        Self { value, slopes }
    }
}

impl<const K: usize, G: Register> Add for Dual<K, G> {
    type Output = Self;
    #[inline(always)]
    fn add(self, o: Self) -> Self {
        let mut slopes = self.slopes;
        for (slope, other) in slopes.iter_mut().zip(&o.slopes) {
            *slope = *slope + *other;
        }
        let value = self.value + o.value;
        Self { value, slopes }
    }
}
impl<const K: usize, G: Register> Sub for Dual<K, G> {
    type Output = Self;
    #[inline(always)]
    fn sub(self, o: Self) -> Self {
        let mut slopes = self.slopes;
        for (slope, other) in slopes.iter_mut().zip(&o.slopes) {
            *slope = *slope - *other;
        }
        let value = self.value - o.value;
        Self { value, slopes }
    }
}
impl<const K: usize, G: Register> Mul for Dual<K, G> {
    type Output = Self;
    #[inline(always)]
    fn mul(self, o: Self) -> Self {
        self.blend(o, self.value * o.value, o.value, self.value)
    }
}
impl<const K: usize, G: Register> Div for Dual<K, G> {
    type Output = Self;
    #[inline(always)]
    fn div(self, o: Self) -> Self {
        let value = self.value / o.value;
        let inverse = G::all(1.0) / o.value;
        self.blend(o, value, inverse, -value * inverse)
    }
}
impl<const K: usize, G: Register> Neg for Dual<K, G> {
    type Output = Self;
    #[inline(always)]
    fn neg(self) -> Self {
        let mut slopes = self.slopes;
        for mine in &mut slopes {
            *mine = -*mine;
        }
        let value = -self.value;
        Self { value, slopes }
    }
}
impl<const K: usize, G: Register> Add<f64> for Dual<K, G> {
    type Output = Self;
    #[inline(always)]
    fn add(self, o: f64) -> Self {
        self.plus(G::all(o))
    }
}
impl<const K: usize, G: Register> Sub<f64> for Dual<K, G> {
    type Output = Self;
    #[inline(always)]
    fn sub(self, o: f64) -> Self {
        self.plus(G::all(-o))
    }
}
impl<const K: usize, G: Register> Mul<f64> for Dual<K, G> {
    type Output = Self;
    #[inline(always)]
    fn mul(self, o: f64) -> Self {
        self.times(G::all(o))
    }
}
impl<const K: usize, G: Register> Div<f64> for Dual<K, G> {
    type Output = Self;
    #[inline(always)]
    fn div(self, o: f64) -> Self {
        self.over(G::all(o))
    }
}

impl<const K: usize, G: Register> Number for Dual<K, G> {
    type Given = G;
    #[inline(always)]
    fn given(value: G) -> Self {
        Self {
            value,
            slopes: [G::all(0.0); K],
        }
    }
    #[inline(always)]
    fn plus(self, given: G) -> Self {
        Self {
            value: self.value + given,
            ..self
        }
    }
    #[inline(always)]
    fn times(self, given: G) -> Self {
        self.chain(self.value * given, given)
    }
    #[inline(always)]
    fn over(self, given: G) -> Self {
        self.chain(self.value / given, G::all(1.0) / given)
    }
    #[inline(always)]
    fn sqrt(self) -> Self {
        let root = self.value.sqrt();
        self.chain(root, G::all(0.5) / root)
    }
    #[inline(always)]
    fn cbrt(self) -> Self {
        let root = self.value.cbrt();
        self.chain(root, G::all(1.0) / (root * root * 3.0))
    }
    #[inline(always)]
    fn exp(self) -> Self {
        let e = self.value.exp();
        self.chain(e, e)
    }
    #[inline(always)]
    fn ln(self) -> Self {
        self.chain(self.value.ln(), G::all(1.0) / self.value)
    }
    #[inline(always)]
    fn logistic(self) -> Self {
        let part = self.value.logistic();
        self.chain(part, part * (G::all(1.0) - part))
    }
    #[inline(always)]
    fn powf(self, exponent: G) -> Self {
        let p = self.value.powf(exponent);
        self.chain(p, exponent * self.value.powf(exponent - 1.0))
    }
    #[inline(always)]
    fn where_positive(self, yes: Self, no: Self) -> Self {
        let mut slopes = yes.slopes;
        for (slope, no) in slopes.iter_mut().zip(&no.slopes) {
            *slope = self.value.where_positive(*slope, *no);
        }
        let value = self.value.where_positive(yes.value, no.value);
        Self { value, slopes }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mixed<T: Number<Given = f64>>(x: T, y: T) -> T {
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
        // At nothing itself the other side is taken, with its slopes.
        assert_eq!(0.0.where_positive(1.0, 2.0), 2.0);
        let (yes, no) = (Dual::<1>::variable(1.0, 0), Dual::constant(2.0));
        assert_eq!(Dual::constant(0.0).where_positive(yes, no), no);
    }
}
