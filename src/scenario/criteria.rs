//! When the engine counts as ready, and how long the night is computed.

use crate::document::model;
use crate::quantity::{Duration, Mass, Temperature};

model! {
    /// When the engine counts as ready, and how long the night is computed.
    pub struct Criteria: Default {
        /// Every engine part must be at least this warm. Default 40 °F.
        pub min_temperature: Temperature, limits(-60.0, 250.0), usual(-30.0, 60.0, "estimate: makers ask for a few degrees above freezing") = Temperature::degF(40.0);
        /// The mean oil must be at least this warm, if required.
        pub min_oil_temperature: Option<Temperature>, limits(-60.0, 250.0), usual(-30.0, 60.0, "estimate: makers ask for a few degrees above freezing") = None;
        /// Water on the upper inner walls must be less than this. Default 1 g.
        pub water_limit: Mass, not_negative() = Mass::g(1.0);
        /// How long the night is computed; until the departure if none is given.
        pub simulated_time: Option<Duration>, unit("h", 3600.0), limits(0.0, 744.0) = None;
    }
}
