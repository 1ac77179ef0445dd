//! A plain `f64` as a number of the laws, and as a register of one.

use super::elementary;
use super::number::{Number, Register};

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
    const ZERO: Self = 0.0;
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
    fn four<'a, E: ?Sized + 'a>(each: &'a E) -> [&'a E; 4] {
        [each; 4]
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
}
