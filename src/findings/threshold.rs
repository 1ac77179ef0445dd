//! The time it takes to come to a temperature, in two senses: to stay (hold) and for the first time.
//!
//! ```text
//! hold:  k the last sample below X;  t = t_k + (X - x_k)/(x_k+1 - x_k) (t_k+1 - t_k) - t_on
//! first: k the first sample below X with the next one not below; the same line
//! ```
//!
//! with `t_on` the first time a heater was on. Only what happens from then on is looked at: warm enough throughout
//! is 0. "Never" is a value of its own.

use super::coldest::lowest_series;
use super::readings::{oil_columns, series};
use crate::scenario::criteria::Criteria;
use crate::trace::{ReadingNote, Trace};
use serde::Serialize;

/// The time to a threshold, or the reason why there is none.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum CrossingTime {
    /// It took so long.
    After {
        /// Hours after the first time a heater was on; 0 if it was warm enough from then on.
        hours: f64,
    },
    /// It never came to it within the time followed.
    Never {
        /// How long it was followed, hours after the first time a heater was on.
        horizon_h: f64,
        /// The best it came to in that time, °C; not a number if there was nothing to look at.
        best_c: f64,
        /// Why.
        why: NotReached,
    },
}

/// Why something never came to a threshold to stay.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum NotReached {
    /// There is no value to look at.
    NoValue,
    /// It was below the threshold all the time.
    AlwaysBelow,
    /// It was at the threshold for a while, and below it again at the end.
    BelowAgain,
}

/// The time to a threshold in both senses.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CrossingTimes {
    /// After the last time below the threshold (the headline, always).
    pub hold: CrossingTime,
    /// The first crossing upward.
    pub first: CrossingTime,
}

impl CrossingTimes {
    /// Whether it came to the threshold and fell below it again.
    pub fn lost(&self) -> bool {
        matches!(
            (&self.hold, &self.first),
            (CrossingTime::Never { .. }, CrossingTime::After { .. })
        )
    }
}

/// The time a group of parts takes.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ReadingReach {
    /// Its key in machine output.
    pub key: String,
    /// What people call it.
    pub label: String,
    /// Its time to the threshold.
    pub reach: CrossingTimes,
}

/// When the engine was warm. The time of each single part is in the table of parts.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ThresholdFinding {
    /// The threshold, °C.
    pub threshold_c: f64,
    /// Of the coldest engine part at every instant: "warm everywhere".
    pub all_parts: CrossingTimes,
    /// Of each group of parts.
    pub readings: Vec<ReadingReach>,
    /// The threshold of the mean oil, °C, if one is set.
    pub oil_threshold_c: Option<f64>,
    /// Of the mean oil against its own threshold, if one is set and there is oil.
    pub oil: Option<CrossingTimes>,
}

impl CrossingTime {
    /// The hours, or none for never.
    pub fn hours(&self) -> Option<f64> {
        match self {
            Self::After { hours } => Some(*hours),
            Self::Never { .. } => None,
        }
    }
}

impl CrossingTimes {
    /// The times a sampled quantity takes to a threshold, counted and looked at from a time on.
    ///
    /// *Valid*: samples rising in time; a sample that is no number counts as below.
    pub fn of(times_s: &[f64], values_c: &[f64], threshold_c: f64, from_s: f64) -> Self {
        let samples = since(times_s, values_c, from_s);
        let below = |x: f64| x.is_nan() || x < threshold_c;
        let crossing = |k: usize| {
            let ((t0, x0), (t1, x1)) = (samples[k], samples[k + 1]);
            let share = (threshold_c - x0) / (x1 - x0);
            // A gap in the record ends with the sample after it.
            let share = if share.is_finite() { share } else { 1.0 };
            CrossingTime::After {
                hours: (t0 + share * (t1 - t0) - from_s) / 3600.0,
            }
        };
        let never = |why: NotReached| CrossingTime::Never {
            horizon_h: samples.last().map_or(0.0, |s| (s.0 - from_s) / 3600.0),
            best_c: samples.iter().map(|s| s.1).fold(f64::NAN, f64::max),
            why,
        };
        if samples.is_empty() {
            let never = never(NotReached::NoValue);
            return Self {
                hold: never.clone(),
                first: never,
            };
        }
        let up = (1..samples.len()).find(|&k| below(samples[k - 1].1) && !below(samples[k].1));
        let first = match up {
            _ if !below(samples[0].1) => CrossingTime::After { hours: 0.0 },
            Some(k) => crossing(k - 1),
            None => never(NotReached::AlwaysBelow),
        };
        let hold = match samples.iter().rposition(|s| below(s.1)) {
            None => CrossingTime::After { hours: 0.0 },
            Some(k) if k + 1 < samples.len() => crossing(k),
            Some(_) if first.hours().is_some() => never(NotReached::BelowAgain),
            Some(_) => first.clone(),
        };
        Self { hold, first }
    }
}

