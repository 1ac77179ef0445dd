//! Where the night would settle if nothing changed any more.

use super::readings::GroupTemperature;
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
