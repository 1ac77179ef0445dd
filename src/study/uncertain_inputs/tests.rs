//! Ranges of a night as they are found: distributions, numbers outside, errors.

use super::super::tests::scenario;
use super::*;
use crate::quantity::Power;
use crate::scenario::engine::Engine;

fn found<'a>(all: &'a [UncertainInput], path: &str) -> &'a UncertainInput {
    all.iter().find(|d| d.path == path).unwrap()
}

#[test]
fn all_files_of_a_night_are_asked_and_every_number_lies_in_its_range() {
    let all = uncertain_inputs(&scenario()).unwrap();
    for path in [
        "engine.bay.seam_area",
        "oil.at_40",
        "hangar.time_constant",
        "heaters[0].kind.bay_fan.impingement",
        "covers.inlet_plug",
    ] {
        found(&all, path);
    }
    for doubt in &all {
        assert!(
            doubt.low <= doubt.value && doubt.value <= doubt.high,
            "{doubt:?}"
        );
        assert!(doubt.quantile(0.0) == doubt.low && doubt.quantile(1.0) == doubt.high);
    }
    // 4 litres, and the range in litres; kept in cubic metres.
    let oil = found(&all, "engine.oil_litres");
    assert!((oil.value - 4.0).abs() < 1e-9 && oil.unit.as_deref() == Some("L"));
}

#[test]
fn a_changed_power_counts_as_measured_with_a_warning() {
    let mut night = scenario();
    assert_eq!(outside_ranges(&night), []);
    night.heaters[0].power = Power::W(500.0);
    let after = uncertain_inputs(&night).unwrap();
    let is = found(&after, "heaters[0].power");
    assert_eq!((is.low, is.high), (475.0, 525.0));
    let said = outside_ranges(&night);
    assert_eq!(said.len(), 1, "{said:?}");
    assert!(
        said[0].what.contains("counts as measured, 475 to 525 W"),
        "{said:?}"
    );
}

/// A mass of an engine that was edited beside its range is not rescaled in silence.
#[test]
fn an_edited_number_of_an_engine_counts_as_measured_with_a_warning() {
    let mut night = scenario();
    let before = uncertain_inputs(&night).unwrap();
    let was = found(&before, "engine.oil_litres");
    let Engine::opposed(layout) = &mut night.engine else {
        panic!()
    };
    layout.oil_litres = crate::quantity::Volume::L(2.0 * was.high);
    let after = uncertain_inputs(&night).unwrap();
    let is = found(&after, "engine.oil_litres");
    let width = 0.25 * (was.high - was.low);
    assert!((is.high - is.low - width).abs() < 1e-9, "{is:?}");
    assert_eq!(outside_ranges(&night)[0].path, "engine.oil_litres");
}

/// 55 to 58 °F is 3 °F wide; a quarter of that lies around a number outside.
#[test]
fn a_temperature_outside_its_range_counts_as_measured() {
    let mut night = scenario();
    night.criteria.min_temperature = crate::quantity::Temperature::degF(60.0);
    let range = UncertainRange {
        low: 55.0,
        high: 58.0,
        unit: Some("degF".to_owned()),
        ..night.hangar.uncertain["time_constant"].clone()
    };
    night
        .uncertain
        .insert("criteria.min_temperature".to_owned(), range);
    let all = uncertain_inputs(&night).unwrap();
    let moved = found(&all, "criteria.min_temperature");
    assert!(
        (moved.low - 59.625).abs() < 1e-9 && (moved.high - 60.375).abs() < 1e-9,
        "{moved:?}"
    );
    assert_eq!(moved.value, 60.0);
    // A night by itself contradicts itself there.
    let told = contradictions(&night);
    assert_eq!(told.len(), 1);
    assert_eq!(
        told[0].what,
        "`criteria.min_temperature` is 60 degF, outside the range this night gives it, 55 degF to 58 degF"
    );
    night.criteria.min_temperature = crate::quantity::Temperature::degF(57.0);
    assert!(contradictions(&night).is_empty());
}

#[test]
fn a_range_outside_physical_limits_is_the_gates_problem() {
    let mut night = scenario();
    let Engine::opposed(layout) = &mut night.engine else {
        panic!()
    };
    layout.uncertain.get_mut("fin_eff").unwrap().high = 1.2;
    let problems = uncertain_inputs(&night).unwrap_err();
    assert_eq!(problems.len(), 1, "{problems:?}");
    assert_eq!(problems[0].path, "engine.uncertain.fin_eff");
    assert!(
        problems[0].what.contains("high end of its plausible range"),
        "{:?}",
        problems[0]
    );
}

#[test]
fn a_path_that_leads_nowhere_is_told_with_the_nearest() {
    let mut night = scenario();
    let range = night.hangar.uncertain.remove("time_constant").unwrap();
    night
        .hangar
        .uncertain
        .insert("time_constnat".to_owned(), range);
    let problems = uncertain_inputs(&night).unwrap_err();
    assert_eq!(problems[0].path, "hangar.uncertain.time_constnat");
    assert!(
        problems[0]
            .what
            .contains("did you mean `hangar.time_constant`"),
        "{:?}",
        problems[0]
    );
}
