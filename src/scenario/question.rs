//! What is asked of a night.

use crate::quantity::{Duration, Mass, Temperature};
use serde::{Deserialize, Serialize};

/// When is the engine ready?
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Question {
    /// Every engine part must be at least this warm. Default 40 °F.
    pub threshold: Temperature,
    /// The mean oil must be at least this warm, if asked.
    pub oil_threshold: Option<Temperature>,
    /// Water on the upper inner walls must be less than this. Default 1 g.
    pub water_limit: Mass,
    /// How long the night is followed; until the departure if none is given.
    pub horizon: Option<Duration>,
}

impl Default for Question {
    fn default() -> Self {
        Self {
            threshold: Temperature::degF(40.0),
            oil_threshold: None,
            water_limit: Mass::g(1.0),
            horizon: None,
        }
    }
}
