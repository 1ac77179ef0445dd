//! How warm and how wet the engine is when the night begins.

use crate::quantity::{Duration, Mass, Temperature};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// The state at the beginning.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Start {
    /// How warm.
    pub warmth: Warmth,
    /// Liquid water in or under the oil; it stays from the last flight (5 to 30 g, 15 usual).
    pub water_in_oil: Mass,
}

impl Default for Start {
    fn default() -> Self {
        Self {
            warmth: Warmth::cold_soaked,
            water_in_oil: Mass::g(15.0),
        }
    }
}

/// How warm the engine is when the night begins.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[allow(non_camel_case_types)]
pub enum Warmth {
    /// As cold as the hangar, the air inside just short of saturation.
    #[default]
    cold_soaked,
    /// Just shut down; no heater is plugged in before the delay is over.
    after_flight {
        /// From shutdown, which is the beginning, to the first plugging in.
        delay: Duration,
    },
    /// These temperatures.
    given {
        /// Every part, pocket and gas that is not named.
        all: Temperature,
        /// Parts by name.
        parts: BTreeMap<String, Temperature>,
    },
}
