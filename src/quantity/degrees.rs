//! Temperatures by their short names.

use super::temperature::Temperature;

/// The temperature of `number` degrees Celsius.
#[allow(non_snake_case)]
pub const fn degC(number: f64) -> Temperature {
    Temperature::degC(number)
}

/// The temperature of `number` degrees Fahrenheit.
#[allow(non_snake_case)]
pub const fn degF(number: f64) -> Temperature {
    Temperature::degF(number)
}
