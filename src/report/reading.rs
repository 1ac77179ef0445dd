//! What a thermometer at one spot should read: in whole degrees, and how far off that may be.

use crate::findings::SMALL_MARGIN_K;
use crate::quantity::Units;

/// A computed temperature as what a thermometer should read: `41 ± 5 °F`. A cowl closed worse or
/// better than was thought moves the coldest part by as much, so a tenth of a degree would be make-believe.
pub fn words(celsius: f64, units: Units) -> String {
    // Minus nothing is nothing.
    let value = units.temperature(celsius).round() + 0.0;
    let range = units.step(SMALL_MARGIN_K);
    format!("{value} ± {range:.0} {}", units.symbol())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_reading_has_whole_degrees_and_its_range() {
        assert_eq!(words(4.9, Units::Fahrenheit), "41 ± 5 °F");
        assert_eq!(words(-0.3, Units::Celsius), "0 ± 3 °C");
        assert_eq!(words(-7.6, Units::Celsius), "-8 ± 3 °C");
    }
}
