//! What a thermometer at one spot should read: in whole degrees, and how far off that may be.

use crate::findings::SMALL_MARGIN_K;
use crate::quantity::Units;

/// A computed temperature as what a thermometer should read: `about 41 °F, give or take 5`. A cowl closed worse or
/// better than was thought moves the coldest part by as much, so a tenth of a degree would be make-believe.
pub fn told(celsius: f64, units: Units) -> String {
    // Minus nothing is nothing.
    let value = units.temperature(celsius).round() + 0.0;
    let doubt = units.step(SMALL_MARGIN_K);
    format!("about {value} {}, give or take {doubt:.0}", units.symbol())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_reading_is_told_in_whole_degrees_with_its_doubt() {
        assert_eq!(told(4.9, Units::Fahrenheit), "about 41 °F, give or take 5");
        assert_eq!(told(-0.3, Units::Celsius), "about 0 °C, give or take 3");
        assert_eq!(told(-7.6, Units::Celsius), "about -8 °C, give or take 3");
    }
}
