//! The initial state: temperatures and water of the engine when the night begins.

use crate::document::{choice, model};
use crate::quantity::{Duration, Mass, Temperature};
use std::collections::BTreeMap;

model! {
    /// The state when the night begins.
    pub struct Initial: Default {
        /// Temperatures of the engine.
        pub temperature: InitialTemperature = InitialTemperature::cold_soaked;
        /// Liquid water in or under the oil; it stays from the last flight (5 to 30 g, 15 usual).
        pub water_in_oil: Mass, not_negative(), unit("g", 1e-3), usual(0.0, 200.0, "estimate: 5 to 30 g stay from a flight") = Mass::g(15.0);
    }
}

choice! {
    /// Temperatures of the engine when the night begins.
    #[derive(Default)]
    pub enum InitialTemperature {
        /// As cold as the hangar, the air inside just short of saturation.
        #[default]
        cold_soaked,
        /// Just shut down; no heater is plugged in before the delay is over.
        after_flight {
            /// From shutdown, which is the beginning, to the first plugging in.
            delay: Duration, not_negative();
        },
        /// These temperatures.
        values {
            /// Every part, air volume and gas that is not named.
            all: Temperature, limits(-60.0, 250.0), usual(-60.0, 100.0, "estimate: the coldest nights to an engine just shut down");
            /// Parts by name.
            parts: BTreeMap<String, Temperature>, limits(-60.0, 250.0), usual(-60.0, 100.0, "estimate: the coldest nights to an engine just shut down");
        },
    }
}
