//! An engine said part by part: the complete form, which every Layout expands into.

use super::heater::Aim;
use super::joint::{Enclosure, Feed, Joint, RadiationPair, Surface};
use super::moisture::CrankcaseGas;
use super::part::{AfterFlight, Part};
use super::uncertain::Uncertain;
use crate::document::{choice, model};
use crate::quantity::{Area, Length, MassFlow, Temperature, Volume};
use std::collections::BTreeMap;

model! {
    /// The parts, what joins them, and the air around and inside them.
    pub struct Body: Default {
        /// The parts, in the order in which a tie for the coldest is broken.
        pub parts: Vec<Part> = Vec::new();
        /// What is joined to what.
        pub joints: Vec<Joint> = Vec::new();
        /// What touches which air.
        pub surfaces: Vec<Surface> = Vec::new();
        /// What radiates to what.
        pub radiation_pairs: Vec<RadiationPair> = Vec::new();
        /// Grey enclosures with view factors.
        pub enclosures: Vec<Enclosure> = Vec::new();
        /// Watts fed into parts at all times.
        pub feeds: Vec<Feed> = Vec::new();
        /// Surroundings at a given temperature.
        pub surroundings: Vec<Surrounding> = Vec::new();
        /// Volumes of bay air.
        pub air_volumes: Vec<AirVolume> = Vec::new();
        /// Openings between air volumes.
        pub openings: Vec<Opening> = Vec::new();
        /// Level openings through which air is exchanged both ways.
        pub mixing_openings: Vec<MixingOpening> = Vec::new();
        /// Openings to the hangar.
        pub cowl_leaks: Vec<CowlLeak> = Vec::new();
        /// Slots between fins through which air rises or sinks.
        pub fin_passages: Vec<FinPassage> = Vec::new();
        /// Coefficients of the moving air.
        pub air: AirCoefficients = AirCoefficients::default();
        /// The air inside the engine.
        pub crankcase_gas: Option<CrankcaseGas> = None;
        /// Groups of parts as a thermometer would read them; the keys of `groups_c`.
        pub part_groups: Vec<PartGroup> = Vec::new();
        /// One reading a cylinder, for the unevenness.
        pub cylinders: Vec<PartGroup> = Vec::new();
        /// Main bearings.
        pub bearings: Vec<Bearing> = Vec::new();
        /// The part whose cells are the oil, lowest first.
        pub oil: Option<String> = None;
        /// Where heaters can be put, by name.
        pub places: BTreeMap<String, Aim> = BTreeMap::new();
        /// Which of its numbers are uncertain.
        pub uncertain: Uncertain = Uncertain::new();
    }
}

model! {
    /// Surroundings at a given temperature.
    pub struct Surrounding {
        /// Its name, for surfaces and radiation pairs.
        pub name: String;
        /// Its temperature.
        pub temperature: SurroundingTemperature;
    }
}

choice! {
    /// The temperature of surroundings.
    pub enum SurroundingTemperature {
        /// Steady.
        steady(Temperature, limits(-273.15, 2000.0)),
        /// Straight lines between points: hours after the beginning, and temperature.
        curve(Vec<(f64, Temperature)>, limits(-273.15, 2000.0)),
    }
}

model! {
    /// A volume of bay air with one temperature.
    pub struct AirVolume {
        /// Its name.
        pub name: String;
        /// Its name in the results.
        pub label: String;
        /// Its volume.
        pub volume: Volume, above_zero();
        /// Height of its middle above the cylinder axis.
        pub mid_height: Length, limits(-20.0, 20.0);
        /// Section the air flows through, for the speed of the air movement.
        pub flow_section: Area, above_zero();
        /// Its temperature just after a flight.
        pub after_flight: AfterFlight = AfterFlight::default();
    }
}

model! {
    /// An opening between two air volumes.
    pub struct Opening {
        /// The air volumes it joins.
        pub between: (String, String);
        /// Its area.
        pub area: Area, not_negative();
        /// Height of its middle.
        pub centre: Length, limits(-20.0, 20.0);
        /// Its height: then it counts as two halves, a quarter of this above and below its middle.
        pub height: Option<Length>, above_zero() = None;
    }
}

model! {
    /// A level opening: warm air under cold rises through it as cold sinks.
    pub struct MixingOpening {
        /// The lower air volume.
        pub below: String;
        /// The upper air volume.
        pub above: String;
        /// Its area.
        pub area: Area, not_negative();
    }
}

model! {
    /// An opening from an air volume to the hangar.
    pub struct CowlLeak {
        /// The air volume.
        pub pocket: String;
        /// What kind of opening it is: plugs close inlets and outlets.
        pub opening: OpeningKind, example("inlet");
        /// Its area, unplugged.
        pub area: Area, not_negative();
        /// Height of its middle.
        pub centre: Length, limits(-20.0, 20.0);
        /// Its height.
        pub height: Length, not_negative() = Length::m(0.0);
        /// Level slices it is counted in.
        pub slices: usize, limits(1.0, 50.0) = 1;
        /// Wind pressure on it, as a share of the stagnation pressure.
        pub wind_coefficient: f64, limits(-3.0, 1.5);
    }
}

choice! {
    /// The kinds of opening.
    #[derive(Copy, Eq)]
    pub enum OpeningKind {
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
}

model! {
    /// The slots between the fins of one cylinder.
    pub struct FinPassage {
        /// The air volume under the cylinder.
        pub below: String;
        /// The air volume over it.
        pub above: String;
        /// Flow section.
        pub free_area: Area, above_zero();
        /// Width of the space between fins.
        pub fin_gap: Length, above_zero();
        /// Length of the way through.
        pub length: Length, above_zero();
        /// The finned parts and their fin areas, efficiency counted in.
        pub fins: Vec<(String, Area)>, above_zero();
    }
}

model! {
    /// Coefficients of the moving air, common to the whole bay.
    pub struct AirCoefficients: Default {
        /// Air exchanged through a level opening when the warmer air lies above.
        pub stable_mix: MassFlow, not_negative() = MassFlow::kg_s(1.5e-4);
        /// Flow coefficient of a level opening when the warmer air lies below.
        pub epstein: f64, not_negative() = 0.055;
        /// Share of the wind that pumps air through each gap.
        pub gust: f64, not_negative() = 0.03;
    }
}

model! {
    /// Several parts read as one, each with the same weight.
    pub struct PartGroup {
        /// Its key in machine output.
        pub key: String;
        /// Its name in the results.
        pub label: String;
        /// Its parts.
        pub parts: Vec<String>;
    }
}

model! {
    /// A main bearing: a steel journal in a light-alloy case.
    pub struct Bearing {
        /// Its name in the results.
        pub label: String;
        /// The crankshaft part.
        pub crank: String;
        /// The case parts around it.
        pub case: Vec<String>;
        /// Diameter of the journal.
        pub diameter: Length, above_zero();
    }
}
