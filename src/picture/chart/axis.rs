//! Ranges and ticks of chart axes: round numbers of degrees, whole hours by the clock.

use crate::scenario::clock::NightClock;

/// The smallest span of a vertical axis, in degrees: a night in which nothing moves is a flat line, not noise.
const SMALLEST_SPAN: f64 = 4.0;

/// A range from zero to a round number that holds all these amounts, and its ticks, about as many as `most`; none, or
/// nothing but zeros, gives zero to one.
pub fn amounts(values: impl Iterator<Item = f64>, most: f64) -> ((f64, f64), Vec<f64>) {
    let high = values.filter(|v| v.is_finite()).fold(0.0, f64::max);
    let high = if high > 0.0 { high } else { 1.0 };
    let step = round_step(high / most);
    let steps = (high / step - 1e-9).ceil().max(1.0);
    let ticks = (0..=steps as usize).map(|k| k as f64 * step).collect();
    ((0.0, steps * step), ticks)
}

/// A range of round numbers that holds all these values, and its ticks, about as many as `most`.
///
/// Values that are no numbers are passed over; none at all gives zero to ten.
pub fn round_range(values: impl Iterator<Item = f64>, most: f64) -> ((f64, f64), Vec<f64>) {
    let (mut low, mut high) = values
        .filter(|v| v.is_finite())
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), v| {
            (l.min(v), h.max(v))
        });
    if low > high {
        (low, high) = (0.0, 10.0);
    }
    let short = SMALLEST_SPAN - (high - low);
    if short > 0.0 {
        low -= short / 2.0;
        high += short / 2.0;
    }
    let step = round_step((high - low) / most);
    let (first, last) = ((low / step).floor(), (high / step).ceil());
    let ticks = (0..=(last - first) as usize)
        .map(|k| (first + k as f64) * step)
        .collect();
    ((first * step, last * step), ticks)
}

/// The least of 1, 2, 5, 10, 20, ... (or 0.5, 0.2, 0.1, ...) that is not below `rough`.
fn round_step(rough: f64) -> f64 {
    let decade = 10.0_f64.powf(rough.log10().floor());
    [1.0, 2.0, 5.0]
        .iter()
        .map(|m| m * decade)
        .find(|s| *s >= rough * (1.0 - 1e-9))
        .unwrap_or(10.0 * decade)
}

/// Ticks at whole hours by the clock, as seconds after the beginning, about as many as `most`.
pub fn hour_ticks(clock: &NightClock, end_s: f64, most: f64) -> Vec<f64> {
    let begin = clock.begin_hour();
    let hours = end_s / 3600.0;
    let every = [1.0, 2.0, 3.0, 4.0, 6.0, 12.0, 24.0]
        .into_iter()
        .find(|every| hours / every <= most)
        .unwrap_or((hours / most / 24.0).ceil() * 24.0);
    let first = (begin / every).ceil() * every - begin;
    (0..)
        .map(|k| (first + f64::from(k) * every) * 3600.0)
        .take_while(|t| *t <= end_s)
        .collect()
}

/// A number of degrees on an axis, with a true minus sign: `−10`, or `2.5` where the ticks are finer.
pub fn tick_label(value: f64) -> String {
    let value = if value.abs() < 1e-9 { 0.0 } else { value };
    // To as many digits as it has, so that small ticks are not all written as nothing.
    let told = |digits: &usize| format!("{value:.digits$}");
    let is = |digits: &usize| {
        told(digits)
            .parse()
            .is_ok_and(|t: f64| (t - value).abs() < 1e-6)
    };
    let text = told(&(0..=5).find(is).unwrap_or(1));
    text.replace('-', "\u{2212}")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scenario::clock::{Clock, Moment};

    fn clock(begin: &str) -> NightClock {
        Clock {
            begin: Moment::try_from(begin.to_owned()).unwrap(),
            departure: Moment::try_from("07:30".to_owned()).unwrap(),
            zone: Some("UTC".to_owned()),
        }
        .resolve()
        .unwrap()
    }

    #[test]
    fn a_range_holds_its_values_and_ends_on_ticks() {
        let ((low, high), ticks) = round_range([-12.3, 31.0].into_iter(), 8.0);
        assert_eq!((low, high), (-20.0, 40.0));
        assert_eq!(ticks, [-20.0, -10.0, 0.0, 10.0, 20.0, 30.0, 40.0]);
    }

    #[test]
    fn amounts_begin_at_zero() {
        assert_eq!(
            amounts([0.69].into_iter(), 6.0),
            ((0.0, 0.8), vec![0.0, 0.2, 0.4, 0.6000000000000001, 0.8])
        );
        assert_eq!(amounts([0.0, f64::NAN].into_iter(), 6.0).0, (0.0, 1.0));
    }

    #[test]
    fn a_range_without_span_or_without_numbers_is_still_a_range() {
        let ((low, high), _) = round_range([5.0, 5.0].into_iter(), 8.0);
        assert!(low <= 3.0 && high >= 7.0, "{low} {high}");
        let ((low, high), _) = round_range([f64::NAN].into_iter(), 8.0);
        assert_eq!((low, high), (0.0, 10.0));
    }

    #[test]
    fn hours_are_ticked_where_the_clock_strikes() {
        let c = clock("19:30");
        let told: Vec<_> = hour_ticks(&c, 12.0 * 3600.0, 8.5)
            .iter()
            .map(|t| c.to_text(*t))
            .collect();
        assert_eq!(told, ["20:00", "22:00", "00:00", "02:00", "04:00", "06:00"]);
    }

    #[test]
    fn a_tick_below_zero_has_a_minus_sign() {
        assert_eq!(tick_label(-10.0), "\u{2212}10");
        assert_eq!(tick_label(-1e-12), "0");
        assert_eq!(tick_label(2.5), "2.5");
    }
}
