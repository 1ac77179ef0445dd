//! Water inside.

use super::computed;
use crate::kit::{ENGINES, fan, night, pad};
use coldsoak::quantity::{Duration, Mass, Temperature};
use coldsoak::scenario::hours::Hours;
use coldsoak::scenario::initial::InitialTemperature;

const HANGAR: Temperature = Temperature::degF(15.0);

fn upper_grams(night: &coldsoak::night::Night) -> f64 {
    night.findings.condensation.as_ref().unwrap().upper_g
}

/// Most water that stood on the upper walls at any time, g.
fn most_upper(night: &coldsoak::night::Night) -> f64 {
    let walls: Vec<usize> = night
        .trace
        .legend
        .walls
        .iter()
        .filter(|w| w.group == "upper")
        .map(|w| w.film)
        .collect();
    (0..night.trace.len())
        .map(|k| {
            let row = night.trace.sample(k);
            walls.iter().map(|&film| row[film]).sum::<f64>()
        })
        .fold(0.0, f64::max)
}

/// All three engines, parked, cold start, 15 g, 250 W on top or underneath: no upper wall gathers water.
#[test]
fn heat_from_outside_leaves_the_upper_walls_dry() {
    for engine in ENGINES {
        for place in ["top-blowing-right", "bottom"] {
            let mut scenario = night(engine, HANGAR, 12);
            scenario.heaters.push(fan(250.0, place));
            let most = most_upper(&computed(&scenario));
            assert!(most < 0.1, "{engine}, {place}: {most} g");
        }
    }
}

/// All three engines, parked, cold start, 15 g, a 150 W pad: water leaves the oil and is on the upper walls
/// within the first hour. On the small engine nearly all of it moves.
#[test]
fn a_pad_alone_moves_the_water_onto_the_upper_walls() {
    for engine in ENGINES {
        let mut scenario = night(engine, HANGAR, 12);
        scenario.heaters.push(pad(150.0));
        let night = computed(&scenario);
        let water = night.findings.condensation.as_ref().unwrap();
        let onset = match water.onset {
            coldsoak::findings::Onset::After { hours } => hours,
            coldsoak::findings::Onset::Never { .. } => panic!("{engine}: never"),
        };
        assert!(onset < 1.0, "{engine}: {onset} h");
        assert!(water.upper_g > 2.0, "{engine}: {} g", water.upper_g);
        if engine == "flat-four-3l1" {
            assert!(water.oil_water_g.unwrap() < 3.0);
        }
    }
}

/// Flat-four 3.1 L, parked, after a flight, 15 g: with no heater some water settles on the upper walls; heat on
/// top makes it less, a pad more.
#[test]
fn after_a_hot_shutdown_water_settles_and_heat_on_top_makes_it_less() {
    let with = |heaters: Vec<_>| {
        let mut scenario = night("flat-four-3l1", HANGAR, 12);
        scenario.initial.temperature = InitialTemperature::after_flight {
            delay: Duration::h(0.5),
        };
        scenario.heaters = heaters;
        upper_grams(&computed(&scenario))
    };
    let (none, top, bottom) = (
        with(vec![]),
        with(vec![fan(250.0, "top-blowing-right")]),
        with(vec![pad(150.0)]),
    );
    assert!(none > 0.05, "{none} g without a heater");
    assert!(top < none, "{top} g with heat on top, {none} without");
    assert!(bottom > none, "{bottom} g with a pad, {none} without");
}

/// Flat-four 3.1 L, parked, cold, 15 g: 250 W on top all night and the pad for the last half hour leave far
/// less on the upper walls than the pad alone.
#[test]
fn a_pad_late_on_a_warm_engine_wets_far_less_than_a_pad_alone() {
    let mut scenario = night("flat-four-3l1", HANGAR, 12);
    scenario.heaters.push(pad(150.0));
    let alone = upper_grams(&computed(&scenario));
    scenario.heaters[0].hours = Hours::before_departure(Duration::min(30.0));
    scenario.heaters.push(fan(250.0, "top-blowing-right"));
    let late = upper_grams(&computed(&scenario));
    assert!(late < 0.2 * alone, "{late} g against {alone} g");
}

/// Flat-four 3.1 L, parked, cold, no water in the oil, a pad: nothing can condense but what the air holds.
#[test]
fn without_water_in_the_oil_nothing_condenses() {
    let mut scenario = night("flat-four-3l1", HANGAR, 12);
    scenario.initial.water_in_oil = Mass::g(0.0);
    scenario.heaters.push(pad(150.0));
    assert!(most_upper(&computed(&scenario)) < 0.05);
}

/// Flat-four 3.1 L, parked, cold, 15 g, a pad: with the filler cap off less water stays inside.
#[test]
fn an_open_filler_lets_water_out() {
    let mut scenario = night("flat-four-3l1", HANGAR, 12);
    scenario.heaters.push(pad(150.0));
    let lost = |scenario: &_| {
        let ledger = computed(scenario).ledger;
        ledger.water_before_g - ledger.water_after_g
    };
    let shut = lost(&scenario);
    scenario.covers.filler_open = true;
    let open = lost(&scenario);
    assert!(open > shut + 1.0, "{open} g against {shut} g");
}
