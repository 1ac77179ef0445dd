//! The keys of a night file.

use super::weather_entry::WeatherEntry;
use super::written_units::HasRanges;
use crate::document::model;
use crate::quantity::{Power, Temperature, Units};
use crate::scenario::circuit::Circuit;
use crate::scenario::clock::Clock;
use crate::scenario::cover::Covers;
use crate::scenario::criteria::Criteria;
use crate::scenario::document::Accuracy;
use crate::scenario::heater::{Place, SelfLimiting, Thermostat};
use crate::scenario::hours::Hours;
use crate::scenario::initial::Initial;
use crate::scenario::uncertain::Uncertain;

/// The oil of a night that names none.
const DEFAULT_OIL: &str = "15w-50";

model! {
    /// What a night file holds. Names are those of built-in models, or, ending in `.ron` or `.csv`, of files
    /// beside it.
    pub struct NightFile {
        /// A name for the night.
        pub title: String, example("\"Tonight\"");
        /// When it begins and when the aeroplane leaves.
        pub clock: Clock, example("(begin: \"19:00\", departure: \"07:30\")");
        /// The engine's name.
        pub engine: String, example("\"flat-four-5l9\"");
        /// The oil's name.
        pub oil: String = DEFAULT_OIL.to_owned();
        /// Plugs, blankets and what is left open.
        pub covers: Covers = Covers::default();
        /// The heaters.
        pub heaters: Vec<HeaterEntry> = Vec::new();
        /// The hangar's name.
        pub hangar: String, example("\"shut\"");
        /// The hangar's temperature when the night begins, in place of its own.
        pub hangar_start: Option<Temperature>, limits(-60.0, 60.0) = None;
        /// The weather.
        pub weather: WeatherEntry, example("steady(outdoors: degC(-12), humidity: 0.8)");
        /// Temperatures and water of the engine when the night begins.
        pub initial: Initial = Initial::default();
        /// The electric circuit.
        pub circuit: Circuit = Circuit::default();
        /// When the engine counts as ready, and how long the night is computed.
        pub criteria: Criteria = Criteria::default();
        /// The temperature unit of results.
        pub units: Units = Units::default();
        /// How finely it is computed.
        pub accuracy: Accuracy = Accuracy::default();
        /// Which numbers are uncertain.
        pub uncertain: Uncertain = Uncertain::new();
    }
}

impl HasRanges for NightFile {
    fn uncertain(&mut self) -> &mut Uncertain {
        &mut self.uncertain
    }
}

model! {
    /// A heater by name, with what is different here.
    pub struct HeaterEntry {
        /// The heater's name.
        pub heater: String, example("\"bay-fan-350w\"");
        /// What it is called in the results.
        pub name: Option<String> = None;
        /// Its power, if not that of the model.
        pub power: Option<Power>, not_negative() = None;
        /// Where it is put, if not at the place of the model.
        pub place: Option<Place>, example("at(\"bottom\")") = None;
        /// When it is plugged in, if not always.
        pub hours: Option<Hours> = None;
        /// Its thermostat, if not that of the model.
        pub thermostat: Option<Thermostat> = None;
        /// Its self-limiting element, if not that of the model.
        pub self_limiting: Option<SelfLimiting> = None;
    }
}
