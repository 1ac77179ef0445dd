//! What is bolted to what, what touches which air, and what sees what.

use super::part::Spot;
use crate::physics::convection::Facing;
use crate::quantity::{Area, Conductance, FilmCoefficient, Length, Power, TemperatureStep};
use serde::{Deserialize, Serialize};

/// A way for heat between two parts.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Joint {
    /// One part, and where on it.
    pub from: (String, Spot),
    /// The other part, and where on it.
    pub to: (String, Spot),
    /// What the joint itself conducts; the way through cut parts comes in series.
    pub contact: Contact,
    /// The area of the joint on a part that is cut; the whole end if none is given.
    #[serde(default)]
    pub footprint: Option<Area>,
}

/// What a joint conducts.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[allow(non_camel_case_types)]
pub enum Contact {
    /// No resistance of its own: one piece of metal.
    perfect,
    /// This much in total, shared over the cells it covers.
    total(Conductance),
    /// Between the shell and the still oil under or over it, half a layer away: mixes when heated from below.
    oil_floor,
}

/// A surface of a part and the air or surroundings it meets.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Face {
    /// The part.
    pub part: String,
    /// Where on it.
    #[serde(default)]
    pub at: Spot,
    /// A pocket, `hangar`, or the name of a surrounding.
    pub meets: String,
    /// Its area.
    pub area: Area,
    /// How heat crosses it.
    pub law: FilmLaw,
}

/// How heat crosses a surface.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[allow(non_camel_case_types)]
pub enum FilmLaw {
    /// Free convection and the draught of the pocket together.
    air {
        /// Length of the surface along the flow.
        length: Length,
        /// Which way it faces.
        facing: Facing,
    },
    /// Fins that only a share of the draught reaches; the free part flows through the fin passage.
    fins {
        /// Length of a fin along the flow.
        length: Length,
        /// Share of the draught that reaches between the fins.
        penetration: f64,
    },
    /// Free convection, wind and radiation to the hangar, under a cover if it has one.
    outdoors {
        /// Length along the wind.
        length: Length,
        /// Which way it faces.
        facing: Facing,
        /// Emissivity of the outside.
        emissivity: f64,
    },
    /// A fixed coefficient.
    fixed(FilmCoefficient),
    /// A coefficient that grows with a power of the temperature difference.
    power {
        /// The coefficient at the difference `at`.
        coefficient: FilmCoefficient,
        /// The difference it is given for.
        at: TemperatureStep,
        /// The exponent: 0.25 for laminar free convection.
        exponent: f64,
    },
}

/// Two surfaces that radiate to each other.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sight {
    /// One part.
    pub from: String,
    /// The other part, `hangar`, or a surrounding.
    pub to: String,
    /// Area of the first.
    pub area: Area,
    /// Emissivities of the two.
    pub emissivities: (f64, f64),
    /// Area of the first over that of the second (0.4 between engine parts and the cowl).
    pub area_ratio: f64,
}

/// Several grey surfaces that see one another.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Enclosure {
    /// Each surface: part, `hangar` or surrounding; its area; its emissivity.
    pub surfaces: Vec<(String, Area, f64)>,
    /// View factors, a row for each surface, each row summing to one.
    pub view: Vec<Vec<f64>>,
}

/// Watts that are always fed into a part: a given flux on its face.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Feed {
    /// The part.
    pub part: String,
    /// Where on it.
    #[serde(default)]
    pub at: Spot,
    /// How much.
    pub power: Power,
}
