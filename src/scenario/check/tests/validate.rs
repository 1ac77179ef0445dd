//! Numbers, clock and weather of a spoilt night.

use super::super::{CheckedScenario, check};
use super::{engine, only, shows, sound, spoilt};
use crate::quantity::{Duration, Length, Mass, Power, Temperature};
use crate::scenario::clock::Moment;
use crate::scenario::weather::{Observation, Record, Weather};

#[test]
fn a_sound_night_passes_with_its_aims() {
    let checked: CheckedScenario = check(&sound()).unwrap_or_else(|p| panic!("{p:#?}"));
    assert_eq!(checked.aims().len(), 3);
    assert_eq!(checked.aims()[1].impingement, [("sump".to_owned(), 1.0)]);
    assert_eq!(checked.end_s(), 12.0 * 3600.0);
}

#[test]
fn every_problem_is_told_at_once() {
    let problems = spoilt(|s| {
        s.covers.inlet_plug = 1.2;
        s.accuracy.tolerance = f64::NAN;
        s.circuit.breaker = crate::quantity::Current::A(0.0);
        s.heaters[0].power = Power::W(-3.0);
    });
    let paths: Vec<&str> = problems.iter().map(|p| p.path.as_str()).collect();
    let all = [
        "covers.inlet_plug",
        "heaters[0].power",
        "circuit.breaker",
        "accuracy.tolerance",
    ];
    assert_eq!(paths, all);
}

#[test]
fn numbers_must_be_sane() {
    let p = engine(|b| b.parts[0].mass = Mass::kg(-1.0));
    shows(
        &p,
        "engine.parts[0].mass",
        "`mass` must be above zero; found -1",
        "kg(1)",
    );
    let p = engine(|b| b.air_volumes[0].volume = crate::quantity::Volume::m3(f64::NAN));
    shows(
        &p,
        "engine.air_volumes[0].volume",
        "must be finite; found NaN",
        "",
    );
    let p = engine(|b| b.radiation_pairs[0].emissivities.1 = 0.0);
    shows(
        &p,
        "engine.radiation_pairs[0].emissivities[1]",
        "above 0 and at most 1",
        "",
    );
    let p = engine(|b| b.cowl_leaks[0].height = Length::m(-0.1));
    shows(
        &p,
        "engine.cowl_leaks[0].height",
        "must not be negative",
        "m(0.1)",
    );
    let p = only(spoilt(|s| s.accuracy.resolution = 9));
    shows(&p, "accuracy.resolution", "from 1 to 8; found 9", "");
    let p = only(spoilt(|s| s.accuracy.sample_s = 61.0));
    shows(&p, "accuracy.sample_s", "from 1 to 60", "");
    let p = only(spoilt(|s| {
        s.oil.at_100 = crate::quantity::Viscosity::mm2_s(180.0)
    }));
    shows(&p, "oil.at_100", "oil is thinner when hot", "exchanged");
    let p = only(spoilt(|s| s.circuit.tariff_per_kwh = Some(f64::INFINITY)));
    shows(
        &p,
        "circuit.tariff_per_kwh",
        "must be finite; found inf",
        "",
    );
    let p = only(spoilt(|s| s.initial.water_in_oil = Mass::g(-1.0)));
    shows(&p, "initial.water_in_oil", "must not be negative", "g(1)");
    let p = only(spoilt(|s| {
        s.criteria.min_temperature = Temperature::degC(300.0)
    }));
    shows(
        &p,
        "criteria.min_temperature",
        "from -60 to 250 °C; found 300 °C",
        "",
    );
}

#[test]
fn the_clock_must_make_a_night() {
    let p = only(spoilt(|s| s.clock.zone = Some("Mars/Olympus".into())));
    shows(
        &p,
        "clock.zone",
        "`Mars/Olympus` is not a time zone",
        "continent",
    );
    let p = only(spoilt(|s| {
        s.clock.departure = Moment::try_from("1996-02-03 07:00".to_owned()).unwrap();
    }));
    shows(
        &p,
        "clock.departure",
        "does not come after",
        "the day after",
    );
    let p = only(spoilt(|s| {
        s.criteria.simulated_time = Some(Duration::h(10.0))
    }));
    shows(
        &p,
        "criteria.simulated_time",
        "before the departure, 12.00 h after",
        "leave `simulated_time` out",
    );
}

#[test]
fn recorded_weather_must_cover_the_night() {
    // 4 February 1996 18:00 UTC.
    const BEGIN: f64 = 9530.0 * 86_400.0 + 18.0 * 3600.0;
    let record = |hours: &[f64]| {
        let readings = hours.iter().map(|h| Observation {
            unix_s: BEGIN + h * 3600.0,
            temp_c: -9.0,
            dew_point_c: -12.0,
            wind_m_s: 1.0,
        });
        Weather::recorded(Record {
            name: "own.csv".into(),
            readings: readings.collect(),
        })
    };
    let all: Vec<f64> = (0..=14).map(f64::from).collect();
    let mut covered = sound();
    covered.weather = record(&all);
    check(&covered).unwrap_or_else(|p| panic!("{p:#?}"));

    let p = only(spoilt(|s| {
        s.weather = record(&all);
        s.clock.zone = None;
    }));
    shows(&p, "clock.zone", "needs a time zone", "America/New_York");

    let p = only(spoilt(|s| s.weather = record(&all[..12])));
    shows(
        &p,
        "weather",
        "ends 2.0 h before the night: it runs from 1996-02-04 18:00 UTC to 1996-02-05 05:00 UTC, the night from 1996-02-04 19:00 UTC to 1996-02-05 07:00 UTC",
        "whole night",
    );
    let p = only(spoilt(|s| {
        s.weather = record(&[0.0, 2.0, 6.0, 9.0, 12.0, 14.0])
    }));
    shows(
        &p,
        "weather",
        "no reading between 1996-02-04 20:00 UTC and 1996-02-05 00:00 UTC",
        "three hours",
    );
    let p = only(spoilt(|s| s.weather = record(&[0.0, 2.0, 2.0, 14.0])));
    shows(&p, "weather.readings[2].unix_s", "times must rise", "");
    let p = only(spoilt(|s| s.weather = record(&[])));
    shows(&p, "weather", "is empty", "");
    let p = only(spoilt(|s| {
        s.weather = record(&all);
        s.clock.begin.date = None;
    }));
    shows(&p, "clock.begin", "needs a dated night", "write the day");
    let p = only(spoilt(|s| {
        s.weather = Weather::steady {
            outdoors: Temperature::degC(-9.0),
            humidity: 80.0,
            wind: None,
        };
    }));
    shows(&p, "weather.humidity", "from 0 to 1; found 80", "0.8");
}
