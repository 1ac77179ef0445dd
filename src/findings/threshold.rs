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
use crate::scenario::question::Question;
use crate::trace::{ReadingNote, Trace};
use serde::Serialize;

/// The time to a threshold, or the reason why there is none.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Reach {
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
        /// Why, in words without units (the numbers stand beside it).
        why: String,
    },
}

/// The time to a threshold in both senses.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ReachPair {
    /// After the last time below the threshold (the headline, always).
    pub hold: Reach,
    /// The first crossing upward.
    pub first: Reach,
}

/// The time a group of parts takes.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ReadingReach {
    /// Its key in machine output.
    pub key: String,
    /// What people call it.
    pub label: String,
    /// Its time to the threshold.
    pub reach: ReachPair,
}

/// When the engine was warm. The time of each single part is in the table of parts.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ThresholdFinding {
    /// The threshold, °C.
    pub threshold_c: f64,
    /// Of the coldest engine part at every instant: "warm everywhere".
    pub all_parts: ReachPair,
    /// Of each group of parts.
    pub readings: Vec<ReadingReach>,
    /// The threshold of the mean oil, °C, if one was asked.
    pub oil_threshold_c: Option<f64>,
    /// Of the mean oil against its own threshold, if one was asked and there is oil.
    pub oil: Option<ReachPair>,
}

impl Reach {
    /// The hours, or none for never.
    pub fn hours(&self) -> Option<f64> {
        match self {
            Self::After { hours } => Some(*hours),
            Self::Never { .. } => None,
        }
    }
}

impl ReachPair {
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
            Reach::After {
                hours: (t0 + share * (t1 - t0) - from_s) / 3600.0,
            }
        };
        let never = |why: &str| Reach::Never {
            horizon_h: samples.last().map_or(0.0, |s| (s.0 - from_s) / 3600.0),
            best_c: samples.iter().map(|s| s.1).fold(f64::NAN, f64::max),
            why: why.to_owned(),
        };
        if samples.is_empty() {
            let never = never("there is nothing to look at");
            return Self {
                hold: never.clone(),
                first: never,
            };
        }
        let up = (1..samples.len()).find(|&k| below(samples[k - 1].1) && !below(samples[k].1));
        let first = match up {
            _ if !below(samples[0].1) => Reach::After { hours: 0.0 },
            Some(k) => crossing(k - 1),
            None => never("it was below the threshold all the time"),
        };
        let hold = match samples.iter().rposition(|s| below(s.1)) {
            None => Reach::After { hours: 0.0 },
            Some(k) if k + 1 < samples.len() => crossing(k),
            Some(_) if first.hours().is_some() => {
                never("it was warm enough for a while, but below the threshold again at the end")
            }
            Some(_) => first.clone(),
        };
        Self { hold, first }
    }
}

impl ThresholdFinding {
    /// When the engine of a trace was as warm as the question asks.
    pub fn of(trace: &Trace, question: &Question) -> Self {
        let threshold_c = question.threshold.celsius();
        let from_s = first_on_s(trace);
        let reach = |values: &[f64], x: f64| ReachPair::of(&trace.times_s, values, x, from_s);
        let reading = |note: &ReadingNote| ReadingReach {
            key: note.key.clone(),
            label: note.label.clone(),
            reach: reach(&series(trace, &note.columns), threshold_c),
        };
        let oil_threshold_c = question.oil_threshold.map(|t| t.celsius());
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
