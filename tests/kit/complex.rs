//! A complex number, for slopes by the complex step: `Im f(x + ih) / h`, exact to rounding for any small h.
//!
//! *Source*: W. Squire and G. Trapp, Using complex variables to estimate derivatives of real functions,
//! SIAM Review 40 (1998) 110-112.

use coldsoak::physics::number::Number;
use std::ops::{Add, Div, Mul, Neg, Sub};

/// A complex number.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Complex {
    /// Real part.
    pub re: f64,
    /// Imaginary part.
    pub im: f64,
}

fn c(re: f64, im: f64) -> Complex {
    Complex { re, im }
}

impl Add for Complex {
    type Output = Self;
    fn add(self, o: Self) -> Self {
        c(self.re + o.re, self.im + o.im)
    }
}
impl Sub for Complex {
    type Output = Self;
    fn sub(self, o: Self) -> Self {
        c(self.re - o.re, self.im - o.im)
    }
}
impl Mul for Complex {
    type Output = Self;
    fn mul(self, o: Self) -> Self {
        c(
            self.re * o.re - self.im * o.im,
            self.re * o.im + self.im * o.re,
        )
    }
}
impl Div for Complex {
    type Output = Self;
    fn div(self, o: Self) -> Self {
        let size = o.re * o.re + o.im * o.im;
        c(
            (self.re * o.re + self.im * o.im) / size,
            (self.im * o.re - self.re * o.im) / size,
        )
    }
}
impl Neg for Complex {
    type Output = Self;
    fn neg(self) -> Self {
        c(-self.re, -self.im)
    }
}
impl Add<f64> for Complex {
    type Output = Self;
    fn add(self, o: f64) -> Self {
        c(self.re + o, self.im)
    }
}
impl Sub<f64> for Complex {
    type Output = Self;
    fn sub(self, o: f64) -> Self {
        c(self.re - o, self.im)
    }
}
impl Mul<f64> for Complex {
    type Output = Self;
    fn mul(self, o: f64) -> Self {
        c(self.re * o, self.im * o)
    }
}
impl Div<f64> for Complex {
    type Output = Self;
    fn div(self, o: f64) -> Self {
        c(self.re / o, self.im / o)
    }
}

impl Number for Complex {
    type Given = f64;
    fn given(value: f64) -> Self {
        c(value, 0.0)
    }
    fn sqrt(self) -> Self {
        self.powf(0.5)
    }
    fn cbrt(self) -> Self {
        if self.re < 0.0 {
            -(-self).powf(1.0 / 3.0)
        } else {
            self.powf(1.0 / 3.0)
        }
    }
    fn exp(self) -> Self {
        let size = self.re.exp();
        c(size * self.im.cos(), size * self.im.sin())
    }
    fn ln(self) -> Self {
        c(self.re.hypot(self.im).ln(), self.im.atan2(self.re))
    }
    fn logistic(self) -> Self {
        // (1 + tanh(x/2))/2 by the real functions, so that a large argument does not overflow.
        let (t, tan) = ((0.5 * self.re).tanh(), (0.5 * self.im).tan());
        (c(t, tan) / c(1.0, t * tan) + 1.0) * 0.5
    }
    fn powf(self, exponent: f64) -> Self {
        if self.re == 0.0 && self.im == 0.0 {
            return c(0.0, 0.0);
        }
        let size = self.re.hypot(self.im).powf(exponent);
        let angle = exponent * self.im.atan2(self.re);
        c(size * angle.cos(), size * angle.sin())
    }
    fn where_positive(self, yes: Self, no: Self) -> Self {
        if self.re > 0.0 { yes } else { no }
    }
}
