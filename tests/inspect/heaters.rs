//! Where the watts of each kind of heater enter.

use crate::kit::{clock, fan, heater, night, pad};
use coldsoak::inspect::{HeatMode, HeaterEntries, PathKind, anatomy};
use coldsoak::quantity::Temperature;
use coldsoak::scenario::document::Scenario;
use coldsoak::scenario::heater::Heater;
use coldsoak::scenario::hours::Hours;

fn with(heaters: Vec<Heater>) -> Scenario {
    let mut scenario = night("flat-four-3l1", Temperature::degC(-12.0), 6);
    scenario.heaters = heaters;
    scenario
}

fn sum(heater: &HeaterEntries) -> f64 {
    heater.heat_inputs.iter().map(|e| e.heat_w).sum()
}

#[test]
fn entries_add_up_to_the_watts_drawn() {
    let scenario = with(vec![
        fan(350.0, "bottom"),
        pad(150.0),
        heater("lamp-100w", 100.0, "lamp-under-sump"),
        heater("household-fan-1500w", 1500.0, "duct-under-nose"),
    ]);
    let found = anatomy(&scenario, 3.0 * 3600.0).unwrap();
    for (heater, rated_w) in found.heaters.iter().zip([350.0, 150.0, 100.0, 1500.0]) {
        assert!(heater.on);
        let drawn = heater.drawn_w;
        assert!(
            drawn > 0.0 && drawn <= rated_w * (1.0 + 1e-12),
            "{heater:?}"
        );
        assert!((sum(heater) - drawn).abs() < 1e-9, "{heater:?}");
    }
    let way = |n: usize, way: HeatMode| {
        let of = found.heaters[n]
            .heat_inputs
            .iter()
            .filter(move |e| e.mode == way);
        of.map(|e| e.heat_w).sum::<f64>()
    };
    // The lamp's file: 0.3 of its watts are radiant. A pad gives all to the metal it is bonded to.
    assert!((way(2, HeatMode::Radiant) - 30.0).abs() < 1e-9);
    assert!((way(1, HeatMode::Bonded) - found.heaters[1].drawn_w).abs() < 1e-12);
    assert!(way(3, HeatMode::Duct) > 0.0);
    assert_eq!(way(0, HeatMode::Duct), 0.0);
}

/// The jets of the paths are the jets of the entries.
#[test]
fn a_jet_is_the_same_among_paths_and_entries() {
    let found = anatomy(&with(vec![fan(300.0, "top-blowing-right")]), 3600.0).unwrap();
    let struck = found.heaters[0]
        .heat_inputs
        .iter()
        .filter(|e| e.mode == HeatMode::Jet);
    let mut count = 0;
    for entry in struck {
        let paths = found.paths.iter();
        let by_path: f64 = paths
            .filter(|p| p.kind == PathKind::Jet && p.to == entry.into)
            .map(|p| p.heat_w)
            .sum();
        assert!((by_path - entry.heat_w).abs() < 1e-9, "{}", entry.into);
        count += 1;
    }
    assert!(count > 0);
}

/// A heater that is off leads nothing, and still shows what it would do.
#[test]
fn a_heater_that_is_off_tells_what_it_would_give() {
    let late = Heater {
        hours: Hours::from(clock("22:00")),
        ..fan(300.0, "top-blowing-right")
    };
    let scenario = with(vec![late]);
    let before = anatomy(&scenario, 2.0 * 3600.0).unwrap();
    assert!(!before.heaters[0].on);
    assert!((before.heaters[0].drawn_w - 300.0).abs() < 1e-9);
    let fanned = |kind: PathKind| matches!(kind, PathKind::Jet | PathKind::Forced);
    assert!(!before.paths.iter().any(|p| fanned(p.kind)));
    let after = anatomy(&scenario, 3.0 * 3600.0).unwrap();
    assert!(after.heaters[0].on);
    assert!(after.paths.iter().any(|p| fanned(p.kind)));
}
