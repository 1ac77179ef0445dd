//! The number a law is computed with.
//!
//! Every law of this folder is written once, over any [`Number`]: a plain `f64` for a march through
//! the night, a [`Dual`] for its exact slopes (forward-mode differentiation over the few variables a
//! law sees), and, in the tests, a complex number for an independent check of those slopes.
//! What is given to a law beside its variables, such as an area, is a [`Register`]: one number, or one for each of several
//! nights that go through the laws side by side. Laws branch only through [`Number::where_positive`].

use super::elementary;
#[cfg(target_arch = "x86_64")]
use super::four;
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
    /// What is given to a law beside its variables: areas, lengths ...
    type Given: Register;
    /// The number with this value and no slope.
    fn given(value: Self::Given) -> Self;
    /// Square root.
    fn sqrt(self) -> Self;
    /// Cube root of a number not below zero.
    fn cbrt(self) -> Self;
    /// Exponential, held beyond ±700.
    fn exp(self) -> Self;
    /// Natural logarithm.
    fn ln(self) -> Self;
    /// `1/(1 + e^-x)`, which goes from zero to one; `(1 + tanh x)/2` is the logistic of `2x`.
    fn logistic(self) -> Self;
    /// Real power of a positive number.
    fn powf(self, exponent: Self::Given) -> Self;
    /// `yes` where this number's value is above zero, `no` elsewhere.
    fn where_positive(self, yes: Self, no: Self) -> Self;

    /// The number with this value, the same for all, and no slope.
    #[inline(always)]
    fn constant(value: f64) -> Self {
        Self::given(Self::Given::all(value))
    }
    /// What is given by a thing, or by the thing of each night.
    #[inline(always)]
    fn of<E: ?Sized>(
        each: <Self::Given as Register>::Each<'_, E>,
        number: impl Fn(&E) -> f64,
    ) -> Self::Given {
        Self::Given::read(each, number)
    }
    /// The sum with something given.
    #[inline(always)]
    fn plus(self, given: Self::Given) -> Self {
        self + Self::given(given)
    }
    /// The product with something given.
    #[inline(always)]
    fn times(self, given: Self::Given) -> Self {
        self * Self::given(given)
    }
    /// The quotient by something given.
    #[inline(always)]
    fn over(self, given: Self::Given) -> Self {
        self / Self::given(given)
    }
    /// The square.
    #[inline(always)]
    fn squared(self) -> Self {
        self * self
    }
    /// The cube.
    #[inline(always)]
    fn cubed(self) -> Self {
        self * self * self
    }
    /// This number where positive, zero elsewhere; the slope at zero is zero.
    #[inline(always)]
    fn positive_part(self) -> Self {
        self.where_positive(self, Self::constant(0.0))
    }
    /// The smaller of two.
    #[inline(always)]
    fn least(self, other: Self) -> Self {
        (other - self).where_positive(self, other)
    }
    /// The larger of two.
    #[inline(always)]
    fn largest(self, other: Self) -> Self {
        (self - other).where_positive(self, other)
    }
}

