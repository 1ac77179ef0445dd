//! Four numbers in one register of an x86-64 processor that has AVX2.
//!
//! Whoever makes the first of these calls [`available`] before: every operation is one instruction that reads and writes
//! registers only, and needs a processor that has AVX2.

#![allow(unsafe_code)]

use super::elementary;
use super::number::Work;
use super::vector::Vector;
use std::arch::x86_64::*;

/// Whether this processor has AVX2.
pub fn available() -> bool {
    is_x86_feature_detected!("avx2")
}

/// Does some work compiled for AVX2, which must be [`available`].
pub fn done<W: Work>(work: W) -> W::Done {
    #[target_feature(enable = "avx2")]
    fn with_avx2<W: Work>(work: W) -> W::Done {
        work.done()
    }
    // The caller has made sure that the processor has AVX2.
    unsafe { with_avx2(work) }
}

impl Vector for __m256d {
    // The register is laid out as four numbers, here and in `array`.
    const ZERO: Self = unsafe { std::mem::transmute::<[f64; 4], __m256d>([0.0; 4]) };
    #[inline(always)]
    fn of([a, b, c, d]: [f64; 4]) -> Self {
        unsafe { _mm256_setr_pd(a, b, c, d) }
    }
    #[inline(always)]
    fn array(self) -> [f64; 4] {
        unsafe { std::mem::transmute(self) }
    }
    #[inline(always)]
    fn all(value: f64) -> Self {
        unsafe { _mm256_set1_pd(value) }
    }
    #[inline(always)]
    fn add(self, other: Self) -> Self {
        unsafe { _mm256_add_pd(self, other) }
    }
    #[inline(always)]
    fn sub(self, other: Self) -> Self {
        unsafe { _mm256_sub_pd(self, other) }
    }
    #[inline(always)]
    fn mul(self, other: Self) -> Self {
        unsafe { _mm256_mul_pd(self, other) }
    }
    #[inline(always)]
    fn div(self, other: Self) -> Self {
        unsafe { _mm256_div_pd(self, other) }
    }
    #[inline(always)]
    fn neg(self) -> Self {
        unsafe { _mm256_xor_pd(self, _mm256_set1_pd(-0.0)) }
    }
    #[inline(always)]
    fn sqrt(self) -> Self {
        unsafe { _mm256_sqrt_pd(self) }
    }
    #[inline(always)]
    fn where_positive(self, yes: Self, no: Self) -> Self {
        unsafe {
            let mask = _mm256_cmp_pd::<_CMP_GT_OQ>(self, _mm256_setzero_pd());
            _mm256_blendv_pd(no, yes, mask)
        }
    }
    #[inline(always)]
    fn inverse_cube_root_begun(self) -> Self {
        unsafe {
            let upper = _mm256_srli_epi64::<32>(_mm256_castpd_si256(self));
            let product = _mm256_mul_epu32(upper, _mm256_set1_epi64x(elementary::A_THIRD as i64));
            let third = _mm256_slli_epi64::<32>(_mm256_srli_epi64::<32>(product));
            let begun = _mm256_sub_epi64(_mm256_set1_epi64x(elementary::THIRD as i64), third);
            _mm256_castsi256_pd(begun)
        }
    }
    #[inline(always)]
    fn power_of_two(self) -> Self {
        unsafe {
            let exponent = _mm256_slli_epi64::<52>(_mm256_castpd_si256(self));
            let one = _mm256_set1_epi64x(elementary::EXPONENT_OF_ONE);
            _mm256_castsi256_pd(_mm256_add_epi64(exponent, one))
        }
    }
}
