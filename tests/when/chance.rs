//! The start that reaches the chance, against simulated nights of given starts, and what is said around it.

use super::{chances, heater, night, on_before, ready};
use coldsoak::quantity::{Duration, Temperature};
use coldsoak::scenario::document::Scenario;
use coldsoak::scenario::hours::Hours;
use coldsoak::scenario::weather::Weather;
use coldsoak::study::latest_start::STEP_MIN;
use coldsoak::study::simulate::{SampleCount, simulate};
use coldsoak::study::when::{Switches, WhenOptions, when};

/// The night with plugs that fit, so that many starts reach 95 percent.
fn closed() -> Scenario {
    let mut scenario = night("small-engine-top");
    scenario.covers.inlet_plug = 0.99;
    scenario.covers.outlet_plug = 0.95;
    scenario.uncertain.clear();
    scenario
}

/// Nights out of the same 32 in which the engine is ready, with the heater on so many minutes before departure.
fn counted(scenario: &Scenario, minutes: usize) -> usize {
    let count = SampleCount {
        nights: 32,
        seed: 1,
    };
    let written = on_before(scenario, &[minutes]);
    simulate(&written, count, &|_| ())
        .unwrap()
        .ready
        .unwrap()
        .count
}

/// The named start reaches the chance in nights that are written by hand, and a quarter of an hour later does not.
#[test]
fn the_start_is_the_latest_that_reaches_the_chance() {
    let scenario = closed();
    let answer = chances(&scenario);
    assert!(answer.is_reached());
    let minutes = answer.starts[0];
    let (at, later) = (
        counted(&scenario, minutes),
        counted(&scenario, minutes - STEP_MIN),
    );
    println!("{minutes} minutes: {at}, a step later {later} of 32");
    assert_eq!(at, answer.found.chance.count);
    assert!(at as f64 >= 0.95 * 32.0 && (later as f64) < 0.95 * 32.0);
    // The curve says the same of both, and never falls with more time.
    let share = |minutes: usize| {
        answer
            .curve
            .iter()
            .find(|c| c.0 == minutes)
            .unwrap()
            .1
            .count
    };
    assert_eq!((share(minutes), share(minutes - STEP_MIN)), (at, later));
    assert!(
        answer
            .curve
            .windows(2)
            .all(|two| two[0].1.count >= two[1].1.count)
    );
    // Nobody leaves later at the planned departure, with heaters on or off.
    let now = &answer.later[0];
    assert_eq!(
        (now.minutes, now.on.count, now.unplugged.count),
        (0, at, at)
    );
    let last = answer.later.last().unwrap();
    assert!(last.unplugged.count < last.on.count, "{last:?}");
}

/// The rule of the thermometer, counted again in other nights: wrong "leave" stays rare.
#[test]
fn the_rule_of_the_thermometer_holds_in_other_nights() {
    let scenario = closed();
    let count = SampleCount {
        nights: 128,
        seed: 1,
    };
    let options = WhenOptions {
        count,
        ..WhenOptions::default()
    };
    let answer = when(&scenario, options, &[], &|_| ()).unwrap();
    let rule = answer.thermometer.as_ref().unwrap();
    assert!(rule.celsius.wrong_leave.share <= 0.02, "{rule:?}");
    let planned = on_before(&scenario, &answer.starts);
    let departure_s = answer.night.trace.departure_s;
    assert_eq!(rule.time_s, departure_s - 3600.0);
    let other = coldsoak::study::spread::Spread::of(&planned, 2).unwrap();
    let tasks = other.samples(128);
    let nights: Vec<Scenario> = tasks.iter().map(|t| other.scenario(t).unwrap()).collect();
    let wrong = nights.iter().filter(|night| {
        let night = coldsoak::night::run(night).unwrap();
        let row = night.trace.at(rule.time_s);
        let cells = night
            .trace
            .legend
            .cells
            .iter()
            .filter(|c| c.part == rule.part);
        let reads = cells.map(|c| row[c.column]).fold(f64::INFINITY, f64::min);
        reads >= rule.celsius.limit_c && !night.findings.ready.ready_at_departure
    });
    let wrong = wrong.count();
    println!("{rule:?}: wrong in {wrong} of 128 other nights");
    assert!(wrong <= 8, "{wrong} of 128");
}

/// No start of an uncovered engine in a bitter night is enough: each line of what would help gives the chance it names when
/// it is written as a night.
#[test]
fn each_line_of_what_would_help_is_a_night() {
    let mut scenario = night("small-engine-top");
    scenario.weather = Weather::steady {
        outdoors: Temperature::degC(-16.0),
        humidity: 0.8,
        wind: None,
    };
    let count = SampleCount {
        nights: 32,
        seed: 1,
    };
    let options = WhenOptions {
        count,
        ..WhenOptions::default()
    };
    let spare = [heater("sump-pad-150w", "sump-pad")];
    let answer = when(&scenario, options, &spare, &|_| ()).unwrap();
    assert!(!answer.is_reached() && answer.improvements.len() >= 2);
    for line in &answer.improvements {
        let mut night = on_before(&scenario, &answer.starts);
        for change in &line.changes {
            night = change.of(&night);
        }
        let again = simulate(&night, count, &|_| ()).unwrap();
        assert_eq!(again.ready, Some(line.chance), "{:?}", line.changes);
    }
}

/// A warm night needs no heat, and says so; nothing is searched beyond it.
#[test]
fn a_mild_night_needs_no_heat() {
    let mut mild = night("small-engine-top");
    mild.weather = Weather::steady {
        outdoors: Temperature::degC(8.0),
        humidity: 0.6,
        wind: None,
    };
    let answer = chances(&mild);
    assert!(answer.needs_no_heat());
    assert_eq!(answer.night.findings.energy.kwh, 0.0);
    assert!(answer.thermometer.is_none() && answer.later.is_empty());
}

/// A heater on a timer of its own stays as it is, and alone it is a problem at its hours.
#[test]
fn a_timer_of_its_own_is_left_alone() {
    let mut scenario = night("small-engine-top");
    let at = |text: &str| text.to_owned().try_into().unwrap();
    scenario.heaters[0].hours = Hours::between(vec![(at("20:00"), at("22:00"))]);
    let options = WhenOptions::default();
    let error = when(&scenario, options, &[], &|_| ())
        .unwrap_err()
        .to_string();
    assert!(
        error.contains("heaters[0].hours") && error.contains("timer"),
        "{error}"
    );
    scenario.heaters.clear();
    let error = when(&scenario, options, &[], &|_| ())
        .unwrap_err()
        .to_string();
    assert!(error.contains("no heater"), "{error}");
    let mut both = night("small-engine-top");
    both.heaters[0].hours = Hours::between(vec![(at("20:00"), at("22:00"))]);
    both.heaters.push(heater("bay-fan-350w", "bottom"));
    both.heaters[1].hours = Hours::before_departure(Duration::h(1.0));
    assert_eq!(Switches::of(&both).unwrap().heaters, [1]);
    assert!(!ready(&both, &[0, 0]).0);
}
