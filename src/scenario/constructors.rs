//! What a night is built from in code: constructors for what has no default; all else is a public field.

use super::clock::{Clock, ClockTime};
use super::document::Scenario;
use super::engine::Engine;
use super::hangar::Hangar;
use super::heater::{Heater, HeaterKind, Place};
use super::hours::Hours;
use super::oil::Oil;
use super::weather::Weather;
use crate::quantity::{Power, Temperature};

/// A text that is no clock time.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{0}")]
pub struct ClockError(String);

impl std::str::FromStr for ClockTime {
    type Err = ClockError;
    /// A time of day, such as `20:00`.
    fn from_str(text: &str) -> Result<Self, ClockError> {
        Self::try_from(text.to_owned()).map_err(ClockError)
    }
}

impl Weather {
    /// The same temperature and relative humidity (0 to 1, over ice below freezing) all night, without wind.
    pub fn steady(outdoors: Temperature, humidity: f64) -> Self {
        Self::steady {
            outdoors,
            humidity,
            wind: None,
        }
    }
}

impl Heater {
    /// A heater that is on all night.
    pub fn new(name: &str, kind: HeaterKind, power: Power, place: &str) -> Self {
        Self {
            name: name.to_owned(),
            kind,
            power,
            place: Place::at(place.to_owned()),
            hours: Hours::always,
            thermostat: None,
            self_limiting: None,
            uncertain: Default::default(),
        }
    }

    /// The same heater at a place that the engine names, such as `bottom`.
    pub fn at(mut self, place: &str) -> Self {
        self.place = Place::at(place.to_owned());
        self
    }

    /// The same heater, on from a time of day, such as `20:00`, to the departure.
    ///
    /// *Errors*: no clock time.
    pub fn from(mut self, time: &str) -> Result<Self, ClockError> {
        self.hours = Hours::from(time.parse()?);
        Ok(self)
    }
}

impl Scenario {
    /// A night without heaters: parked covers, cold-soaked, and default criteria, circuit, units and accuracy.
    pub fn new(
        title: &str,
        clock: Clock,
        engine: Engine,
        oil: Oil,
        hangar: Hangar,
        weather: Weather,
    ) -> Self {
        Self {
            title: title.to_owned(),
            clock,
            engine,
            oil,
            covers: Default::default(),
            heaters: Vec::new(),
            hangar,
            weather,
            initial: Default::default(),
            circuit: Default::default(),
            criteria: Default::default(),
            units: Default::default(),
            accuracy: Default::default(),
            uncertain: Default::default(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::degF;

    #[test]
    fn a_heater_and_a_weather_are_built_from_what_has_no_default() {
        let pad = Heater::new("pad", HeaterKind::bonded, Power::W(150.0), "sump-pad");
        assert_eq!(pad.hours, Hours::always);
        let pad = pad.at("bottom").from("20:00").unwrap();
        assert_eq!(pad.place, Place::at("bottom".to_owned()));
        assert_eq!(pad.hours, Hours::from("20:00".parse().unwrap()));
        let error = pad.from("half past eight").unwrap_err().to_string();
        assert!(error.contains("half past eight"), "{error}");
        let Weather::steady { outdoors, wind, .. } = Weather::steady(degF(15.0), 0.8) else {
            panic!("it is steady")
        };
        assert_eq!((outdoors, wind), (degF(15.0), None));
    }
}
