//! The building: how it follows the outdoors, and how draughty it is.

use crate::quantity::{Duration, Speed, Temperature, TemperatureStep};
use serde::{Deserialize, Serialize};

/// An unheated hangar.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Hangar {
    /// What it is called.
    pub name: String,
    /// How long its air lags behind the outdoors (1.5 h usual, 0.5 breezy, 4 tight).
    pub lag: Duration,
    /// Wind past the cowl when the weather names none (0.1 m/s shut, 0.5 breezy, 1.5 nearly outdoors).
    pub draught: Speed,
    /// Share of a recorded wind that reaches the cowl (0.02 shut, 0.1 breezy, 0.4 nearly outdoors).
    pub draught_share: f64,
    /// Its temperature when the night begins; that of the outdoors if none is given.
    #[serde(default)]
    pub start: Option<Temperature>,
    /// How much warmer the cabin is, behind the firewall.
    #[serde(default)]
    pub cabin_above: TemperatureStep,
    /// Which of its numbers are uncertain.
    #[serde(default)]
    pub unknowns: super::unknowns::Unknowns,
}
