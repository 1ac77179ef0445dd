//! The air outdoors: steady, or as a station recorded it.

use crate::quantity::{Speed, Temperature};
use serde::{Deserialize, Serialize};

/// The weather of the night.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[allow(non_camel_case_types)]
pub enum Weather {
    /// The same all night.
    steady {
        /// Temperature outdoors.
        outdoors: Temperature,
        /// Relative humidity, over ice below freezing (0.8 usual).
        humidity: f64,
        /// Wind outdoors; none leaves the hangar its own draught.
        #[serde(default)]
        wind: Option<Speed>,
    },
    /// As recorded.
    recorded(Record),
}

/// A station's readings, in order of time, with straight lines between them.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Record {
    /// Station and source.
    pub name: String,
    /// Each reading.
    pub readings: Vec<Observation>,
}

/// One reading.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Observation {
    /// Seconds since 1970 UTC.
    pub unix_s: f64,
    /// Air temperature, °C.
    pub temp_c: f64,
    /// Dew point over liquid water at all temperatures, °C.
    pub dew_point_c: f64,
    /// Wind speed, m/s.
    pub wind_m_s: f64,
}
