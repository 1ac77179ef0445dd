//! When a heater is plugged in, by the clock of the night.

use super::clock::{ClockTime, NightClock};
use crate::document::choice;
use crate::quantity::Duration;

choice! {
    /// When a heater is plugged in.
    pub enum Hours {
        /// From the beginning to the end.
        always,
        /// From this clock time to the end.
        from(ClockTime),
        /// Between pairs of clock times.
        between(Vec<(ClockTime, ClockTime)>),
        /// For so long before the departure, until it.
        before_departure(Duration, above_zero()),
        /// Never: it stands unplugged.
        never,
    }
}

impl Hours {
    /// The spans of seconds after the beginning during which the heater is plugged in, in order,
    /// none before `earliest_s` and none after `end_s`.
    pub fn spans(&self, clock: &NightClock, earliest_s: f64, end_s: f64) -> Vec<(f64, f64)> {
        let spans = match self {
            Self::always => vec![(0.0, end_s)],
            Self::from(time) => vec![(clock.seconds_until(*time), end_s)],
            Self::between(pairs) => pairs
                .iter()
                .map(|(on, off)| {
                    let (on, off) = (clock.seconds_until(*on), clock.seconds_until(*off));
                    // A span that is already running when the night begins starts with it.
                    if off < on && off > 0.0 {
                        (0.0, off)
                    } else {
                        (on, off)
                    }
                })
                .collect(),
            Self::before_departure(span) => {
                vec![(clock.night_s() - span.si(), clock.night_s())]
            }
            Self::never => vec![],
        };
        let mut spans: Vec<_> = spans
            .into_iter()
            .map(|(on, off)| (on.max(earliest_s), off.min(end_s)))
            .filter(|(on, off)| off > on)
            .collect();
        spans.sort_by(|a, b| a.0.total_cmp(&b.0));
        spans
    }
}

#[cfg(test)]
mod tests {
    use super::super::clock::{Clock, Moment};
    use super::*;

    #[test]
    fn hours_before_departure_end_with_it() {
        let at = |text: &str| Moment::try_from(text.to_owned()).unwrap();
        let c = Clock {
            begin: at("20:00"),
            departure: at("06:00"),
            zone: None,
        };
        let c = c.resolve().unwrap();
        let last = Hours::before_departure(Duration::min(30.0));
        assert_eq!(last.spans(&c, 0.0, 12.0 * 3600.0), [(34_200.0, 36_000.0)]);
        assert_eq!(Hours::never.spans(&c, 0.0, 1.0), []);
        assert_eq!(Hours::always.spans(&c, 600.0, 3600.0), [(600.0, 3600.0)]);
    }
}
