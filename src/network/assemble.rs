//! A checked scenario laid out as a network. It cannot fail: the gate has seen to that.

use super::frame::{Frame, SURROUNDINGS};
use super::graph::{HeaterSwitch, Network, Sensor};
use super::surroundings::Curve;
use super::{bay, column_info, gas, initial, reach, sights, solids};
use crate::scenario::body::SurroundingTemperature;
use crate::scenario::check::CheckedScenario;
use crate::scenario::initial::InitialTemperature;
use crate::scenario::weather::Weather;

/// Lays a scenario out as a network.
pub fn assemble(checked: &CheckedScenario) -> Network {
    let frame = Frame::new(checked);
    let night_s = checked.clock().night_s();
    let end_s = checked
        .scenario()
        .criteria
        .simulated_time
        .map_or(night_s, |h| h.si());
    let mut net = Network {
        index: frame.index.clone(),
        capacities: vec![1.0; frame.index.states()],
        initial: vec![0.0; frame.index.states()],
        end_s,
        departure_s: night_s,
        inputs: inputs(&frame),
        heaters: heaters(&frame, end_s),
        ..Network::default()
    };
    solids::lay(&frame, &mut net);
    sights::lay(&frame, &mut net);
    bay::lay(&frame, &mut net);
    gas::lay(&frame, &mut net);
    reach::lay(&frame, &mut net);
    // Four of a kind are worked out at once where they look the same way.
    net.laws.surfaces.sort_by_key(|s| s.law.facing as u8);
    net.laws.outdoors.sort_by_key(|o| o.law.facing as u8);
    net.legend = column_info::build(&frame, &net);
    initial::set(&frame, &mut net);
    net
}

/// The curves of the inputs, in the order of their columns.
fn inputs(frame: &Frame) -> Vec<Curve> {
    let scenario = frame.checked.scenario();
    let hangar = &scenario.hangar;
    let mut curves = match &scenario.weather {
        Weather::steady {
            outdoors,
            humidity,
            wind,
        } => vec![
            Curve::steady(outdoors.celsius()),
            Curve::steady(*humidity),
            Curve::steady(wind.map_or(hangar.air_speed.si(), |w| w.si() * hangar.wind_fraction)),
        ],
        Weather::recorded(record) => {
            let begin = frame.checked.clock().begin_unix_s();
            let along = |value: fn(&crate::scenario::weather::Observation) -> f64, factor: f64| {
                Curve::through(
                    record
                        .readings
                        .iter()
                        .map(|r| (r.unix_s - begin, value(r) * factor)),
                )
            };
            vec![
                along(|r| r.temp_c, 1.0),
                along(|r| r.dew_point_c, 1.0),
                along(|r| r.wind_m_s, hangar.wind_fraction),
            ]
        }
    };
    debug_assert_eq!(curves.len(), SURROUNDINGS);
    curves.extend(
        frame
            .body
            .surroundings
            .iter()
            .map(|s| match &s.temperature {
                SurroundingTemperature::steady(t) => Curve::steady(t.celsius()),
                SurroundingTemperature::curve(points) => {
                    Curve::through(points.iter().map(|(h, t)| (h * 3600.0, t.celsius())))
                }
            }),
    );
    curves
}

/// When each heater may be on, and what its thermostat feels.
fn heaters(frame: &Frame, end_s: f64) -> Vec<HeaterSwitch> {
    let scenario = frame.checked.scenario();
    let earliest_s = match &scenario.initial.temperature {
        InitialTemperature::after_flight { delay } => delay.si(),
        _ => 0.0,
    };
    scenario
        .heaters
        .iter()
        .map(|heater| HeaterSwitch {
            spans: heater.hours.spans(frame.checked.clock(), earliest_s, end_s),
            thermostat: heater.thermostat.as_ref().map(|t| Sensor {
                columns: frame.temperature_columns(&t.sensor),
                lo_c: t.on_at.celsius(),
                hi_c: t.off_at.celsius(),
            }),
        })
        .collect()
}