impl ThresholdFinding {
    /// When the engine of a trace was as warm as the criteria asks.
    pub fn of(trace: &Trace, criteria: &Criteria) -> Self {
        let threshold_c = criteria.min_temperature.celsius();
        let from_s = first_on_s(trace);
        let reach = |values: &[f64], x: f64| CrossingTimes::of(&trace.times_s, values, x, from_s);
        let reading = |note: &ReadingNote| ReadingReach {
            key: note.key.clone(),
            label: note.label.clone(),
            reach: reach(&series(trace, &note.columns), threshold_c),
        };
        let oil_threshold_c = criteria.min_oil_temperature.map(|t| t.celsius());
        let oil = oil_threshold_c.zip(oil_columns(&trace.legend));
        Self {
            threshold_c,
            all_parts: reach(&lowest_series(trace), threshold_c),
            readings: trace.legend.readings.iter().map(reading).collect(),
            oil_threshold_c,
            oil: oil.map(|(x, columns)| reach(&series(trace, &columns), x)),
        }
    }
}

/// When a sampled quantity that ends below a threshold was at it for the last time, seconds, by a straight line; none if
/// it ends at it or never was.
pub(super) fn lost_at_s(times_s: &[f64], values_c: &[f64], threshold_c: f64) -> Option<f64> {
    let last = values_c.iter().rposition(|x| *x >= threshold_c)?;
    let (t0, x0) = (times_s[last], values_c[last]);
    let (t1, x1) = (*times_s.get(last + 1)?, *values_c.get(last + 1)?);
    Some(t0 + (x0 - threshold_c) / (x0 - x1) * (t1 - t0))
}

/// The first time a heater was on, seconds after the beginning; the beginning itself if none ever was.
pub(super) fn first_on_s(trace: &Trace) -> f64 {
    let ons = trace.switchings.iter().filter(|s| s.on).map(|s| s.time_s);
    let begin = trace.times_s.first().copied().unwrap_or(0.0);
    ons.reduce(f64::min).unwrap_or(begin)
}

