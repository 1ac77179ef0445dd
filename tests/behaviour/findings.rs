//! Books, switchings and findings of whole nights.

use super::computed;
use crate::kit::{ENGINES, clock, fan, night, pad};
use coldsoak::quantity::Temperature;
use coldsoak::scenario::heater::{SelfLimiting, Thermostat};
use coldsoak::scenario::hours::Hours;
use coldsoak::trace::SwitchCause;

const HANGAR: Temperature = Temperature::degF(15.0);

/// All three engines, parked, cold, 15 g, fan and pad at once: energy and water close to rounding.
#[test]
fn the_books_close_to_rounding() {
    for engine in ENGINES {
        let mut scenario = night(engine, HANGAR, 12);
        scenario.heaters = vec![fan(350.0, "front"), pad(150.0)];
        let ledger = computed(&scenario).ledger;
        assert!(
            ledger.energy_error().abs() < 1e-10,
            "{:e}",
            ledger.energy_error()
        );
        assert!(
            ledger.water_error().abs() < 1e-10,
            "{:e}",
            ledger.water_error()
        );
        let mut broken = ledger;
        broken.drawn_j[0] *= 1.0 + 1e-5;
        assert!(broken.check().is_err());
    }
}

/// Flat-four 3.1 L, parked, cold, 15 g, a 250 W pad between 25 and 30 °C at the sump: the sensor stays between
/// the two once it got there, and every switching is found where it crosses.
#[test]
fn a_thermostat_keeps_its_sensor_between_its_two_temperatures() {
    let mut scenario = night("flat-four-3l1", HANGAR, 12);
    let mut pad = pad(250.0);
    pad.thermostat = Some(Thermostat {
        sensor: "sump_bot".to_owned(),
        on_at: Temperature::degC(25.0),
        off_at: Temperature::degC(30.0),
    });
    scenario.heaters.push(pad);
    let night = computed(&scenario);
    let sump = super::column(&night, "sump_bot_c");
    let made: Vec<_> = night
        .trace
        .switchings
        .iter()
        .filter(|s| s.cause == SwitchCause::Thermostat)
        .collect();
    assert!(made.len() > 10, "{} switchings", made.len());
    for s in &made {
        let at = night.trace.at(s.time_s)[sump];
        let limit = if s.on { 25.0 } else { 30.0 };
        assert!((at - limit).abs() < 1e-3, "{at} at {} s", s.time_s);
    }
    let first = night.trace.index_at(made[0].time_s);
    for k in first..night.trace.len() {
        let at = night.trace.sample(k)[sump];
        assert!((24.999..=30.001).contains(&at), "{at}");
    }
}

/// Flat-four 3.1 L, parked, cold, 15 g, 200 W on top from 22:00 to 04:00: six hours of it, to the joule.
#[test]
fn a_timer_gives_exactly_its_hours() {
    let mut scenario = night("flat-four-3l1", HANGAR, 12);
    let mut fan = fan(200.0, "top-blowing-right");
    fan.hours = Hours::between(vec![(clock("22:00"), clock("04:00"))]);
    scenario.heaters.push(fan);
    let night = computed(&scenario);
    assert!((night.findings.energy.kwh - 1.2).abs() < 1e-9);
    assert_eq!(night.trace.on_spans(0), [(3.0 * 3600.0, 9.0 * 3600.0)]);
}

/// Flat-four 3.1 L, parked, cold, 15 g, a pad of 250 W whose element falls from full to nothing between 20 and
/// 60 °C: it draws less than its rating, and the sump stays under 60 °C.
#[test]
fn a_self_limiting_element_draws_less_as_it_warms() {
    let mut scenario = night("flat-four-3l1", HANGAR, 12);
    let mut pad = pad(250.0);
    pad.thermostat = None;
    pad.self_limiting = Some(SelfLimiting {
        full_power_below: Temperature::degC(20.0),
        zero_power_above: Temperature::degC(60.0),
    });
    scenario.heaters.push(pad);
    let night = computed(&scenario);
    assert!(night.findings.energy.kwh < 2.5);
    assert!(super::at_departure(&night, "sump_bot_c") < 60.0);
}
