//! The air inside the engine and the walls it can wet.

use super::part::Spot;
use crate::physics::convection::Facing;
use crate::quantity::{Area, Length, Volume};
use serde::{Deserialize, Serialize};

/// The air inside the crankcase, its walls, and the way out.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct GasRoom {
    /// Its volume.
    pub volume: Volume,
    /// The walls it can wet.
    pub walls: Vec<Wall>,
    /// The oil stack whose surface gives off water, if any.
    #[serde(default)]
    pub oil: Option<OilSurface>,
    /// The pocket the breather ends in.
    pub breather: String,
    /// Air exchanged through the breather, in litres per second.
    pub breather_l_s: f64,
    /// Draught through the open filler, in litres per second.
    pub filler_draught_l_s: f64,
    /// Diameter of the filler neck.
    pub filler_diameter: Length,
    /// Temperature of this air just after a flight.
    pub after_flight: super::part::AfterFlight,
}

/// A wall facing the air inside.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Wall {
    /// The part.
    pub part: String,
    /// Where on it.
    #[serde(default)]
    pub at: Spot,
    /// Its area.
    pub area: Area,
    /// Which way it faces.
    pub facing: Facing,
    /// How freely air and vapour reach it: 1 in the open crankcase, 0.12 behind the pushrod tubes.
    pub mass_factor: f64,
    /// Which group it is counted in.
    pub group: WallGroup,
}

/// Groups of inner walls, as water on them matters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[allow(non_camel_case_types)]
pub enum WallGroup {
    /// Upper case, barrels, heads and pistons: where rust hurts.
    upper,
    /// Crankshaft and camshaft.
    crank,
    /// Accessory case.
    accessory,
    /// Lower case and sump, where water drains anyway.
    lower,
}

/// The surface of the oil.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OilSurface {
    /// The part, an oil stack.
    pub part: String,
    /// Its area.
    pub area: Area,
    /// How freely water passes it (0.05 to 1).
    pub oil_film: f64,
}
