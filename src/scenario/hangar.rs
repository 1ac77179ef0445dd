//! The building: how it follows the outdoors, and how much air moves in it.

use crate::document::model;
use crate::quantity::{Duration, Speed, Temperature, TemperatureStep};

model! {
    /// An unheated hangar.
    pub struct Hangar {
        /// What it is called.
        pub name: String;
        /// Time constant with which its air follows the outdoors (1.5 h usual, 0.5 breezy, 4 tight).
        pub time_constant: Duration, above_zero(), unit("h", 3600.0), usual(0.1, 24.0, "estimate: open shed to insulated hall"), example("h(1.5)");
        /// Wind past the cowl when the weather names none (0.1 m/s shut, 0.5 breezy, 1.5 nearly outdoors).
        pub air_speed: Speed, limits(0.0, 30.0), usual(0.02, 3.0, "estimate: still air to nearly outdoors");
        /// Share of a recorded wind that reaches the cowl (0.02 shut, 0.1 breezy, 0.4 nearly outdoors).
        pub wind_fraction: f64, fraction(), usual(0.0, 0.6, "estimate: a hangar slows the wind");
        /// Its temperature when the night begins; that of the outdoors if none is given.
        pub start: Option<Temperature>, limits(-60.0, 60.0) = None;
        /// How much warmer the cabin is, behind the firewall.
        pub cabin_above: TemperatureStep, limits(-40.0, 60.0) = TemperatureStep::K(0.0);
        /// Which of its numbers are uncertain.
        pub uncertain: super::uncertain::Uncertain = super::uncertain::Uncertain::new();
    }
}
