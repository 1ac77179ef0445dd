//! The built-in nights, computed more finely.

use crate::kit::record;
use coldsoak::files::comparison::load_builtin_comparison;
use coldsoak::files::night::load_builtin;
use coldsoak::findings::Findings;
use coldsoak::night::{Precision, run, run_lanes};
use coldsoak::scenario::document::Scenario;
use coldsoak::study::convergence::watched;
use coldsoak::study::refine::refine;

/// Moves of this size are rounding, in any unit.
const ROUNDING: f64 = 1e-9;
/// Hours above a dew point begin and end at a threshold, so that a finer mesh can make them out of nothing; no error can be
/// extrapolated, and the report says so.
const OUT_OF_NOTHING: &str = "condensing for";

/// Holds what a night finds, with cells, steps and samples refined together, to what is stated for each alone. Cells are cut
/// twice as finely as in any night the statement was made from.
fn hold(name: &str, night: &Scenario) {
    let stated = refine(night, &|| ()).unwrap();
    let mut finest = night.clone();
    finest.accuracy.resolution *= 8;
    finest.accuracy.tolerance /= 16.0;
    finest.accuracy.sample_s /= 16.0;
    let finest = watched(&run(&finest).unwrap().findings);
    assert!(stated.verdict_unchanged, "{name}");
    let mut most_used: f64 = 0.0;
    for (figure, finest) in stated.figures.iter().zip(finest) {
        if figure.name == OUT_OF_NOTHING {
            continue;
        }
        match (figure.value, finest.value, figure.total_error()) {
            (Some(value), Some(finest), Some(allowed)) => {
                // What is not a matter of cells or steps moves by rounding.
                let used = (finest - value).abs() / allowed.max(ROUNDING);
                assert!(used <= 1.0, "{name}: {figure:?} comes to {finest}");
                most_used = most_used.max(used);
            }
            (None, None, None) => {}
            other => panic!("{name}: {}: {other:?}", figure.name),
        }
    }
    record::check(
        &format!("{name}: largest move of a finding, of the error stated for it"),
        1.0,
        most_used,
    );
}

/// The choices of the built-in comparison move by less than is stated for them, and none changes its verdict.
///
/// Source: the definition of a discretisation error; the estimate is Roache's (1994), as in `study::refine`.
#[test]
fn the_built_in_comparison_moves_by_less_than_is_stated() {
    for choice in load_builtin_comparison("demo").unwrap().choices {
        hold(&choice.name, &choice.night);
    }
}

/// So do the other built-in nights.
///
/// Source: as above.
#[test]
fn the_built_in_nights_move_by_less_than_is_stated() {
    for name in [
        "small-engine-top",
        "six-after-flight",
        "block-cooling",
        "radial-underneath",
        "thermostat-pad",
    ] {
        hold(name, &load_builtin(name).unwrap().scenario);
    }
}

/// The margin of a night of a study may be off by so much, K: ten times what was measured, and less than a thermometer reads.
const STUDY_K: f64 = 0.005;

/// The nights of studies are computed at a looser tolerance: how far that moves margin, time to the minimum and water.
#[test]
fn a_night_of_a_study_has_the_margin_of_the_night_alone() {
    for name in [
        "demo",
        "small-engine-top",
        "six-after-flight",
        "block-cooling",
        "radial-underneath",
        "thermostat-pad",
    ] {
        let night = load_builtin(name).unwrap().scenario;
        let of = |precision| {
            let computed = run_lanes(std::slice::from_ref(&night), precision).pop();
            computed.unwrap().unwrap().findings
        };
        let (full, study) = (of(Precision::Full), of(Precision::Study));
        let margin = |f: &Findings| f.ready.margin_k.unwrap();
        let upper_g = |f: &Findings| f.condensation.as_ref().map_or(0.0, |c| c.upper_g);
        let warm_h = |f: &Findings| f.threshold.all_parts.hold.hours().unwrap_or(0.0);
        let moved = margin(&study) - margin(&full);
        println!(
            "{name}: margin {moved:+.4} K, water {:+.4} g, time to the minimum {:+.4} h",
            upper_g(&study) - upper_g(&full),
            warm_h(&study) - warm_h(&full)
        );
        assert!(moved.abs() <= STUDY_K, "{name}: {moved} K");
        assert_eq!(
            full.ready.ready_at_departure, study.ready.ready_at_departure,
            "{name}"
        );
    }
}
