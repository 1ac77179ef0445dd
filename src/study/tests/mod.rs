//! A night for the tests of studies: the small engine with a fan on top.

use crate::files::library::{Kind, model};
use crate::quantity::Temperature;
use crate::scenario::clock::{Clock, Moment};
use crate::scenario::document::Scenario;
use crate::scenario::heater::Heater;
use crate::scenario::weather::Weather;

/// The small engine in a shut hangar at 15 °F, a 250 W fan on top all night.
pub fn scenario() -> Scenario {
    Scenario {
        title: "a test night".to_owned(),
        clock: Clock {
            begin: Moment::try_from("19:00".to_owned()).unwrap(),
            departure: Moment::try_from("07:00".to_owned()).unwrap(),
            zone: Some("UTC".to_owned()),
        },
        engine: model(Kind::Engine, "flat-four-3l1").unwrap(),
        oil: model(Kind::Oil, "15w-50").unwrap(),
        covers: Default::default(),
        heaters: vec![model::<Heater>(Kind::Heater, "bay-fan-250w").unwrap()],
        hangar: model(Kind::Hangar, "shut").unwrap(),
        weather: Weather::steady {
            outdoors: Temperature::degF(15.0),
            humidity: 0.8,
            wind: None,
        },
        initial: Default::default(),
        circuit: Default::default(),
        criteria: Default::default(),
        units: Default::default(),
        accuracy: Default::default(),
        uncertain: Default::default(),
    }
}
