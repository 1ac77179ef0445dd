//! The whole of a night: one engine, in one hangar, through one span of weather, with its heaters.

use super::circuit::Circuit;
use super::clock::Clock;
use super::cover::Covers;
use super::engine::Engine;
use super::hangar::Hangar;
use super::heater::Heater;
use super::oil::Oil;
use super::question::Question;
use super::start::Start;
use super::unknowns::Unknowns;
use super::weather::Weather;
use crate::quantity::Units;
use serde::{Deserialize, Serialize};

/// Everything a night is computed from. Built in code or read from a file, it passes the same gate
/// ([`crate::scenario::check`]) before it is marched.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Scenario {
    /// A name for the night.
    pub title: String,
    /// When it begins and when the aeroplane leaves.
    pub clock: Clock,
    /// The engine and the air around it.
    pub engine: Engine,
    /// The oil in the sump.
    pub oil: Oil,
    /// Plugs, blankets and what is left open.
    #[serde(default)]
    pub covers: Covers,
    /// The heaters, each with its own hours.
    #[serde(default)]
    pub heaters: Vec<Heater>,
    /// The building.
    pub hangar: Hangar,
    /// The air outdoors.
    pub weather: Weather,
    /// How warm and how wet the engine is when the night begins.
    #[serde(default)]
    pub start: Start,
    /// The electric circuit the heaters share.
    #[serde(default)]
    pub circuit: Circuit,
    /// What is asked of the night.
    #[serde(default)]
    pub question: Question,
    /// The degrees a reader thinks in.
    #[serde(default)]
    pub units: Units,
    /// How finely the night is computed.
    #[serde(default)]
    pub accuracy: Accuracy,
    /// Which numbers are uncertain, and by how much.
    #[serde(default)]
    pub unknowns: Unknowns,
}

/// How finely the night is computed.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Accuracy {
    /// Every part that can be cut is cut into this many cells along each of its axes; 1 to 8.
    pub resolution: usize,
    /// The error allowed in one step, as a multiple of the default weights; 0.000001 to 100.
    pub tolerance: f64,
    /// The longest time between two samples of the trace, in seconds; 1 to 60, since findings need 60 or less.
    pub sample_s: f64,
}

impl Accuracy {
    /// The least and the most of `resolution`.
    pub const RESOLUTION: (usize, usize) = (1, 8);
    /// The least and the most of `tolerance`.
    pub const TOLERANCE: (f64, f64) = (1e-6, 100.0);
    /// The least and the most of `sample_s`.
    pub const SAMPLE_S: (f64, f64) = (1.0, 60.0);
}

impl Default for Accuracy {
    fn default() -> Self {
        Self {
            resolution: 1,
            tolerance: 1.0,
            sample_s: 60.0,
        }
    }
}
