//! What the tests build nights from; the unit tests and the benches use it too.
#![allow(dead_code)]

pub mod bench;
pub mod complex;
pub mod record;

use coldsoak::document::{Read, Source, read};
use coldsoak::quantity::{Mass, Power, Temperature};
use coldsoak::scenario::clock::{Clock, ClockTime, Moment};
use coldsoak::scenario::cover::Covers;
use coldsoak::scenario::document::{Accuracy, Scenario};
use coldsoak::scenario::engine::Engine;
use coldsoak::scenario::hangar::Hangar;
use coldsoak::scenario::heater::{Heater, Place};
use coldsoak::scenario::hours::Hours;
use coldsoak::scenario::initial::{Initial, InitialTemperature};
use coldsoak::scenario::oil::Oil;
use coldsoak::scenario::weather::Weather;
use proptest::prelude::ProptestConfig;
use proptest::test_runner::FileFailurePersistence;

/// So many random cases; what failed once is kept beside the test, in a file that ends in `.regressions`.
pub fn cases(count: u32) -> ProptestConfig {
    ProptestConfig {
        failure_persistence: Some(Box::new(FileFailurePersistence::WithSource("regressions"))),
        ..ProptestConfig::with_cases(count)
    }
}

/// A built-in model.
pub fn model<T: Read>(path: &str) -> T {
    let file = format!("{}/models/{path}.ron", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(&file).unwrap_or_else(|e| panic!("{file}: {e}"));
    let reading = read::<T>(&Source::new(&file, &text));
    assert_eq!(reading.errors.count(), 0, "{}", reading.errors);
    reading.value.expect("a value without errors")
}

/// The three engine classes.
pub const ENGINES: [&str; 3] = ["flat-four-3l1", "flat-four-5l9", "flat-six-8l5"];

/// Parked coverings.
pub fn parked() -> Covers {
    Covers::default()
}

/// Plugged coverings.
pub fn plugged() -> Covers {
    Covers {
        inlet_plug: 0.97,
        outlet_plug: 0.60,
        ..Covers::default()
    }
}

/// A night of so many hours from 19:00 in a hangar held at this temperature, without heaters: cold-soaked,
/// parked coverings, 15 g of water in the oil, 80 percent humidity, still (0.1 m/s).
pub fn night(engine: &str, hangar: Temperature, hours: u32) -> Scenario {
    let engine: Engine = model(&format!("engines/{engine}"));
    let departure = format!("{:02}:00", (19 + hours) % 24);
    Scenario {
        title: "a test night".to_owned(),
        clock: Clock {
            begin: Moment::try_from("19:00".to_owned()).unwrap(),
            departure: Moment::try_from(departure).unwrap(),
            zone: Some("UTC".to_owned()),
        },
        engine,
        oil: model::<Oil>("oils/15w-50"),
        covers: parked(),
        heaters: vec![],
        hangar: Hangar {
            start: Some(hangar),
            ..model::<Hangar>("hangars/shut")
        },
        weather: Weather::steady {
            outdoors: hangar,
            humidity: 0.8,
            wind: None,
        },
        initial: Initial {
            temperature: InitialTemperature::cold_soaked,
            water_in_oil: Mass::g(15.0),
        },
        circuit: Default::default(),
        criteria: Default::default(),
        units: Default::default(),
        accuracy: Accuracy::default(),
        uncertain: Default::default(),
    }
}

/// A built-in heater with this power at this place, on all night.
pub fn heater(file: &str, power: f64, place: &str) -> Heater {
    Heater {
        power: Power::W(power),
        place: Place::at(place.to_owned()),
        hours: Hours::always,
        ..model::<Heater>(&format!("heaters/{file}"))
    }
}

/// A bay fan heater on all night.
pub fn fan(power: f64, place: &str) -> Heater {
    heater("bay-fan-350w", power, place)
}

/// A sump pad on all night.
pub fn pad(power: f64) -> Heater {
    heater("sump-pad-150w", power, "sump-pad")
}

/// A time of day.
pub fn clock(text: &str) -> ClockTime {
    ClockTime::try_from(text.to_owned()).unwrap()
}
