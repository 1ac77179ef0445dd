//! Places, shares, air and hours of spoilt heaters.

use super::super::check;
use super::{only, shows, sound, spoilt, time, written};
use crate::quantity::{Area, Duration, Temperature};
use crate::scenario::engine::Engine;
use crate::scenario::heater::{Place, Thermostat};
use crate::scenario::hours::Hours;
use crate::scenario::initial::InitialTemperature;

#[test]
fn a_heater_must_suit_its_place() {
    let share = |share: f64| {
        only(spoilt(move |s| {
            let Engine::body(body) = &mut s.engine else {
                return;
            };
            body.places.get_mut("pad").unwrap().impingement[0].1 = share;
        }))
    };
    shows(
        &share(0.9),
        "heaters[1].place",
        "`impingement` must sum to 1, they sum to 0.9",
        "another kind",
    );
    let p = only(spoilt(|s| s.heaters[1].place = Place::at("duct".into())));
    assert!(p.what.contains("bonded heater"), "{p:?}");
    let p = only(spoilt(|s| s.heaters[2].place = Place::at("top".into())));
    shows(
        &p,
        "heaters[2].place",
        "a ducted heater has no `intake`",
        "another kind",
    );
    let p = only(spoilt(|s| {
        s.heaters[1].thermostat = Some(Thermostat {
            sensor: "upper".into(),
            on_at: Temperature::degC(90.0),
            off_at: Temperature::degC(80.0),
        });
    }));
    shows(
        &p,
        "heaters[1].thermostat.on_at",
        "`on_at` must be below `off_at`",
        "comes on again",
    );
    let p = only(spoilt(|s| {
        let lamp = written(
            r#"(name: "lamp", kind: radiant(radiant_share: 0.3), power: W(100),
                place: aimed(discharge: [("lower", 1.0)], impingement: [("sump", 1.0)]),
                self_limiting: Some((full_power_below: degC(50), zero_power_above: degC(60))))"#,
        );
        s.heaters.push(lamp);
    }));
    shows(
        &p,
        "heaters[3].self_limiting",
        "cannot limit itself",
        "thermostat",
    );
}

#[test]
fn blown_air_must_find_a_way_out() {
    let p = only(spoilt(|s| s.covers.outlet_plug = 1.0));
    shows(
        &p,
        "heaters[2].place",
        "`duct` blows air, but the air volumes `lower` and `upper` have nowhere",
        "open a plug",
    );
    let shut = spoilt(|s| {
        if let Engine::body(body) = &mut s.engine {
            body.openings[0].area = Area::m2(0.0);
        }
    });
    let paths: Vec<&str> = shut.iter().map(|p| p.path.as_str()).collect();
    assert_eq!(paths, ["heaters[0].place", "heaters[2].place"]);
    assert!(
        shut[0].what.contains("the air volume `upper` has nowhere"),
        "{shut:?}"
    );
}

#[test]
fn hours_must_lie_within_the_night() {
    let hours = |hours: Hours| only(spoilt(move |s| s.heaters[0].hours = hours));
    let p = hours(Hours::from(time("12:00")));
    shows(
        &p,
        "heaters[0].hours",
        "12:00 is not within the night, which runs from 19:00 to 07:00",
        "`always`",
    );
    let p = hours(Hours::before_departure(Duration::h(13.0)));
    shows(
        &p,
        "heaters[0].hours",
        "13.00 h before the departure",
        "always",
    );
    let pair = |on: &str, off: &str| (time(on), time(off));
    let p = hours(Hours::between(vec![
        pair("22:00", "01:00"),
        pair("00:30", "02:00"),
    ]));
    shows(
        &p,
        "heaters[0].hours",
        "before the hours named before them are over",
        "order",
    );
    let p = hours(Hours::between(vec![pair("22:00", "22:00")]));
    shows(&p, "heaters[0].hours", "are empty", "order");
    let p = hours(Hours::between(vec![pair("03:00", "02:00")]));
    shows(
        &p,
        "heaters[0].hours",
        "02:00 does not come after 03:00",
        "order",
    );
    let p = only(spoilt(|s| {
        s.initial.temperature = InitialTemperature::after_flight {
            delay: Duration::h(4.0),
        };
        s.heaters[0].hours = Hours::between(vec![pair("20:00", "21:00")]);
    }));
    shows(
        &p,
        "heaters[0].hours",
        "over before `fan` is plugged in, 4.00 h",
        "",
    );
    // A timer that runs past the departure is common practice and is no fault.
    let mut late = sound();
    late.heaters[0].hours = Hours::between(vec![pair("18:00", "20:00"), pair("05:00", "09:00")]);
    check(&late).unwrap_or_else(|p| panic!("{p:#?}"));
}
