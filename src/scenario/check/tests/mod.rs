//! One small sound night, and the many ways to spoil it: each is reported with its path, its words and its help.

mod engine;
mod heaters;
mod validate;

use super::{Problem, check};
use crate::document;
use crate::scenario::body::Body;
use crate::scenario::clock::ClockTime;
use crate::scenario::document::Scenario;
use crate::scenario::engine::Engine;

const SOUND: &str = r#"(
    title: "a small engine",
    clock: (begin: "1996-02-04 19:00", departure: "07:00", zone: "UTC"),
    engine: body((
        parts: [
            (name: "case", label: "case", mass: kg(10), specific_heat: J_kgK(900),
                shape: block(size: (m(0.3), m(0.2), m(0.1)), conductivity: W_mK(135), cut: (true, true, true))),
            (name: "sump", label: "sump", mass: kg(3), specific_heat: J_kgK(900)),
            (name: "oil", label: "oil", mass: kg(5), specific_heat: J_kgK(1900),
                shape: stack(area: m2(0.05), depth: m(0.1), layers: 4)),
            (name: "cowl", label: "cowl", mass: kg(2), specific_heat: J_kgK(900), role: skin("upper")),
        ],
        joints: [
            (from: ("case", bottom), to: ("sump", whole), contact: total(W_K(5)), footprint: m2(0.05)),
            (from: ("sump", whole), to: ("oil", bottom), contact: oil_floor),
        ],
        surfaces: [
            (part: "case", at: top, meets: "upper", area: m2(0.06), law: air(length: m(0.2), facing: up)),
            (part: "cowl", meets: "upper", area: m2(0.5), law: air(length: m(0.3), facing: down)),
            (part: "cowl", meets: "hangar", area: m2(0.5), law: outdoors(length: m(0.5), facing: up, emissivity: 0.85)),
        ],
        radiation_pairs: [(from: "case", to: "cowl", area: m2(0.06), emissivities: (0.4, 0.4), area_ratio: 0.4)],
        air_volumes: [
            (name: "upper", label: "upper", volume: L(30), mid_height: m(0.1), flow_section: m2(0.05)),
            (name: "lower", label: "lower", volume: L(30), mid_height: m(-0.1), flow_section: m2(0.05)),
        ],
        openings: [(between: ("upper", "lower"), area: m2(0.01), centre: m(0))],
        cowl_leaks: [(pocket: "lower", opening: outlet, area: m2(0.03), centre: m(-0.3), wind_coefficient: -0.1)],
        crankcase_gas: Some((
            volume: L(9), breather: "lower", breather_l_s: 0.002, filler_flow_l_s: 0.003,
            filler_diameter: m(0.045), after_flight: at(degC(75)),
            walls: [(part: "case", area: m2(0.1), facing: down, mass_factor: 1.0, group: upper)],
            oil: Some((part: "oil", area: m2(0.05), oil_film: 0.2)),
        )),
        part_groups: [(key: "case", label: "case", parts: ["case"])],
        oil: Some("oil"),
        places: {
            "top": (intake: [("lower", 1.0)], discharge: [("upper", 1.0)], impingement: [("case", 0.5)]),
            "duct": (discharge: [("upper", 1.0)]),
            "pad": (impingement: [("sump", 1.0)]),
        },
    )),
    oil: (grade: "15W-50", at_40: mm2_s(130), at_100: mm2_s(18), pour_point: degC(-30)),
    heaters: [
        (name: "fan", power: W(350), place: at("top"),
            kind: bay_fan(flow: g_s(7.5), entrainment: 0.95, entrainment_from_intake: 0.45, impingement: W_K(12))),
        (name: "pad", kind: bonded, power: W(150), place: at("pad"), hours: before_departure(min(30)),
            thermostat: Some((sensor: "sump", on_at: degC(80), off_at: degC(90)))),
        (name: "duct", power: W(1500), place: at("duct"),
            kind: ducted(flow: g_s(30), duct_loss: 0.2, entrainment: 0.5, impingement: W_K(0))),
    ],
    hangar: (name: "shut", time_constant: h(1.5), air_speed: m_s(0.1), wind_fraction: 0.02),
    weather: steady(outdoors: degC(-9), humidity: 0.8),
)"#;

fn sound() -> Scenario {
    written(SOUND)
}

/// A value from its text.
fn written<T: document::Read>(text: &str) -> T {
    let reading = document::read::<T>(&document::Source::new("test", text));
    assert_eq!(reading.errors.count(), 0, "{}", reading.errors);
    reading.value.unwrap()
}

/// The problems of the sound night, spoilt.
fn spoilt(spoil: impl FnOnce(&mut Scenario)) -> Vec<Problem> {
    let mut scenario = sound();
    spoil(&mut scenario);
    check(&scenario)
        .map(|_| ())
        .expect_err("nothing was found wrong")
}

/// The only problem of the sound night, with its engine spoilt.
fn engine(spoil: impl FnOnce(&mut Body)) -> Problem {
    only(spoilt(|s| match &mut s.engine {
        Engine::body(body) => spoil(body),
        Engine::opposed(_) => unreachable!("the small engine is explicit"),
    }))
}

fn only(mut problems: Vec<Problem>) -> Problem {
    assert_eq!(problems.len(), 1, "{problems:#?}");
    problems.remove(0)
}

/// Asserts path, a phrase of what is wrong, and a phrase of the help or of what to write ("" for none).
#[track_caller]
fn shows(problem: &Problem, path: &str, what: &str, help: &str) {
    assert_eq!(problem.path, path, "{problem:?}");
    assert!(problem.what.contains(what), "{problem:?}");
    let said = problem.help.as_ref().or(problem.instead.as_ref());
    let said = said.map_or("", String::as_str);
    assert!(
        said.contains(help) && said.is_empty() == help.is_empty(),
        "{problem:?}"
    );
}

fn time(text: &str) -> ClockTime {
    ClockTime::try_from(text.to_owned()).unwrap()
}
