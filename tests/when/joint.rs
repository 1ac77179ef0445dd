//! Two heaters: the pair that draws least, and each alone.

use super::{asked, heater, night, planned, ready};
use coldsoak::quantity::{Duration, Mass, Temperature};
use coldsoak::scenario::document::Scenario;
use coldsoak::scenario::hours::Hours;
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
    pad.hours = Hours::before_departure(Duration::min(30.0));
    scenario.heaters = vec![heater("bay-fan-350w", "top-blowing-right"), pad];
    scenario
}

/// No pair around the plan, and none of a grid over the night, is ready for less; the plan itself is ready, and a
/// minute later on either side is not. Each heater alone: ready at its time, not a minute later.
#[test]
fn a_joint_plan_draws_the_least_and_either_heater_later_is_not_ready() {
    let scenario = fan_and_pad();
    let answer = asked(&scenario);
    let plan = planned(&answer);
    let [fan, pad] = plan.starts[..] else {
        panic!("two heaters, two starts");
    };
    println!("fan {fan}, pad {pad} minutes before the departure");
    let (is_ready, kwh) = ready(&scenario, &[fan, pad]);
    assert!(is_ready);
    assert!(fan > 0 && !ready(&scenario, &[fan - 1, pad]).0);
    assert!(pad > 0 && !ready(&scenario, &[fan, pad - 1]).0);

    let most = answer.switches.most;
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

    for (which, alone) in answer.alone.iter().enumerate() {
        // As the file has them: the fan the whole night, the pad for half an hour.
        let with = |minutes: usize| match which {
            0 => [minutes, 30],
            _ => [most, minutes],
        };
        let found = alone
            .search
            .found
            .expect("each alone is ready at some time");
        println!("alone, heater {which}: {found}");
        assert!(ready(&scenario, &with(found)).0);
        assert!(found == 0 || !ready(&scenario, &with(found - 1)).0);
    }
}

/// Too little of the pad leaves the oil cold and too much of it leaves the walls wet, so what is ready is a strip between
/// two lines of the grid: the starts as they are written lie in it, and are not called impossible.
#[test]
fn a_ready_strip_between_two_grid_lines_is_found_from_the_starts_that_are_written() {
    let mut scenario = night("demo");
    scenario.covers = Default::default();
    let mut pad = heater("sump-pad-150w", "sump-pad");
    pad.hours = Hours::before_departure(Duration::min(60.0));
    scenario.heaters = vec![heater("bay-fan-350w", "top-blowing-right"), pad];
    scenario.criteria.min_temperature = Temperature::degF(42.2);
    scenario.criteria.min_oil_temperature = Some(Temperature::degF(58.0));
    scenario.criteria.water_limit = Mass::g(0.07);
    let answer = asked(&scenario);
    let plan = planned(&answer);
    let (is_ready, kwh) = ready(&scenario, &plan.starts);
    println!("{:?}: {kwh} kWh", plan.starts);
    assert!(is_ready);
    let written = [answer.switches.most, 60];
    let (as_written, written_kwh) = ready(&scenario, &written);
    assert!(as_written && kwh <= written_kwh + SAME_KWH);
    assert!(
        !ready(&scenario, &[answer.switches.most; 2]).0,
        "more is not better"
    );
}

/// An earlier start for who cannot measure is a plan only if it was computed: whatever is said of it is so.
#[test]
fn an_earlier_start_for_who_cannot_measure_is_what_it_is_said_to_be() {
    for name in ["demo", "small-engine-top"] {
        let scenario = night(name);
        let answer = asked(&scenario);
        let plan = planned(&answer);
        let reserve = plan.reserve.as_ref().expect("some change asks for more");
        assert!(reserve.starts.iter().zip(&plan.starts).all(|(r, p)| r >= p));
        let (is_ready, kwh) = ready(&scenario, &reserve.starts);
        assert_eq!(
            is_ready, reserve.as_it_is.ready.ready_at_departure,
            "{name}"
        );
        assert!((kwh - reserve.as_it_is.kwh).abs() < 1e-9);
        let others = plan
            .what_if
            .iter()
            .filter(|w| ready(&w.change.of(&scenario), &reserve.starts).0);
        assert_eq!(
            reserve.ready_in,
            (others.count(), plan.what_if.len()),
            "{name}"
        );
    }
}
