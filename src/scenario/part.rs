//! A part: one named thing with a mass, a shape, and the axes along which it may be cut.

use crate::quantity::{
    Area, Conductivity, Length, Mass, SpecificHeat, Temperature, TemperatureStep,
};
use serde::{Deserialize, Serialize};

/// A thing that has one temperature, or several along its axes.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Part {
    /// Its name: a word without spaces, unique in the engine.
    pub name: String,
    /// What people call it: `left front cylinder head`.
    pub label: String,
    /// Its mass.
    pub mass: Mass,
    /// Its specific heat.
    pub specific_heat: SpecificHeat,
    /// Its shape; a lump if none is given.
    #[serde(default)]
    pub shape: Shape,
    /// What it is to the person who asks.
    #[serde(default)]
    pub role: Role,
    /// Its temperature just after a flight.
    #[serde(default)]
    pub after_flight: AfterFlight,
}

/// What a part is to the person who asks: only engine parts must be warm.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[allow(non_camel_case_types)]
pub enum Role {
    /// Part of the engine: it counts for "warm everywhere".
    #[default]
    engine,
    /// The carburettor: an engine part that is watched for overheating.
    carburettor,
    /// Cowl skin around the named pocket: watched for overheating, covered by that pocket's blanket.
    skin(String),
    /// Propeller hub or blade: under the propeller's cover, if it has one.
    propeller,
    /// Mount, firewall, baffle, exhaust and the like: carries heat, need not be warm.
    structure,
}

impl Role {
    /// Whether the part must be warm before a start.
    pub fn is_engine(&self) -> bool {
        matches!(self, Self::engine | Self::carburettor)
    }
}

/// A temperature just after a flight.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[allow(non_camel_case_types)]
pub enum AfterFlight {
    /// This temperature.
    at(Temperature),
    /// So much warmer than the hangar.
    above_hangar(TemperatureStep),
}

impl Default for AfterFlight {
    fn default() -> Self {
        Self::above_hangar(TemperatureStep::K(0.0))
    }
}

/// The shape of a part, and how it is cut at a resolution of one, two, ...
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[allow(non_camel_case_types)]
pub enum Shape {
    /// One temperature throughout, never cut.
    #[default]
    lump,
    /// A bar of one section, cut along its length from `start` to `end`.
    bar {
        /// Its length.
        length: Length,
        /// Its cross-section.
        section: Area,
        /// Its conductivity.
        conductivity: Conductivity,
    },
    /// A box, cut along those of its three edges that are named: `start`-`end`, `near`-`far`, `bottom`-`top`.
    block {
        /// Its edges along the three axes.
        size: (Length, Length, Length),
        /// Its conductivity.
        conductivity: Conductivity,
        /// Along which axes it is cut.
        cut: (bool, bool, bool),
    },
    /// A tube or disc, cut along its length (`start`-`end`) and across its wall (`inner`-`outer`).
    tube {
        /// Inner radius.
        inner: Length,
        /// Outer radius.
        outer: Length,
        /// Length, or thickness of a disc.
        length: Length,
        /// Its conductivity.
        conductivity: Conductivity,
        /// Whether it is cut along its length, and across its wall.
        cut: (bool, bool),
    },
    /// A hollow ball, cut from `inner` to `outer`; an inner radius of zero makes it solid.
    shell {
        /// Inner radius.
        inner: Length,
        /// Outer radius.
        outer: Length,
        /// Its conductivity.
        conductivity: Conductivity,
    },
    /// Still oil, in layers from `bottom` to `top`: heated from below it mixes, from above it conducts.
    stack {
        /// Plan area.
        area: Area,
        /// Depth of the oil.
        depth: Length,
        /// Layers at a resolution of one; at higher ones more, none thinner than 2 mm.
        layers: usize,
    },
}

/// A place on a part where something is joined to it or touches it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[allow(non_camel_case_types)]
pub enum Spot {
    /// All of it, without any way through the part's own metal.
    #[default]
    whole,
    /// The first end of its length.
    start,
    /// The last end of its length.
    end,
    /// The near side of a block.
    near,
    /// The far side of a block.
    far,
    /// The underside of a block or of an oil stack.
    bottom,
    /// The upper side of a block or of an oil stack.
    top,
    /// The inner wall of a tube or shell.
    inner,
    /// The outer wall of a tube or shell.
    outer,
}
