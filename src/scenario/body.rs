//! An engine said part by part: the complete form, which every Layout expands into.

use super::heater::Aim;
use super::joint::{Enclosure, Face, Feed, Joint, Sight};
use super::moisture::GasRoom;
use super::part::{AfterFlight, Part};
use super::unknowns::Unknowns;
use crate::quantity::{Area, Length, MassFlow, Temperature, Volume};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// The parts, what joins them, and the air around and inside them.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Body {
    /// The parts, in the order in which a tie for the coldest is broken.
    pub parts: Vec<Part>,
    /// What is joined to what.
    pub joints: Vec<Joint>,
    /// What touches which air.
    pub faces: Vec<Face>,
    /// What radiates to what.
    pub sights: Vec<Sight>,
    /// Grey enclosures with view factors.
    pub enclosures: Vec<Enclosure>,
    /// Watts fed into parts at all times.
    pub feeds: Vec<Feed>,
    /// Surroundings at a given temperature.
    pub surroundings: Vec<Surrounding>,
    /// Pockets of bay air.
    pub pockets: Vec<Pocket>,
    /// Openings between pockets.
    pub passages: Vec<Passage>,
    /// Level openings through which air is exchanged both ways.
    pub exchanges: Vec<Exchange>,
    /// Openings to the hangar.
    pub gaps: Vec<Gap>,
    /// Slots between fins through which air rises or sinks.
    pub fin_passages: Vec<FinPassage>,
    /// Coefficients of the moving air.
    pub air: AirCoefficients,
    /// The air inside the engine.
    pub gas_room: Option<GasRoom>,
    /// Groups of parts as a thermometer would read them; the keys of `groups_c`.
    pub readings: Vec<Reading>,
    /// One reading a cylinder, for the unevenness.
    pub cylinders: Vec<Reading>,
    /// Main bearings.
    pub bearings: Vec<Bearing>,
    /// The part whose cells are the oil, lowest first.
    pub oil: Option<String>,
    /// Where heaters can be put, by name.
    pub places: BTreeMap<String, Aim>,
    /// Which of its numbers are uncertain.
    pub unknowns: Unknowns,
}

/// Surroundings at a given temperature.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Surrounding {
    /// Its name, for faces and sights.
    pub name: String,
    /// Its temperature.
    pub temperature: SurroundingTemperature,
}

/// The temperature of surroundings.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[allow(non_camel_case_types)]
pub enum SurroundingTemperature {
    /// Steady.
    steady(Temperature),
    /// Straight lines between points: hours after the beginning, and temperature.
    curve(Vec<(f64, Temperature)>),
}

/// A volume of bay air with one temperature.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Pocket {
    /// Its name.
    pub name: String,
    /// What people call it.
    pub label: String,
    /// Its volume.
    pub volume: Volume,
    /// Height of its middle above the cylinder axis.
    pub mid_height: Length,
    /// Section the air flows through, for the speed of the draught.
    pub flow_section: Area,
    /// Its temperature just after a flight.
    #[serde(default)]
    pub after_flight: AfterFlight,
}

/// An opening between two pockets.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Passage {
    /// The pockets it joins.
    pub between: (String, String),
    /// Its area.
    pub area: Area,
    /// Height of its middle.
    pub centre: Length,
    /// How tall it is: then it counts as two halves, a quarter of this above and below its middle.
    #[serde(default)]
    pub tall: Option<Length>,
}

/// A level opening: warm air under cold rises through it as cold sinks.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Exchange {
    /// The lower pocket.
    pub below: String,
    /// The upper pocket.
    pub above: String,
    /// Its area.
    pub area: Area,
}

/// An opening from a pocket to the hangar.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Gap {
    /// The pocket.
    pub pocket: String,
    /// What kind of opening it is: plugs close inlets and outlets.
    pub opening: Opening,
    /// Its area, unplugged.
    pub area: Area,
    /// Height of its middle.
    pub centre: Length,
    /// How tall it is.
    #[serde(default)]
    pub tall: Length,
    /// Level slices it is counted in.
    #[serde(default = "one")]
    pub slices: usize,
    /// Wind pressure on it, as a share of the stagnation pressure.
    pub wind_coefficient: f64,
}

fn one() -> usize {
    1
}

/// The kinds of opening.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[allow(non_camel_case_types)]
pub enum Opening {
    /// Cooling inlet.
    inlet,
    /// Cooling outlet.
    outlet,
    /// Gap round the propeller shaft.
    shaft,
    /// Leaky seam.
    seam,
    /// A cowl side left open.
    side,
}

/// The slots between the fins of one cylinder.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FinPassage {
    /// The pocket under the cylinder.
    pub below: String,
    /// The pocket over it.
    pub above: String,
    /// Flow section.
    pub free_area: Area,
    /// Width of the space between fins.
    pub fin_gap: Length,
    /// Length of the way through.
    pub length: Length,
    /// The finned parts and their fin areas, efficiency counted in.
    pub fins: Vec<(String, Area)>,
}

/// Coefficients of the moving air, common to the whole bay.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct AirCoefficients {
    /// Air exchanged through a level opening when the warmer air lies above.
    pub stable_mix: MassFlow,
    /// Flow coefficient of a level opening when the warmer air lies below.
    pub epstein: f64,
    /// Share of the wind that pumps air through each gap.
    pub gust: f64,
}

impl Default for AirCoefficients {
    fn default() -> Self {
        Self {
            stable_mix: MassFlow::kg_s(1.5e-4),
            epstein: 0.055,
            gust: 0.03,
        }
    }
}

/// Several parts read as one, each with the same weight.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Reading {
    /// Its key in machine output.
    pub key: String,
    /// What people call it.
    pub label: String,
    /// Its parts.
    pub parts: Vec<String>,
}

/// A main bearing: a steel journal in a light-alloy case.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Bearing {
    /// What people call it.
    pub label: String,
    /// The crankshaft part.
    pub crank: String,
    /// The case parts around it.
    pub case: Vec<String>,
    /// Diameter of the journal.
    pub diameter: Length,
}
