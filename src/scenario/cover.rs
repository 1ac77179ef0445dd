//! Plugs, blankets, and what is left open.

use crate::quantity::{Area, Length, Resistance};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// What covers the engine bay, and what is left open.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Covers {
    /// Share of the cooling inlets that is closed (0 open, 1 sealed). Default 0.84: parked, obstructed but leaky.
    pub inlet_plug: f64,
    /// Share of the outlet that is closed. Default 0.48.
    pub outlet_plug: f64,
    /// Blankets: the name of a pocket whose skin is covered, and the resistance laid on it.
    pub blankets: BTreeMap<String, Resistance>,
    /// A cover on the propeller, its resistance; 0.45 m2K/W is usual.
    pub propeller: Option<Resistance>,
    /// A cowl side left open.
    pub open_side: Option<OpenSide>,
    /// Whether the oil filler cap is off.
    pub filler_open: bool,
}

impl Default for Covers {
    fn default() -> Self {
        Self {
            inlet_plug: 0.84,
            outlet_plug: 0.48,
            blankets: BTreeMap::new(),
            propeller: None,
            open_side: None,
            filler_open: false,
        }
    }
}

/// A gap where one side of the cowl stands open.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OpenSide {
    /// The pocket it opens into.
    pub pocket: String,
    /// Its area.
    pub area: Area,
    /// Height of its middle above the cylinder axis.
    #[serde(default = "middle")]
    pub centre: Length,
    /// How tall it is.
    #[serde(default = "tall")]
    pub tall: Length,
}

fn middle() -> Length {
    Length::m(0.08)
}
fn tall() -> Length {
    Length::m(0.10)
}
