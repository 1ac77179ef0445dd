//! The number a law is computed with.
//!
//! Every law of this folder is written once, over any [`Number`]: a plain `f64` for an integration through
//! the night, a [`Dual`](super::dual::Dual) for its exact slopes (forward-mode differentiation over the few variables a
//! law sees), and, in the tests, a complex number for an independent check of those slopes.
//! What is given to a law beside its variables, such as an area, is a [`Register`]: one number, or one for each of several
//! nights that go through the laws side by side. On their variables laws branch only through [`Number::where_positive`]; what
//! they branch on besides (a facing, whether there are limits) is a choice, the same in all lanes.

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
    /// The size without the sign.
    #[inline(always)]
    fn magnitude(self) -> Self {
        self.where_positive(self, -self)
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
    /// Nothing, in all lanes.
    const ZERO: Self;
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
    /// The thing of each of four lanes; that of the one lane four times.
    fn four<'a, E: ?Sized + 'a>(each: Self::Each<'a, E>) -> [&'a E; 4];
    /// A number of each thing.
    fn read<E: ?Sized>(each: Self::Each<'_, E>, number: impl Fn(&E) -> f64) -> Self;
    /// Puts a thing into one lane.
    fn put<'a, E: ?Sized + 'a>(each: &mut Self::Each<'a, E>, lane: usize, thing: &'a E);
    /// Whether any of the numbers is such.
    fn any(self, such: impl Fn(f64) -> bool) -> bool;
    /// A first guess of one over the cube root.
    fn inverse_cube_root_begun(self) -> Self;
    /// Two to the power of a whole number that stands in the last bits, see [`exponential`](super::elementary::exponential).
    fn power_of_two(self) -> Self;
}

/// Work on registers: a type of its own, since a closure is not sure to be inlined into what is compiled for the
/// processor's wider registers. [`Work::done`] and all it calls that works on registers must be `#[inline(always)]`.
pub(crate) trait Work {
    /// What comes of it.
    type Done;
    /// Does it.
    fn done(self) -> Self::Done;
}

/// The largest size among these; not a number if any is not, which `max` alone would pass over.
pub fn largest_size(values: impl IntoIterator<Item = f64>) -> f64 {
    values.into_iter().map(f64::abs).fold(0.0, |most, size| {
        if size > most || size.is_nan() {
            size
        } else {
            most
        }
    })
}
