//! Where the night would settle if nothing changed any more.

use super::coldest::Coldest;
use super::readings::{GroupTemperature, groups};
use crate::trace::Legend;
use serde::Serialize;

/// The settled state, everything dry, with the heaters as they stand just before the departure.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Steady {
    /// The coldest engine part.
    pub part: String,
    /// What people call it.
    pub label: String,
    /// Its temperature, °C.
    pub temp_c: f64,
    /// Temperatures of groups of parts.
    pub groups_c: Vec<GroupTemperature>,
}

impl Steady {
    /// The settled state from one value for each of a legend's columns; none if there is no engine part.
    pub fn of(legend: &Legend, row: &[f64]) -> Option<Self> {
        let coldest = Coldest::of(legend, row)?;
        Some(Self {
            part: coldest.part,
            label: coldest.label,
            temp_c: coldest.temp_c,
            groups_c: groups(legend, row),
        })
    }
}