/// Numbers that are worked on together: one, or one for each of several nights.
pub trait Register: Number<Given = Self> + 'static {
    /// How many.
    const LANES: usize;
    /// Something for each.
    type Each<'a, E: ?Sized + 'a>: Copy;

    /// The same number in all lanes.
    fn all(value: f64) -> Self;
    /// The number in one lane.
    fn lane(self, lane: usize) -> f64;
    /// Puts a number into one lane.
    fn set_lane(&mut self, lane: usize, value: f64);
    /// The thing of the first lane.
    fn first<'a, E: ?Sized + 'a>(each: Self::Each<'a, E>) -> &'a E;
    /// The thing of one lane.
    fn nth<'a, E: ?Sized + 'a>(each: Self::Each<'a, E>, lane: usize) -> &'a E;
    /// A part of each thing.
    fn part<'a, E: ?Sized + 'a, F: ?Sized + 'a>(
        each: Self::Each<'a, E>,
        part: impl Fn(&'a E) -> &'a F,
    ) -> Self::Each<'a, F>;
    /// A number of each thing.
    fn read<E: ?Sized>(each: Self::Each<'_, E>, number: impl Fn(&E) -> f64) -> Self;
    /// Puts a thing into one lane.
    fn put<'a, E: ?Sized + 'a>(each: &mut Self::Each<'a, E>, lane: usize, thing: &'a E);
    /// Whether any of the numbers is such.
    fn any(self, such: impl Fn(f64) -> bool) -> bool;
    /// A first guess of one over the cube root.
    fn inverse_cube_root_begun(self) -> Self;
    /// Two to the power of a whole number that stands in the last bits, see [`elementary::exponential`].
    fn power_of_two(self) -> Self;
    /// Four of these side by side, where there is a register for them.
    type Wide: Register;
    /// Puts four side by side.
    fn widen(four: [Self; 4]) -> Self::Wide;
    /// Takes them apart.
    fn narrow(wide: Self::Wide) -> [Self; 4];
    /// What four things give to [`Register::Wide`].
    fn wide_each<'a, E: ?Sized + 'a>(
        four: [Self::Each<'a, E>; 4],
    ) -> <Self::Wide as Register>::Each<'a, E>;
    /// Does some work where these numbers are fastest.
    fn work<W: Work>(work: W) -> W::Done;
}

/// Work on registers: a type of its own, since a closure is not sure to be inlined into what is compiled for the
/// processor's wider registers. [`Work::done`] and all it calls that works on registers must be `#[inline(always)]`.
pub trait Work {
    /// What comes of it.
    type Done;
    /// Does it, with [`Register::Wide`] where there are four of a kind if `WIDE`.
    fn done<const WIDE: bool>(self) -> Self::Done;
}

impl Number for f64 {
    type Given = Self;
    #[inline(always)]
    fn given(value: Self) -> Self {
        value
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
    fn powf(self, exponent: Self) -> Self {
        f64::powf(self, exponent)
    }
    #[inline(always)]
    fn where_positive(self, yes: Self, no: Self) -> Self {
        if self > 0.0 { yes } else { no }
    }
}

impl Register for f64 {
    const LANES: usize = 1;
    type Each<'a, E: ?Sized + 'a> = &'a E;

    #[inline(always)]
    fn all(value: f64) -> Self {
        value
    }
    #[inline(always)]
    fn lane(self, _: usize) -> f64 {
        self
    }
    #[inline(always)]
    fn set_lane(&mut self, _: usize, value: f64) {
        *self = value;
    }
    #[inline(always)]
    fn first<'a, E: ?Sized + 'a>(each: &'a E) -> &'a E {
        each
    }
    #[inline(always)]
    fn nth<'a, E: ?Sized + 'a>(each: &'a E, _: usize) -> &'a E {
        each
    }
    #[inline(always)]
    fn part<'a, E: ?Sized + 'a, F: ?Sized + 'a>(
        each: &'a E,
        part: impl Fn(&'a E) -> &'a F,
    ) -> &'a F {
        part(each)
    }
    #[inline(always)]
    fn read<E: ?Sized>(each: &E, number: impl Fn(&E) -> f64) -> Self {
        number(each)
    }
    #[inline(always)]
    fn put<'a, E: ?Sized + 'a>(each: &mut &'a E, _: usize, thing: &'a E) {
        *each = thing;
    }
    #[inline(always)]
    fn any(self, such: impl Fn(f64) -> bool) -> bool {
        such(self)
    }
    #[inline(always)]
    fn inverse_cube_root_begun(self) -> Self {
        elementary::inverse_cube_root_begun(self)
    }
    #[inline(always)]
    fn power_of_two(self) -> Self {
        elementary::power_of_two(self)
    }
    #[inline(always)]
    fn work<W: Work>(work: W) -> W::Done {
        #[cfg(target_arch = "x86_64")]
        if four::available() {
            return four::done::<W, true>(work);
        }
        work.done::<false>()
    }
    #[cfg(target_arch = "x86_64")]
    type Wide = four::Four;
    #[cfg(not(target_arch = "x86_64"))]
    type Wide = Self;
    #[cfg(target_arch = "x86_64")]
    #[inline(always)]
    fn widen(four: [Self; 4]) -> Self::Wide {
        four::Four::of(four)
    }
    #[cfg(target_arch = "x86_64")]
    #[inline(always)]
    fn narrow(wide: Self::Wide) -> [Self; 4] {
        wide.array()
    }
    #[cfg(target_arch = "x86_64")]
    #[inline(always)]
    fn wide_each<'a, E: ?Sized + 'a>(four: [&'a E; 4]) -> [&'a E; 4] {
        four
    }
    #[cfg(not(target_arch = "x86_64"))]
    fn widen(four: [Self; 4]) -> Self {
        four[0]
    }
    #[cfg(not(target_arch = "x86_64"))]
    fn narrow(wide: Self) -> [Self; 4] {
        [wide; 4]
    }
    #[cfg(not(target_arch = "x86_64"))]
    fn wide_each<'a, E: ?Sized + 'a>(four: [&'a E; 4]) -> &'a E {
        four[0]
    }
}

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
        for k in 0..K {
            slopes[k] = mine * slopes[k] + theirs * other.slopes[k];
        }
        Self { value, slopes }
    }
}

impl<const K: usize, G: Register> Add for Dual<K, G> {
    type Output = Self;
    #[inline(always)]
    fn add(self, o: Self) -> Self {
        let mut slopes = self.slopes;
        for k in 0..K {
            slopes[k] = slopes[k] + o.slopes[k];
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
        for k in 0..K {
            slopes[k] = slopes[k] - o.slopes[k];
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
        for k in 0..K {
            slopes[k] = self.value.where_positive(slopes[k], no.slopes[k]);
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