/// The samples from a time on, with one at that time by a straight line.
fn since(times_s: &[f64], values: &[f64], from_s: f64) -> Vec<(f64, f64)> {
    let all = || times_s.iter().copied().zip(values.iter().copied());
    let begin = all().zip(all().skip(1)).find_map(|((t0, x0), (t1, x1))| {
        (t0 < from_s && from_s < t1).then(|| (from_s, x0 + (x1 - x0) * (from_s - t0) / (t1 - t0)))
    });
    begin
        .into_iter()
        .chain(all().filter(|s| s.0 >= from_s))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::test_traces::Handmade;

    /// Any threshold that makes round fractions, °C.
    const X: f64 = 4.0;

    fn reach(hours: &[f64], temps_c: &[f64], from_h: f64) -> CrossingTimes {
        let times_s: Vec<f64> = hours.iter().map(|h| h * 3600.0).collect();
        CrossingTimes::of(&times_s, temps_c, X, from_h * 3600.0)
    }
    fn after(reach: &CrossingTime) -> f64 {
        reach.hours().expect("it is reached")
    }

    #[test]
    fn a_dip_counts_for_hold_and_not_for_first_reach() {
        let pair = reach(&[0.0, 1.0, 2.0, 3.0, 4.0], &[0.0, 8.0, 0.0, 5.0, 9.0], 0.0);
        assert!((after(&pair.first) - 0.5).abs() < 1e-12);
        assert!((after(&pair.hold) - 2.8).abs() < 1e-12);
    }

    #[test]
    fn never_tells_the_horizon_the_best_and_the_reason() {
        let pair = reach(&[0.0, 1.0, 2.0, 3.0], &[-9.0, 1.0, 3.5, 2.0], 1.0);
        assert_eq!(pair.hold, pair.first);
        let CrossingTime::Never {
            horizon_h,
            best_c,
            why,
        } = pair.hold
        else {
            panic!("it is never that warm");
        };
        assert_eq!((horizon_h, best_c), (2.0, 3.5));
        assert_eq!(why, NotReached::AlwaysBelow);
    }

    #[test]
    fn reached_and_lost_again_is_never_in_the_hold_sense_only() {
        let pair = reach(&[0.0, 1.0, 2.0], &[0.0, 8.0, 2.0], 0.0);
        assert!((after(&pair.first) - 0.5).abs() < 1e-12);
        let CrossingTime::Never { best_c, why, .. } = pair.hold else {
            panic!("it does not stay");
        };
        assert_eq!(best_c, 8.0);
        assert_eq!(why, NotReached::BelowAgain);
    }

    #[test]
    fn lost_is_only_what_was_warm_and_ends_cold() {
        let lost = |temps_c: &[f64]| reach(&[0.0, 1.0, 2.0], temps_c, 0.0).lost();
        assert!(lost(&[0.0, 8.0, 2.0]) && lost(&[9.0, 8.0, 2.0]));
        assert!(!lost(&[0.0, 8.0, 9.0]), "it stays");
        assert!(!lost(&[9.0, 2.0, 9.0]), "it came back");
        assert!(!lost(&[0.0, 1.0, 2.0]), "it never was warm");
    }

    /// From 10 °C at 4 s to 2 °C at 6 s: 4 °C after three quarters of the way, at 5.5 s.
    #[test]
    fn warmth_is_lost_where_the_line_between_two_samples_crosses_the_threshold() {
        let lost = |temps_c: &[f64]| lost_at_s(&[0.0, 2.0, 4.0, 6.0], temps_c, X);
        assert_eq!(lost(&[0.0, 9.0, 10.0, 2.0]), Some(5.5));
        assert_eq!(
            lost(&[9.0, 0.0, X, 2.0]),
            Some(4.0),
            "at it for the last time"
        );
        assert_eq!(lost(&[0.0, 9.0, 3.0, 10.0]), None, "warm at the end");
        assert_eq!(lost(&[0.0, 1.0, 2.0, 3.0]), None, "never warm");
    }

    #[test]
    fn warm_from_the_first_is_zero_and_exactly_at_the_threshold_is_warm() {
        let pair = reach(&[0.0, 1.0, 2.0], &[X, 5.0, X], 0.0);
        assert_eq!((after(&pair.hold), after(&pair.first)), (0.0, 0.0));
    }

    #[test]
    fn what_happened_before_the_heater_is_not_looked_at() {
        // Hot after a flight, cold when the heater goes on at 1.5 h, warm again by 3 h.
        let pair = reach(&[0.0, 1.0, 2.0, 3.0], &[70.0, 1.0, 2.0, 6.0], 1.5);
        assert!((after(&pair.first) - 1.0).abs() < 1e-12);
        assert_eq!(pair.hold, pair.first);
        // It goes on between two samples: 1 °C at 1 h and 9 °C at 3 h are 3 °C at 1.5 h and 4 °C at 1.75 h.
        let within = reach(&[0.0, 1.0, 3.0], &[70.0, 1.0, 9.0], 1.5);
        assert!((after(&within.first) - 0.25).abs() < 1e-12);
        // Cold before it, warm ever since: no time at all.
        assert_eq!(
            after(&reach(&[0.0, 1.0, 2.0], &[0.0, 8.0, 9.0], 1.0).hold),
            0.0
        );
    }

    #[test]
    fn a_record_with_gaps_or_nothing_in_it_is_never_warm() {
        assert_eq!(reach(&[], &[], 0.0).hold.hours(), None);
        assert_eq!(reach(&[0.0, 1.0], &[f64::NAN; 2], 0.0).hold.hours(), None);
        // Unknown for a while, then known to be warm: from that sample on.
        let pair = reach(&[0.0, 1.0, 2.0], &[f64::NAN, f64::NAN, 9.0], 0.0);
        assert_eq!(after(&pair.hold), 2.0);
    }

    #[test]
    fn all_parts_is_the_time_of_the_lowest_not_the_latest_of_the_times() {
        let mut night = Handmade::hours(&[0.0, 1.0, 2.0, 3.0, 4.0]);
        night.heater("pad", 250.0, &[0.0]);
        night.switch(1.0, 0, true, crate::trace::SwitchCause::Hours);
        // Each is warm for the first time while the other is not.
        let a = night.cell("a", &[0.0, 0.0, 8.0, 0.0, 8.0]).column;
        let b = night.cell("b", &[0.0, 8.0, 0.0, 8.0, 8.0]).column;
        night.cell("skin", &[-20.0]).engine = false;
        night.reading("both", &[a, b]);
        night.oil(&[&[2.0, 2.0, 2.0, 2.0, 12.0], &[4.0, 4.0, 4.0, 4.0, 14.0]]);
        let criteria = Criteria {
            min_temperature: crate::quantity::Temperature::degC(X),
            min_oil_temperature: Some(crate::quantity::Temperature::degC(8.0)),
            ..Criteria::default()
        };
        let found = ThresholdFinding::of(&night.trace(), &criteria);
        assert!((after(&found.all_parts.first) - 2.5).abs() < 1e-12);
        // The mean of both is at 4 from the heater on and never below again.
        assert_eq!(after(&found.readings[0].reach.hold), 0.0);
        assert!((after(&found.oil.expect("a minimum is set").hold) - 2.5).abs() < 1e-12);
    }
}
