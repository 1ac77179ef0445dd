//! Four numbers side by side: what a register of four needs, by plain arithmetic on any processor.

use super::elementary;
use std::array::from_fn;
use std::fmt::Debug;

/// Four numbers side by side. A processor's own register overrides each operation by one instruction.
pub trait Vector: Copy + Debug + 'static {
    /// Four zeros.
    const ZERO: Self;
    /// These four.
    fn of(numbers: [f64; 4]) -> Self;
    /// The four numbers.
    fn array(self) -> [f64; 4];

    /// The same number four times.
    #[inline(always)]
    fn all(value: f64) -> Self {
        Self::of([value; 4])
    }
    /// What a function gives for each.
    #[inline(always)]
    fn map(self, function: impl Fn(f64) -> f64) -> Self {
        Self::of(self.array().map(function))
    }
    /// What a function gives for each pair.
    #[inline(always)]
    fn zip(self, other: Self, function: impl Fn(f64, f64) -> f64) -> Self {
        let (a, b) = (self.array(), other.array());
        Self::of(from_fn(|lane| function(a[lane], b[lane])))
    }
    /// Sums.
    #[inline(always)]
    fn add(self, other: Self) -> Self {
        self.zip(other, |a, b| a + b)
    }
    /// Differences.
    #[inline(always)]
    fn sub(self, other: Self) -> Self {
        self.zip(other, |a, b| a - b)
    }
    /// Products.
    #[inline(always)]
    fn mul(self, other: Self) -> Self {
        self.zip(other, |a, b| a * b)
    }
    /// Quotients.
    #[inline(always)]
    fn div(self, other: Self) -> Self {
        self.zip(other, |a, b| a / b)
    }
    /// Opposites.
    #[inline(always)]
    fn neg(self) -> Self {
        self.map(|a| -a)
    }
    /// Square roots.
    #[inline(always)]
    fn sqrt(self) -> Self {
        self.map(f64::sqrt)
    }
    /// `yes` where this is above zero, `no` elsewhere.
    #[inline(always)]
    fn where_positive(self, yes: Self, no: Self) -> Self {
        let (it, yes, no) = (self.array(), yes.array(), no.array());
        Self::of(from_fn(
            |lane| {
                if it[lane] > 0.0 { yes[lane] } else { no[lane] }
            },
        ))
    }
    /// See [`Register`](super::number::Register).
    #[inline(always)]
    fn inverse_cube_root_begun(self) -> Self {
        self.map(elementary::inverse_cube_root_begun)
    }
    /// See [`Register`](super::number::Register).
    #[inline(always)]
    fn power_of_two(self) -> Self {
        self.map(elementary::power_of_two)
    }
}

impl Vector for [f64; 4] {
    const ZERO: Self = [0.0; 4];
    #[inline(always)]
    fn of(numbers: [f64; 4]) -> Self {
        numbers
    }
    #[inline(always)]
    fn array(self) -> [f64; 4] {
        self
    }
}
