//! When to switch on, held against nights that are run one by one without the search.

mod brute;
mod chance;
mod joint;
mod same;

use coldsoak::files::library::{Kind, model};
use coldsoak::files::night::load_builtin;
use coldsoak::night::run;
use coldsoak::quantity::Duration;
use coldsoak::scenario::document::Scenario;
use coldsoak::scenario::heater::{Heater, Place};
use coldsoak::scenario::hours::Hours;
use coldsoak::study::simulate::SampleCount;
use coldsoak::study::when::{Nominal, Search, When, WhenOptions, nominal, when};

fn night(name: &str) -> Scenario {
    load_builtin(name).unwrap().scenario
}

fn heater(name: &str, place: &str) -> Heater {
    Heater {
        place: Place::at(place.to_owned()),
        ..model(Kind::Heater, name).unwrap()
    }
}

/// The latest starts of the nominal night.
fn latest(scenario: &Scenario) -> Nominal {
    nominal(&Search::of(scenario, &|_| ()).unwrap()).unwrap()
}

/// The answer, on fewer nights than the program's.
fn chances(scenario: &Scenario) -> When {
    let options = WhenOptions {
        count: SampleCount {
            nights: 32,
            seed: 1,
        },
        ..WhenOptions::default()
    };
    when(scenario, options, &[], &|_| ()).unwrap()
}

/// The scenario with each heater on from so many minutes before the departure, written without the study.
fn on_before(scenario: &Scenario, minutes: &[usize]) -> Scenario {
    let mut changed = scenario.clone();
    for (heater, &minutes) in changed.heaters.iter_mut().zip(minutes) {
        heater.hours = match minutes {
            0 => Hours::never,
            m => Hours::before_departure(Duration::s(60.0 * m as f64)),
        };
    }
    changed
}

/// Whether that night is ready at departure, and what it draws, kWh.
fn ready(scenario: &Scenario, minutes: &[usize]) -> (bool, f64) {
    let findings = run(&on_before(scenario, minutes)).unwrap().findings;
    (findings.ready.ready_at_departure, findings.energy.kwh)
}
