//! An independent check of a law's exact slopes: the complex step, `f'(x) = Im f(x + i h) / h`, which has
//! no cancellation, so h can be far below rounding.
//!
//! Source: Squire and Trapp 1998 (from memory), Using complex variables to estimate derivatives of real functions.

use std::ops::{Add, Div, Mul, Neg, Sub};

use coldsoak::physics::number::Number;
use nalgebra::Complex;

/// The step along the imaginary axis.
pub const STEP: f64 = 1e-40;

/// Agreement required of two exact derivatives, relative to the larger of slope and value: rounding through
/// some tens of operations.
pub const ROUNDING: f64 = 1e-11;

/// A complex number as a [`Number`].
#[derive(Debug, Clone, Copy)]
pub struct Stepped(pub Complex<f64>);

impl Stepped {
    /// A variable, stepped or not.
    pub fn new(value: f64, stepped: bool) -> Self {
        Self(Complex::new(value, if stepped { STEP } else { 0.0 }))
    }
}

macro_rules! operators {
    ($($name:ident $verb:ident),+) => {$(
        impl $name for Stepped {
            type Output = Self;
            fn $verb(self, other: Self) -> Self {
                Self($name::$verb(self.0, other.0))
            }
        }
        impl $name<f64> for Stepped {
            type Output = Self;
            fn $verb(self, other: f64) -> Self {
                Self($name::$verb(self.0, other))
            }
        }
    )+};
}
operators!(Add add, Sub sub, Mul mul, Div div);

impl Neg for Stepped {
    type Output = Self;
    fn neg(self) -> Self {
        Self(-self.0)
    }
}

impl Number for Stepped {
    type Given = f64;
    fn given(value: f64) -> Self {
        Self::new(value, false)
    }
    fn sqrt(self) -> Self {
        Self(self.0.sqrt())
    }
    fn cbrt(self) -> Self {
        let (size, angle) = self.0.to_polar();
        Self(Complex::from_polar(size.cbrt(), angle / 3.0))
    }
    fn exp(self) -> Self {
        Self(self.0.exp())
    }
    fn ln(self) -> Self {
        Self(self.0.ln())
    }
    fn logistic(self) -> Self {
        // (1 + tanh(x/2))/2 by the addition theorem: the library's own form overflows beyond 350.
        let half = self.0 * 0.5;
        let (real, imaginary) = (half.re.tanh(), half.im.tan());
        let tanh = Complex::new(real, imaginary) / Complex::new(1.0, real * imaginary);
        Self((tanh + 1.0) * 0.5)
    }
    fn powf(self, exponent: f64) -> Self {
        Self(self.0.powf(exponent))
    }
    fn where_positive(self, yes: Self, no: Self) -> Self {
        if self.0.re > 0.0 { yes } else { no }
    }
}

/// Asserts that a law's dual slopes are those of the complex step, at each of several points.
///
/// `assert_slopes!(|x, y| law(x, y); [1.0, 2.0], [3.0, 4.0])`
macro_rules! assert_slopes {
    (|$($x:ident),+| $law:expr; $($point:expr),+ $(,)?) => {{
        use coldsoak::physics::dual::Dual;
        use $crate::physics::slopes::{ROUNDING, STEP, Stepped};
        const K: usize = [$(stringify!($x)),+].len();
        for point in [$($point),+] {
            let [$($x),+]: [Dual<K>; K] = std::array::from_fn(|i| Dual::variable(point[i], i));
            let dual = $law;
            for which in 0..K {
                let [$($x),+]: [Stepped; K] =
                    std::array::from_fn(|i| Stepped::new(point[i], i == which));
                let stepped = $law;
                let (found, exact) = (dual.slopes[which], stepped.0.im / STEP);
                let size = exact.abs().max(stepped.0.re.abs());
                assert!(
                    (found - exact).abs() <= ROUNDING * size,
                    "slope {which} at {point:?}: {found} against {exact}"
                );
                // The step squared may be left in a value that is exactly zero.
                let off = (dual.value - stepped.0.re).abs();
                assert!(off <= ROUNDING * stepped.0.re.abs() + STEP);
            }
        }
    }};
}
