//! How warm and how wet the engine is when the night begins.

use crate::document::{choice, model};
use crate::quantity::{Duration, Mass, Temperature};
use std::collections::BTreeMap;

model! {
    /// The state at the beginning.
    pub struct Start: Default {
        /// How warm.
        pub warmth: Warmth = Warmth::cold_soaked;
        /// Liquid water in or under the oil; it stays from the last flight (5 to 30 g, 15 usual).
        pub water_in_oil: Mass, not_negative(), unit("g", 1e-3), usual(0.0, 200.0, "estimate: 5 to 30 g stay from a flight") = Mass::g(15.0);
    }
}

choice! {
    /// How warm the engine is when the night begins.
    #[derive(Default)]
    pub enum Warmth {
        /// As cold as the hangar, the air inside just short of saturation.
        #[default]
        cold_soaked,
        /// Just shut down; no heater is plugged in before the delay is over.
        after_flight {
            /// From shutdown, which is the beginning, to the first plugging in.
            delay: Duration, not_negative();
        },
        /// These temperatures.
        given {
            /// Every part, pocket and gas that is not named.
            all: Temperature, limits(-60.0, 250.0), usual(-60.0, 100.0, "estimate: the coldest nights to an engine just shut down");
            /// Parts by name.
            parts: BTreeMap<String, Temperature>, limits(-60.0, 250.0), usual(-60.0, 100.0, "estimate: the coldest nights to an engine just shut down");
        },
    }
}
