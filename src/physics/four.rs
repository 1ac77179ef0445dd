//! Four numbers in a register, one for each of four nights, or for each of four laws of one night.
//!
//! Every operation gives in each lane exactly what it gives for a plain `f64`, so that a night computed beside others is
//! the night computed alone. On x86-64 the register is that of AVX2: whoever makes the first of these calls [`available`]
//! before. Elsewhere it is four plain numbers, which the compiler puts into what registers there are.

use super::elementary;
use super::number::{Number, Register};
use super::vector::Vector;
use std::ops::{Add, Div, Mul, Neg, Sub};

#[cfg(target_arch = "x86_64")]
pub use super::avx2::{available, done};

/// Whether this processor has registers of four, or needs none.
#[cfg(not(target_arch = "x86_64"))]
pub fn available() -> bool {
    true
}
/// Does some work compiled for registers of four.
#[cfg(not(target_arch = "x86_64"))]
pub fn done<W: super::number::Work>(work: W) -> W::Done {
    work.done()
}

/// Four numbers.
#[cfg(target_arch = "x86_64")]
pub type Four = FourOf<std::arch::x86_64::__m256d>;
/// Four numbers.
#[cfg(not(target_arch = "x86_64"))]
pub type Four = FourOf<[f64; 4]>;

/// Four numbers, side by side in this form.
#[derive(Debug, Clone, Copy)]
pub struct FourOf<V>(V);

macro_rules! operators {
    ($($name:ident $verb:ident),+) => {$(
        impl<V: Vector> $name for FourOf<V> {
            type Output = Self;
            #[inline(always)]
            fn $verb(self, other: Self) -> Self {
                Self(self.0.$verb(other.0))
            }
        }
        impl<V: Vector> $name<f64> for FourOf<V> {
            type Output = Self;
            #[inline(always)]
            fn $verb(self, other: f64) -> Self {
                Self(self.0.$verb(V::all(other)))
            }
        }
    )+};
}
operators!(Add add, Sub sub, Mul mul, Div div);

impl<V: Vector> Neg for FourOf<V> {
    type Output = Self;
    #[inline(always)]
    fn neg(self) -> Self {
        Self(self.0.neg())
    }
}

impl<V: Vector> FourOf<V> {
    #[inline(always)]
    pub(crate) fn of(numbers: [f64; 4]) -> Self {
        Self(V::of(numbers))
    }
    #[inline(always)]
    pub(crate) fn array(self) -> [f64; 4] {
        self.0.array()
    }
}

impl<V: Vector> Number for FourOf<V> {
    type Given = Self;
    #[inline(always)]
    fn given(value: Self) -> Self {
        value
    }
    #[inline(always)]
    fn sqrt(self) -> Self {
        Self(self.0.sqrt())
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
        Self(self.0.map(f64::ln))
    }
    #[inline(always)]
    fn logistic(self) -> Self {
        Self::all(1.0) / (elementary::exponential(-self) + 1.0)
    }
    #[inline(always)]
    fn powf(self, exponent: Self) -> Self {
        Self(self.0.zip(exponent.0, f64::powf))
    }
    #[inline(always)]
    fn where_positive(self, yes: Self, no: Self) -> Self {
        Self(self.0.where_positive(yes.0, no.0))
    }
}

