//! The record of a night: every column at every sample, and every switching.

use super::column_info::ColumnInfo;
use serde::{Deserialize, Serialize};

/// What was recorded of a night.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub struct Trace {
    /// What each column is.
    pub legend: ColumnInfo,
    /// The times of the samples, seconds after the beginning, rising; at most a minute apart, with one at
    /// every switching, at the departure and at the end.
    pub times_s: Vec<f64>,
    /// The samples, one after the other, each as long as the legend has columns.
    pub values: Vec<f64>,
    /// Every time a heater went on or off.
    pub switchings: Vec<Switching>,
    /// When the aeroplane leaves, seconds after the beginning.
    pub departure_s: f64,
}

/// A heater that went on or off.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Switching {
    /// When, seconds after the beginning.
    pub time_s: f64,
    /// Which heater, in the order of the legend.
    pub heater: usize,
    /// Whether it went on.
    pub on: bool,
    /// What switched it.
    pub cause: SwitchCause,
}

/// What switched a heater.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SwitchCause {
    /// Its hours.
    Hours,
    /// Its thermostat.
    Thermostat,
}

impl Trace {
    /// The sum of all increments of the films between samples until a time, g: what settled on walls, and again what
    /// dried and condensed again.
    pub fn turnover_g(&self, until_s: f64) -> f64 {
        let samples = self.times_s.partition_point(|&t| t <= until_s);
        let of_film = |film: usize| -> f64 {
            // A film may be a rounding error below nothing.
            let films: Vec<f64> = self
                .column(film)
                .take(samples)
                .map(|g| g.max(0.0))
                .collect();
            films.windows(2).map(|w| (w[1] - w[0]).max(0.0)).sum()
        };
        // From plus zero: a sum of none would be minus zero.
        let walls = self.legend.walls.iter();
        walls.fold(0.0, |sum, wall| sum + of_film(wall.film))
    }

    /// The number of samples.
    pub fn len(&self) -> usize {
        self.times_s.len()
    }
    /// Whether nothing was recorded.
    pub fn is_empty(&self) -> bool {
        self.times_s.is_empty()
    }
    /// The values of sample `k`, one a column.
    pub fn sample(&self, k: usize) -> &[f64] {
        let width = self.legend.columns.len();
        &self.values[k * width..(k + 1) * width]
    }
    /// One column over all samples.
    pub fn column(&self, column: usize) -> impl Iterator<Item = f64> + '_ {
        let width = self.legend.columns.len();
        self.values.iter().skip(column).step_by(width).copied()
    }
    /// The index of the last sample at or before this time (the first sample for earlier times).
    pub fn index_at(&self, time_s: f64) -> usize {
        self.times_s
            .partition_point(|&t| t <= time_s)
            .saturating_sub(1)
    }
    /// All columns at a time, by straight lines between samples; the nearest sample outside.
    pub fn at(&self, time_s: f64) -> Vec<f64> {
        let k = self.index_at(time_s);
        let here = self.sample(k);
        if k + 1 >= self.len() || time_s <= self.times_s[k] {
            return here.to_vec();
        }
        let share = (time_s - self.times_s[k]) / (self.times_s[k + 1] - self.times_s[k]);
        here.iter()
            .zip(self.sample(k + 1))
            .map(|(a, b)| a + share * (b - a))
            .collect()
    }
    /// The spans during which a heater was on, as pairs of seconds after the beginning.
    pub fn on_spans(&self, heater: usize) -> Vec<(f64, f64)> {
        let end = self.times_s.last().copied().unwrap_or(0.0);
        let mut spans = Vec::new();
        let mut since = None;
        for s in self.switchings.iter().filter(|s| s.heater == heater) {
            match (since, s.on) {
                (None, true) => since = Some(s.time_s),
                (Some(on), false) => {
                    spans.push((on, s.time_s));
                    since = None;
                }
                _ => {}
            }
        }
        if let Some(on) = since {
            spans.push((on, end));
        }
        spans
    }
}
