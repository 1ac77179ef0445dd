//! Numbers as people read them, in the reader's degrees.

use super::columns::Cell;
use crate::findings::{CrossingTime, CrossingTimes, NotReached};
use crate::quantity::Units;

/// A temperature of so many degrees Celsius: `15 °F`, `-9.4 °C`.
pub fn temperature(celsius: f64, units: Units) -> String {
    units.temperature_text(celsius)
}

/// The same to a tenth, where a threshold is so near that whole degrees would hide which side it is on.
#[cfg(feature = "pictures")]
pub fn finely(celsius: f64, units: Units) -> String {
    crate::quantity::Temperature::degC(celsius).to_text(units)
}

/// A temperature with its text.
pub fn degrees(celsius: f64, units: Units) -> Cell {
    Cell::new(celsius, temperature(celsius, units))
}

/// A difference of so many kelvin with its text.
pub fn step(kelvin: f64, units: Units) -> Cell {
    Cell::new(kelvin, units.difference(kelvin))
}

/// The hours to a threshold, to stay, with their text.
pub fn hours(times: &CrossingTimes) -> Cell {
    Cell::new(times.hold.hours(), reach(times))
}

/// Words one after the other, with commas.
pub fn listed(words: impl Iterator<Item = String>) -> String {
    words.collect::<Vec<_>>().join(", ")
}

/// A difference of so many kelvin, with its sign: `+22 °F`, `-1.3 K`.
pub fn difference(kelvin: f64, units: Units) -> String {
    units.difference(kelvin)
}

/// A difference of so many kelvin, without its sign: `22 °F`, `1.3 K`.
pub fn size(kelvin: f64, units: Units) -> String {
    units.size(kelvin)
}

/// A time to a threshold, to stay: `3.4 h`; `already` if it was warm enough throughout; `cooled again` if it came to it
/// and fell below again; `never`.
pub fn reach(times: &CrossingTimes) -> String {
    crossing(times, |hours| format!("{hours:.1} h"))
}

/// The same, with the hours after the first time a heater was on written by `at`.
pub fn crossing(times: &CrossingTimes, at: impl Fn(f64) -> String) -> String {
    match &times.hold {
        CrossingTime::After { hours } if *hours <= 0.0 => "already".to_owned(),
        CrossingTime::After { hours } => at(*hours),
        CrossingTime::Never { .. } if times.lost() => LOST.to_owned(),
        CrossingTime::Never { .. } => "never".to_owned(),
    }
}

/// What came to a threshold and did not stay.
pub const LOST: &str = "cooled again";

/// What that means where a time is given.
pub const LOST_MEANS: &str = "cooled again: was warm, and fell below again.";

/// Most digits after the point of a temperature beside its threshold.
const FINEST_APART: usize = 3;

/// A temperature and a threshold, with as many digits as tell them apart: `39.7 °F` and `40.0 °F`.
pub fn apart(celsius: f64, threshold_c: f64, units: Units) -> (String, String) {
    let text = |celsius: f64, digits: usize| {
        // Minus nothing is nothing.
        let unit = 10_f64.powi(digits as i32);
        let value = (units.temperature(celsius) * unit).round() / unit + 0.0;
        format!("{value:.digits$} {}", units.symbol())
    };
    let usual = match units {
        Units::Celsius => 1,
        Units::Fahrenheit => 0,
    };
    let pair = |digits| (text(celsius, digits), text(threshold_c, digits));
    let apart = |digits: &usize| {
        let (value, threshold) = pair(*digits);
        value != threshold
    };
    pair((usual..=FINEST_APART).find(apart).unwrap_or(usual))
}

/// A time to a threshold in full: a never with the best that was reached, and why.
pub fn in_full(reach: &CrossingTime, units: Units) -> String {
    match reach {
        CrossingTime::After { hours } if *hours <= 0.0 => "from the first switch-on".to_owned(),
        CrossingTime::After { hours } => format!("{hours:.1} h after the first switch-on"),
        CrossingTime::Never {
            horizon_h,
            best_c,
            why,
        } => {
            let best = match best_c.is_finite() {
                true => format!("; the best was {}", temperature(*best_c, units)),
                false => String::new(),
            };
            format!(
                "never within {horizon_h:.1} h{best} ({})",
                not_reached(*why)
            )
        }
    }
}

/// Why something never came to a threshold to stay, without units: the numbers are beside it.
pub fn not_reached(why: NotReached) -> &'static str {
    match why {
        NotReached::NoValue => "there is nothing to look at",
        NotReached::AlwaysBelow => "it was below the threshold all the time",
        NotReached::BelowAgain => {
            "it was warm enough for a while, but below the threshold again at the end"
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_in_the_readers_degrees() {
        assert_eq!(temperature(-9.44, Units::Fahrenheit), "15 °F");
        assert_eq!(temperature(-0.01, Units::Celsius), "0.0 °C");
        assert_eq!(difference(12.5, Units::Fahrenheit), "+22 °F");
        assert_eq!(difference(-1.26, Units::Celsius), "-1.3 K");
        assert_eq!(difference(-0.2, Units::Fahrenheit), "-0.4 °F");
        assert_eq!(size(12.5, Units::Fahrenheit), "22 °F");
    }

    #[test]
    fn a_temperature_beside_its_threshold_has_the_digits_that_differ() {
        let apart = |f: f64, units| {
            let celsius = (f - 32.0) / 1.8;
            let (value, asked) = apart(celsius, (40.0 - 32.0) / 1.8, units);
            format!("{value}, {asked}")
        };
        assert_eq!(apart(39.7, Units::Fahrenheit), "39.7 °F, 40.0 °F");
        assert_eq!(apart(35.2, Units::Fahrenheit), "35 °F, 40 °F");
        assert_eq!(apart(39.98, Units::Celsius), "4.43 °C, 4.44 °C");
        assert_eq!(apart(40.0, Units::Fahrenheit), "40 °F, 40 °F");
    }

    #[test]
    fn a_never_says_why_and_the_best_value() {
        let never = CrossingTime::Never {
            horizon_h: 12.0,
            best_c: 3.46,
            why: NotReached::AlwaysBelow,
        };
        let after = |hours| CrossingTime::After { hours };
        let pair = |hold: &CrossingTime, first: &CrossingTime| CrossingTimes {
            hold: hold.clone(),
            first: first.clone(),
        };
        assert_eq!(reach(&pair(&never, &never)), "never");
        assert_eq!(reach(&pair(&never, &after(2.0))), "cooled again");
        assert_eq!(reach(&pair(&after(3.44), &after(2.0))), "3.4 h");
        assert_eq!(reach(&pair(&after(0.0), &after(0.0))), "already");
        assert_eq!(
            in_full(&never, Units::Celsius),
            "never within 12.0 h; the best was 3.5 °C (it was below the threshold all the time)"
        );
        let nothing = CrossingTime::Never {
            horizon_h: 12.0,
            best_c: f64::NAN,
            why: NotReached::NoValue,
        };
        assert_eq!(
            in_full(&nothing, Units::Celsius),
            "never within 12.0 h (there is nothing to look at)"
        );
    }
}
