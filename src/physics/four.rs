//! Four numbers in one register of the processor, one for each of four nights.
//!
//! Every operation gives in each lane exactly what it gives for a plain `f64`, so that a night computed beside others is
//! the night computed alone. Needs a processor with AVX2: whoever makes the first of these asks
//! [`available`] before.

#![allow(unsafe_code)]

use super::elementary;
use super::number::{Number, Register, Widen, Work};
use std::arch::x86_64::*;
use std::ops::{Add, Div, Mul, Neg, Sub};

/// Four numbers.
#[derive(Debug, Clone, Copy)]
pub struct Four(__m256d);

/// Whether this processor can do it.
pub fn available() -> bool {
    is_x86_feature_detected!("avx2")
}

/// Does some work with what the processor has; it must be [`available`].
pub(super) fn done<W: Work, const WIDE: bool>(work: W) -> W::Done {
    #[target_feature(enable = "avx2")]
    fn with_avx2<W: Work, const WIDE: bool>(work: W) -> W::Done {
        work.done::<WIDE>()
    }
    // Callers have checked that the processor has AVX2.
    unsafe { with_avx2::<W, WIDE>(work) }
}

// Each `unsafe` below calls one instruction that reads and writes registers only; all it asks for is a processor that
// knows AVX2, which the head of this file demands.
macro_rules! operators {
    ($($name:ident $verb:ident $instruction:ident),+) => {$(
        impl $name for Four {
            type Output = Self;
            #[inline(always)]
            fn $verb(self, other: Self) -> Self {
                Self(unsafe { $instruction(self.0, other.0) })
            }
        }
        impl $name<f64> for Four {
            type Output = Self;
            #[inline(always)]
            fn $verb(self, other: f64) -> Self {
                $name::$verb(self, Self::all(other))
            }
        }
    )+};
}
operators!(Add add _mm256_add_pd, Sub sub _mm256_sub_pd, Mul mul _mm256_mul_pd, Div div _mm256_div_pd);

impl Neg for Four {
    type Output = Self;
    #[inline(always)]
    fn neg(self) -> Self {
        Self(unsafe { _mm256_xor_pd(self.0, _mm256_set1_pd(-0.0)) })
    }
}

impl Four {
    #[inline(always)]
    pub(super) fn array(self) -> [f64; 4] {
        // The register is laid out as four numbers.
        unsafe { std::mem::transmute(self.0) }
    }
    #[inline(always)]
    pub(super) fn of([a, b, c, d]: [f64; 4]) -> Self {
        Self(unsafe { _mm256_setr_pd(a, b, c, d) })
    }
}

impl Number for Four {
    type Given = Self;
    #[inline(always)]
    fn given(value: Self) -> Self {
        value
    }
    #[inline(always)]
    fn sqrt(self) -> Self {
        Self(unsafe { _mm256_sqrt_pd(self.0) })
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
        Self::of(self.array().map(f64::ln))
    }
    #[inline(always)]
    fn logistic(self) -> Self {
        Self::all(1.0) / (elementary::exponential(-self) + 1.0)
    }
    #[inline(always)]
    fn powf(self, exponent: Self) -> Self {
        let (base, power) = (self.array(), exponent.array());
        Self::of(std::array::from_fn(|lane| base[lane].powf(power[lane])))
    }
    #[inline(always)]
    fn where_positive(self, yes: Self, no: Self) -> Self {
        Self(unsafe {
            let mask = _mm256_cmp_pd::<_CMP_GT_OQ>(self.0, _mm256_setzero_pd());
            _mm256_blendv_pd(no.0, yes.0, mask)
        })
    }
}

impl Register for Four {
    const LANES: usize = 4;
    // The register is laid out as four numbers.
    const ZERO: Self = Self(unsafe { std::mem::transmute::<[f64; 4], __m256d>([0.0; 4]) });
    type Each<'a, E: ?Sized + 'a> = [&'a E; 4];

    #[inline(always)]
    fn all(value: f64) -> Self {
        Self(unsafe { _mm256_set1_pd(value) })
    }
    #[inline(always)]
    fn lane(self, lane: usize) -> f64 {
        self.array()[lane]
    }
    #[inline(always)]
    fn set_lane(&mut self, lane: usize, value: f64) {
        let mut array = self.array();
        array[lane] = value;
        // As above.
        self.0 = unsafe { std::mem::transmute::<[f64; 4], __m256d>(array) };
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
    fn part<'a, E: ?Sized + 'a, F: ?Sized + 'a>(
        each: [&'a E; 4],
        part: impl Fn(&'a E) -> &'a F,
    ) -> [&'a F; 4] {
        let [a, b, c, d] = each;
        [part(a), part(b), part(c), part(d)]
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
        Self(unsafe {
            let upper = _mm256_srli_epi64::<32>(_mm256_castpd_si256(self.0));
            let product = _mm256_mul_epu32(upper, _mm256_set1_epi64x(elementary::A_THIRD as i64));
            let third = _mm256_slli_epi64::<32>(_mm256_srli_epi64::<32>(product));
            let begun = _mm256_sub_epi64(_mm256_set1_epi64x(elementary::THIRD as i64), third);
            _mm256_castsi256_pd(begun)
        })
    }
    #[inline(always)]
    fn power_of_two(self) -> Self {
        Self(unsafe {
            let exponent = _mm256_slli_epi64::<52>(_mm256_castpd_si256(self.0));
            let one = _mm256_set1_epi64x(elementary::EXPONENT_OF_ONE);
            _mm256_castsi256_pd(_mm256_add_epi64(exponent, one))
        })
    }
}

/// There is no wider register.
impl Widen for Four {
    type Wide = Self;
    const ABREAST: usize = 1;

    #[inline(always)]
    fn widen(number: impl Fn(usize) -> Self) -> Self {
        number(0)
    }
    #[inline(always)]
    fn narrow(wide: Self, _: usize) -> Self {
        wide
    }
    #[inline(always)]
    fn wide_each<'a, E: ?Sized + 'a>(thing: impl Fn(usize) -> [&'a E; 4]) -> [&'a E; 4] {
        thing(0)
    }
    #[inline(always)]
    fn work<W: Work>(work: W) -> W::Done {
        done::<W, false>(work)
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

    proptest! {
        #[test]
        fn each_lane_is_what_a_single_number_gives_to_the_last_bit(
            x in prop::array::uniform4(-40.0..40.0_f64),
            y in prop::array::uniform4(-40.0..40.0_f64),
            given in prop::array::uniform4(0.1..3.0_f64),
        ) {
            if !available() {
                return Ok(());
            }
            let together = mixed(Four::of(x), Four::of(y), Four::of(given));
            let linearise = mixed(
                Dual::<2, Four>::variable(Four::of(x), 0),
                Dual::variable(Four::of(y), 1),
                Four::of(given),
            );
            for lane in 0..4 {
                let alone = mixed(x[lane], y[lane], given[lane]);
                prop_assert_eq!(together.lane(lane).to_bits(), alone.to_bits());
                let alone = mixed(
                    Dual::<2>::variable(x[lane], 0),
                    Dual::variable(y[lane], 1),
                    given[lane],
                );
                prop_assert_eq!(linearise.value.lane(lane).to_bits(), alone.value.to_bits());
                for k in 0..2 {
                    prop_assert_eq!(linearise.slopes[k].lane(lane).to_bits(), alone.slopes[k].to_bits());
                }
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
