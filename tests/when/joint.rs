//! Two heaters: the pair that draws least.

use super::{heater, latest, night, ready};
use coldsoak::quantity::{Duration, Mass, Temperature};
use coldsoak::scenario::document::Scenario;
use coldsoak::scenario::hours::Hours;
use coldsoak::study::when::Switches;
use rayon::prelude::*;

/// How far around the plan pairs are tried, minutes, and their spacing: a slip along the border of what is ready
/// saves energy within a few minutes if the plan is not at its least.
const AROUND: [usize; 5] = [0, 3, 6, 9, 12];
/// Steps of the grid over all pairs, minutes: off the study's own.
const GRID: usize = 170;
/// Energies closer than this are one, kWh: a minute of the smaller heater.
const SAME_KWH: f64 = 0.15 / 60.0;

fn fan_and_pad() -> Scenario {
    let mut scenario = night("demo");
    scenario.covers.inlet_plug = 0.97;
    scenario.criteria.min_oil_temperature = Some(Temperature::degF(60.0));
    let mut pad = heater("sump-pad-150w", "sump-pad");
    // With a thermostat it would keep its hours.
    pad.thermostat = None;
    pad.hours = Hours::before_departure(Duration::min(30.0));
    scenario.heaters = vec![heater("bay-fan-350w", "top-blowing-right"), pad];
    scenario
}

/// No pair around the plan, and none of a grid over the night, is ready for less; the plan itself is ready, and a
/// minute later on either side is not.
#[test]
fn a_joint_plan_draws_the_least_and_either_heater_later_is_not_ready() {
    let scenario = fan_and_pad();
    let starts = latest(&scenario).starts.unwrap();
    let [fan, pad] = starts[..] else {
        panic!("two heaters, two starts");
    };
    println!("fan {fan}, pad {pad} minutes before the departure");
    let (is_ready, kwh) = ready(&scenario, &[fan, pad]);
    assert!(is_ready);
    assert!(fan > 0 && !ready(&scenario, &[fan - 1, pad]).0);
    assert!(pad > 0 && !ready(&scenario, &[fan, pad - 1]).0);

    let most = Switches::of(&scenario).unwrap().most;
    let near = |at: usize| {
        let down = move |d: usize| at.saturating_sub(d);
        let up = move |d: usize| (at + d).min(most);
        AROUND
            .into_iter()
            .flat_map(move |d| [down(d), up(d)])
            .collect::<Vec<_>>()
    };
    let grid: Vec<usize> = (0..=most).step_by(GRID).collect();
    let mut pairs: Vec<[usize; 2]> = Vec::new();
    for (firsts, seconds) in [(near(fan), near(pad)), (grid.clone(), grid)] {
        for &first in &firsts {
            pairs.extend(seconds.iter().map(|&second| [first, second]));
        }
    }
    pairs.sort();
    pairs.dedup();
    // Only what would be cheaper by more than a minute is worth a night.
    let cheaper: Vec<[usize; 2]> = pairs
        .into_iter()
        .filter(|[f, p]| (350.0 * *f as f64 + 150.0 * *p as f64) / 6e4 < kwh - SAME_KWH)
        .collect();
    assert!(cheaper.len() > 10, "{}", cheaper.len());
    cheaper.par_iter().for_each(|pair| {
        assert!(!ready(&scenario, pair).0, "{pair:?} beats {fan}, {pad}");
    });
}

/// Too little of the pad leaves the oil cold and too much of it leaves the walls wet, so what is ready is a strip between
/// two lines of the grid: the starts as they are written lie in it, and are not called impossible.
#[test]
fn a_ready_strip_between_two_grid_lines_is_found_from_the_starts_that_are_written() {
    let mut scenario = night("demo");
    scenario.covers = Default::default();
    let mut pad = heater("sump-pad-150w", "sump-pad");
    // With a thermostat it would keep its hours.
    pad.thermostat = None;
    pad.hours = Hours::before_departure(Duration::min(60.0));
    scenario.heaters = vec![heater("bay-fan-350w", "top-blowing-right"), pad];
    scenario.criteria.min_temperature = Temperature::degF(42.2);
    scenario.criteria.min_oil_temperature = Some(Temperature::degF(58.0));
    scenario.criteria.water_limit = Mass::g(0.07);
    let starts = latest(&scenario).starts.unwrap();
    let (is_ready, kwh) = ready(&scenario, &starts);
    println!("{starts:?}: {kwh} kWh");
    let most = Switches::of(&scenario).unwrap().most;
    assert!(is_ready);
    let written = [most, 60];
    let (as_written, written_kwh) = ready(&scenario, &written);
    assert!(as_written && kwh <= written_kwh + SAME_KWH);
    assert!(!ready(&scenario, &[most; 2]).0, "more is not better");
}
