//! The whole of a night: one engine, in one hangar, through one span of weather, with its heaters.

use super::circuit::Circuit;
use super::clock::Clock;
use super::cover::Covers;
use super::criteria::Criteria;
use super::engine::Engine;
use super::hangar::Hangar;
use super::heater::Heater;
use super::initial::Initial;
use super::oil::Oil;
use super::uncertain::Uncertain;
use super::weather::Weather;
use crate::document::{Node, from_node, model};
use crate::quantity::Units;
use serde::de::{Deserialize, Deserializer, Error};

model! {
    /// Everything a night is computed from. Built in code or read from a file, it passes the same gate
    /// ([`crate::scenario::check`]) before it is integrated.
    pub struct Scenario {
        /// A name for the night.
        pub title: String;
        /// When it begins and when the aeroplane leaves.
        pub clock: Clock;
        /// The engine and the air around it.
        pub engine: Engine;
        /// The oil in the sump.
        pub oil: Oil;
        /// Plugs, blankets and what is left open.
        pub covers: Covers = Covers::default();
        /// The heaters, each with its own hours.
        pub heaters: Vec<Heater> = Vec::new();
        /// The building.
        pub hangar: Hangar;
        /// The air outdoors.
        pub weather: Weather;
        /// Temperatures and water of the engine when the night begins.
        pub initial: Initial = Initial::default();
        /// The electric circuit the heaters share.
        pub circuit: Circuit = Circuit::default();
        /// When the engine counts as ready, and how long the night is computed.
        pub criteria: Criteria = Criteria::default();
        /// The degrees a reader thinks in.
        pub units: Units = Units::default();
        /// How finely the night is computed.
        pub accuracy: Accuracy = Accuracy::default();
        /// Which numbers are uncertain, and by how much.
        pub uncertain: Uncertain = Uncertain::new();
    }
}

/// A door for JSON and Python: filled into a tree, and read as that.
impl<'de> Deserialize<'de> for Scenario {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from_node(&Node::deserialize(from)?).map_err(D::Error::custom)
    }
}

model! {
    /// How finely the night is computed.
    pub struct Accuracy: Default {
        /// Every part that can be cut is cut into this many cells along each of its axes; 1 to 8.
        pub resolution: usize, limits(Accuracy::RESOLUTION.0 as f64, Accuracy::RESOLUTION.1 as f64) = 1;
        /// The error allowed in one step, as a multiple of the default weights; 0.000001 to 100.
        pub tolerance: f64, limits(Accuracy::TOLERANCE.0, Accuracy::TOLERANCE.1) = 1.0;
        /// The longest time between two samples of the trace, in seconds; 1 to 60, since findings need 60 or less.
        pub sample_s: f64, limits(Accuracy::SAMPLE_S.0, Accuracy::SAMPLE_S.1) = 60.0;
    }
}

impl Accuracy {
    /// The least and the most of `resolution`.
    pub const RESOLUTION: (usize, usize) = (1, 8);
    /// The least and the most of `tolerance`.
    pub const TOLERANCE: (f64, f64) = (1e-6, 100.0);
    /// The least and the most of `sample_s`.
    pub const SAMPLE_S: (f64, f64) = (1.0, 60.0);
}
