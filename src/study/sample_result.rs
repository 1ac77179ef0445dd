//! What a study keeps of a night: its headlines and a few temperatures, a few kilobytes in all.

use crate::findings::{Coldest, Hazard, forbidding};
use crate::night::Night;
use serde::{Deserialize, Serialize};

/// How far apart the temperatures over time are kept, h.
pub const OUTPUT_INTERVAL_H: f64 = 0.5;

/// The headlines of a night.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct SampleResult {
    /// Whether it was ready at departure.
    pub ready: bool,
    /// Hours from the beginning to the first switching-on.
    pub first_on_h: f64,
    /// Hours from the first switching-on until it stayed warm everywhere; none for never.
    pub warm_h: Option<f64>,
    /// The coldest engine part over the threshold at departure, K; none without engine parts.
    pub margin_k: Option<f64>,
    /// What people call the coldest part.
    pub coldest: Option<String>,
    /// Its temperature, °C.
    pub coldest_c: Option<f64>,
    /// Water on the upper inner walls at departure, g.
    pub upper_g: Option<f64>,
    /// Hours in which some inner wall gathered water.
    pub condensation_h: Option<f64>,
    /// What became too hot, and whether the circuit was overloaded.
    pub hazards: Vec<Hazard>,
    /// The mean oil, °C.
    pub oil_c: Option<f64>,
    /// Its viscosity, mm²/s.
    pub oil_mm2_s: Option<f64>,
    /// Energy drawn, kWh.
    pub kwh: f64,
    /// The temperature of each group at departure, °C.
    pub groups_c: Vec<f64>,
    /// The temperature of each group at 0, 0.5, 1 ... hours until departure, °C.
    pub over_time_c: Vec<Vec<f64>>,
    /// That of the coldest engine part, °C; empty without engine parts.
    pub coldest_over_time_c: Vec<f64>,
}

impl SampleResult {
    /// The headlines of a night.
    pub fn of(night: &Night) -> Self {
        let f = &night.findings;
        let count = (f.departure_h / OUTPUT_INTERVAL_H + 1e-9).floor() as usize;
        let rows: Vec<Vec<f64>> = (0..=count)
            .map(|k| night.trace.at(k as f64 * OUTPUT_INTERVAL_H * 3600.0))
            .collect();
        let over_time = |columns: &[(usize, f64)]| {
            let mean = |row: &Vec<f64>| columns.iter().map(|(c, w)| w * row[*c]).sum();
            rows.iter().map(mean).collect()
        };
        let readings = &night.trace.legend.readings;
        Self {
            ready: f.ready.ready_at_departure,
            first_on_h: f.first_on_h,
            warm_h: f.threshold.all_parts.hold.hours(),
            margin_k: f.ready.margin_k,
            coldest: f.coldest.as_ref().map(|c| c.label.clone()),
            coldest_c: f.coldest.as_ref().map(|c| c.temp_c),
            upper_g: f.condensation.as_ref().map(|c| c.upper_g),
            condensation_h: f.condensation.as_ref().map(|c| c.hours),
            hazards: forbidding(&f.warnings),
            oil_c: f.oil.as_ref().map(|o| o.temp_c),
            oil_mm2_s: f.oil.as_ref().map(|o| o.viscosity_mm2_s),
            kwh: f.energy.kwh,
            groups_c: f.groups_c.iter().map(|g| g.temp_c).collect(),
            over_time_c: readings.iter().map(|r| over_time(&r.columns)).collect(),
            coldest_over_time_c: rows
                .iter()
                .filter_map(|row| Coldest::of(&night.trace.legend, row))
                .map(|coldest| coldest.temp_c)
                .collect(),
        }
    }

    /// Whether it has as many groups and as many temperatures of each as another, as all nights of a study have.
    pub fn is_like(&self, other: &Self) -> bool {
        let counts = |h: &Self| -> Vec<usize> {
            let series = h.over_time_c.iter().chain([&h.coldest_over_time_c]);
            series.map(Vec::len).collect()
        };
        self.groups_c.len() == other.groups_c.len() && counts(self) == counts(other)
    }

    /// Hours from the beginning of the night until warm, with "never" as infinite: what choices that switch on at
    /// different times are compared by.
    pub fn warm_at_h(&self) -> f64 {
        self.first_on_h + self.hours()
    }

    /// Hours until warm, with "never" as infinite.
    pub fn hours(&self) -> f64 {
        self.warm_h.unwrap_or(f64::INFINITY)
    }
}
