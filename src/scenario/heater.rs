//! The heaters: what they are, where they are put, and when they are on.

use super::hours::Hours;
use crate::quantity::{Conductance, MassFlow, Power, Temperature};
use serde::{Deserialize, Serialize};

/// One heater.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Heater {
    /// What it is called in the results.
    pub name: String,
    /// How it gives off its heat.
    pub kind: HeaterKind,
    /// Electric power.
    pub power: Power,
    /// Where it is put.
    pub place: Place,
    /// When it is plugged in.
    #[serde(default = "always")]
    pub hours: Hours,
    /// Its thermostat.
    #[serde(default)]
    pub thermostat: Option<Thermostat>,
    /// Whether its element limits itself.
    #[serde(default)]
    pub self_limiting: Option<SelfLimiting>,
    /// Which of its numbers are uncertain.
    #[serde(default)]
    pub unknowns: super::unknowns::Unknowns,
}

fn always() -> Hours {
    Hours::always
}

/// How a heater gives off its heat.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[allow(non_camel_case_types)]
pub enum HeaterKind {
    /// An element and a small fan inside the bay.
    bay_fan {
        /// Air through the fan (0.005 to 0.012 kg/s).
        flow: MassFlow,
        /// Air dragged along, as a share of the flow (0.3 to 2).
        entrain: f64,
        /// How much of that comes from the intake pockets (0.1 to 0.9).
        entrain_from_intake: f64,
        /// Conductance from the jet to all it strikes, at strike shares summing to one (6 to 18 W/K).
        strike: Conductance,
    },
    /// A heater outside the cowl that blows hangar air in through a duct.
    ducted {
        /// Air blown in.
        flow: MassFlow,
        /// Share of the power lost in the duct.
        duct_loss: f64,
        /// Air dragged along, as a share of the flow.
        entrain: f64,
        /// Conductance from the jet to all it strikes.
        strike: Conductance,
    },
    /// An element bonded to the metal: pad, ring or plate.
    bonded,
    /// A lamp or radiant panel.
    radiant {
        /// Share of the power that leaves as radiation (0.3 for a lamp behind a guard, 0.6 for a panel).
        radiant_share: f64,
    },
}

/// Where a heater is put: `at("sump-pad")`, or `aimed(strike: [("sump", 1.0)])`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(from = "PlaceSpelt", into = "PlaceSpelt")]
#[allow(non_camel_case_types)]
pub enum Place {
    /// At a place the engine names, such as `top-blowing-right` or `sump-pad`.
    at(String),
    /// Aimed by hand.
    aimed(Aim),
}

/// How a place is spelt: a hand-aimed one without a second pair of brackets.
#[derive(Serialize, Deserialize)]
#[serde(rename = "Place", deny_unknown_fields)]
#[allow(non_camel_case_types)]
enum PlaceSpelt {
    at(String),
    aimed {
        #[serde(default)]
        intake: Vec<(String, f64)>,
        #[serde(default)]
        throw: Vec<(String, f64)>,
        #[serde(default)]
        strike: Vec<(String, f64)>,
    },
}

impl From<PlaceSpelt> for Place {
    fn from(spelt: PlaceSpelt) -> Self {
        match spelt {
            PlaceSpelt::at(name) => Self::at(name),
            PlaceSpelt::aimed {
                intake,
                throw,
                strike,
            } => Self::aimed(Aim {
                intake,
                throw,
                strike,
            }),
        }
    }
}
impl From<Place> for PlaceSpelt {
    fn from(place: Place) -> Self {
        match place {
            Place::at(name) => Self::at(name),
            Place::aimed(aim) => Self::aimed {
                intake: aim.intake,
                throw: aim.throw,
                strike: aim.strike,
            },
        }
    }
}

/// Where a heater takes its air, throws it, and what it heats directly: names and shares.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Aim {
    /// Pockets a bay fan draws from, with shares summing to one.
    pub intake: Vec<(String, f64)>,
    /// Pockets the air is thrown into, with shares summing to one.
    pub throw: Vec<(String, f64)>,
    /// Parts struck by the jet (shares of the strike conductance, need not sum to one),
    /// heated by a bonded element, or seen by a lamp (shares of the power, summing to one).
    pub strike: Vec<(String, f64)>,
}

/// Switches a heater off at `hi` and on again at `lo`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Thermostat {
    /// The part or pocket it feels.
    pub sensor: String,
    /// On again at or below this.
    pub lo: Temperature,
    /// Off at or above this.
    pub hi: Temperature,
}

/// An element whose power falls in a straight line to nothing between two temperatures of its own.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SelfLimiting {
    /// Full power up to here.
    pub full_below: Temperature,
    /// None from here on.
    pub none_above: Temperature,
}
