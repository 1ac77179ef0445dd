//! Groups of parts read as one, as a thermometer would.

use serde::Serialize;

/// The temperature of a group.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct GroupTemperature {
    /// Its key in machine output.
    pub key: String,
    /// What people call it.
    pub label: String,
    /// Its temperature, °C.
    pub temp_c: f64,
}