impl<V: Vector> Register for FourOf<V> {
    const LANES: usize = 4;
    const ZERO: Self = Self(V::ZERO);
    type Each<'a, E: ?Sized + 'a> = [&'a E; 4];

    #[inline(always)]
    fn all(value: f64) -> Self {
        Self(V::all(value))
    }
    #[inline(always)]
    fn lane(self, lane: usize) -> f64 {
        self.array()[lane]
    }
    #[inline(always)]
    fn set_lane(&mut self, lane: usize, value: f64) {
        let mut array = self.array();
        array[lane] = value;
        self.0 = V::of(array);
    }
    #[inline(always)]
    fn first<'a, E: ?Sized + 'a>(each: [&'a E; 4]) -> &'a E {
        each[0]
    }
    #[inline(always)]
    fn nth<'a, E: ?Sized + 'a>(each: [&'a E; 4], lane: usize) -> &'a E {
        each[lane]
    }
    #[inline(always)]
    fn four<'a, E: ?Sized + 'a>(each: [&'a E; 4]) -> [&'a E; 4] {
        each
    }
    #[inline(always)]
    fn read<E: ?Sized>(each: [&E; 4], number: impl Fn(&E) -> f64) -> Self {
        let [a, b, c, d] = each;
        Self::of([number(a), number(b), number(c), number(d)])
    }
    #[inline(always)]
    fn put<'a, E: ?Sized + 'a>(each: &mut [&'a E; 4], lane: usize, thing: &'a E) {
        each[lane] = thing;
    }
    #[inline(always)]
    fn any(self, such: impl Fn(f64) -> bool) -> bool {
        self.array().into_iter().any(such)
    }
    #[inline(always)]
    fn inverse_cube_root_begun(self) -> Self {
        Self(self.0.inverse_cube_root_begun())
    }
    #[inline(always)]
    fn power_of_two(self) -> Self {
        Self(self.0.power_of_two())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::dual::Dual;
    use proptest::prelude::*;

    /// Every operation of the trait, in an expression that stays finite.
    fn mixed<T: Number>(x: T, y: T, given: T::Given) -> T {
        let size = x.magnitude() + 0.5;
        let bent = (size.sqrt() + size.cbrt()).times(given) / (y.squared() + 1.0);
        let turned = (x * 0.1).exp() - y.logistic().plus(given) + size.ln().over(given);
        bent.least(turned) + bent.largest(y) - size.powf(given) + x.positive_part().cubed()
    }

    fn lanes_are_single_numbers<V: Vector>(x: [f64; 4], y: [f64; 4], given: [f64; 4]) {
        let four = FourOf::<V>::of;
        let together = mixed(four(x), four(y), four(given));
        let with_slopes = mixed(
            Dual::<2, _>::variable(four(x), 0),
            Dual::variable(four(y), 1),
            four(given),
        );
        for lane in 0..4 {
            let alone = mixed(x[lane], y[lane], given[lane]);
            assert_eq!(together.lane(lane).to_bits(), alone.to_bits());
            let alone = mixed(
                Dual::<2>::variable(x[lane], 0),
                Dual::variable(y[lane], 1),
                given[lane],
            );
            assert_eq!(
                with_slopes.value.lane(lane).to_bits(),
                alone.value.to_bits()
            );
            for k in 0..2 {
                let slope = with_slopes.slopes[k].lane(lane);
                assert_eq!(slope.to_bits(), alone.slopes[k].to_bits());
            }
        }
    }

    proptest! {
        #[test]
        fn each_lane_is_what_a_single_number_gives_to_the_last_bit(
            x in prop::array::uniform4(-40.0..40.0_f64),
            y in prop::array::uniform4(-40.0..40.0_f64),
            given in prop::array::uniform4(0.1..3.0_f64),
        ) {
            lanes_are_single_numbers::<[f64; 4]>(x, y, given);
            #[cfg(target_arch = "x86_64")]
            if available() {
                lanes_are_single_numbers::<std::arch::x86_64::__m256d>(x, y, given);
            }
        }
    }

    #[test]
    fn a_lane_is_set_and_read_and_asked_after() {
        if !available() {
            return;
        }
        let mut four = Four::ZERO;
        four.set_lane(2, 7.0);
        assert_eq!(four.array(), [0.0, 0.0, 7.0, 0.0]);
        assert!(four.any(|v| v == 7.0) && !four.any(|v| v < 0.0));
        let things = [1.0, 2.0, 3.0, 4.0];
        let each = [&things[0], &things[1], &things[2], &things[3]];
        assert_eq!(
            Four::read(each, |thing| 2.0 * thing).array(),
            [2.0, 4.0, 6.0, 8.0]
        );
        assert_eq!((Four::first(each), Four::nth(each, 3)), (&1.0, &4.0));
    }
}
