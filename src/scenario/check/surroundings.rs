//! Everything around the engine but the weather: clock, covers, initial state, hangar, oil, circuit, criteria, accuracy.

use super::super::body::Body;
use super::super::clock::{Clock, ClockError, NightClock};
use super::super::cover::Covers;
use super::super::document::Scenario;
use super::super::initial::{Initial, InitialTemperature};
use super::super::part::Role;
use super::super::uncertain::{Distribution, Uncertain};
use super::names::Names;
use super::problem::Problems;
use crate::document::names::nearest;

/// The longest night that is followed, in seconds.
const LONGEST_S: f64 = 31.0 * 86_400.0;

/// Bounds in their order, above zero where ratios count.
pub(super) fn uncertain(uncertain: &Uncertain, path: &str, problems: &mut Problems) {
    for (name, unknown) in uncertain {
        let path = format!("{path}.{name}");
        let (low, high) = (unknown.low, unknown.high);
        if !(low.is_finite() && high.is_finite() && low <= high) {
            problems
                .tell(
                    path,
                    format!("`low` must not be above `high`, they are {low} and {high}"),
                )
                .word(name);
        } else if unknown.distribution == Distribution::log_uniform && low <= 0.0 {
            problems
                .tell(
                    path,
                    "a `log_uniform` number must have its `low` above zero",
                )
                .word(name);
        }
    }
}

/// The clock with its zone looked up.
pub(super) fn clock(clock: &Clock, problems: &mut Problems) -> Option<NightClock> {
    let dateless = clock.begin.date.is_none() && clock.departure.date.is_some();
    match clock.resolve() {
        Ok(_) if dateless => {
            problems
                .tell(
                    "clock.begin",
                    "the departure has a date and the beginning has none",
                )
                .help("write the day of the beginning too, as in \"1996-02-04 19:00\"");
            None
        }
        Ok(resolved) => {
            if resolved.night_s() > LONGEST_S {
                problems.tell(
                    "clock.departure",
                    format!(
                        "the departure comes {:.0} days after the beginning; at most 31 are followed",
                        resolved.night_s() / 86_400.0
                    ),
                );
            }
            Some(resolved)
        }
        Err(error) => {
            match &error {
                ClockError::Zone(name) => {
                    let problem = problems.tell("clock.zone", error.to_string()).word(name);
                    match zone_like(name) {
                        Some(zone) => problem.instead(zone),
                        None => problem.help("a zone is named by its continent and a large city in it, as in zone: \"America/Chicago\""),
                    };
                }
                ClockError::Order { .. } if dateless => {
                    problems
                        .tell(
                            "clock.departure",
                            "the departure has a date and the beginning has none",
                        )
                        .help("write the day of the beginning too, as in \"1996-02-04 19:00\"");
                }
                ClockError::Order { .. } => {
                    problems
                        .tell("clock.departure", error.to_string())
                        .help("is the day of the departure the day after?");
                }
            }
            None
        }
    }
}

/// Short names that people use of zones that have none, and what stands for them in the IANA database.
const SHORT_ZONES: [(&[&str], &str); 6] = [
    (&["EDT"], "America/New_York"),
    (&["CST", "CDT"], "America/Chicago"),
    (&["MDT"], "America/Denver"),
    (&["PST", "PDT"], "America/Los_Angeles"),
    (&["AKST", "AKDT"], "America/Anchorage"),
    (&["BST"], "Europe/London"),
];

/// The zone whose name, or whose city, is like this one.
fn zone_like(name: &str) -> Option<String> {
    let zones: Vec<String> = jiff::tz::db()
        .available()
        .map(|zone| zone.to_string())
        .collect();
    let all = || zones.iter().map(String::as_str);
    let city = |zone: &str| zone.rsplit('/').next().unwrap_or(zone).to_lowercase();
    let wanted = city(&name.replace(' ', "_"));
    let short = |(names, _): &&(&[&str], &str)| names.contains(&name.to_uppercase().as_str());
    if let Some((_, zone)) = SHORT_ZONES.iter().find(short) {
        return Some((*zone).to_owned());
    }
    nearest(name, all())
        .or_else(|| all().find(|zone| city(zone) == wanted))
        .or_else(|| all().find(|zone| nearest(&wanted, [city(zone).as_str()]).is_some()))
        .map(str::to_owned)
}

/// Plugs between open and shut, blankets where there is skin.
pub(super) fn covers(covers: &Covers, body: &Body, names: &Names, problems: &mut Problems) {
    for pocket in covers.blankets.keys() {
        let path = format!("covers.blankets.{pocket}");
        let covered = |role: &Role| matches!(role, Role::skin(over) if over == pocket);
        if names.pocket(pocket, &path, problems) && !body.parts.iter().any(|p| covered(&p.role)) {
            problems
                .tell(
                    path,
                    format!("the air volume `{pocket}` has no skin to lay a blanket on"),
                )
                .word(pocket)
                .help(format!(
                    "a part with `role: skin(\"{pocket}\")` is its skin"
                ));
        }
    }
    if covers.propeller.is_some() && !body.parts.iter().any(|p| p.role == Role::propeller) {
        problems.tell("covers.propeller", "the engine has no propeller to cover");
    }
    if let Some(side) = &covers.open_side {
        names.pocket(&side.pocket, "covers.open_side.pocket", problems);
    }
    if covers.filler_open && body.crankcase_gas.is_none() {
        problems.tell(
            "covers.filler_open",
            "the engine has no air inside that an open filler could let out",
        );
    }
}

/// The temperature and the water at the beginning.
pub(super) fn initial(initial: &Initial, names: &Names, problems: &mut Problems) {
    if let InitialTemperature::values { parts, .. } = &initial.temperature {
        for name in parts.keys() {
            let path = format!("initial.temperature.parts.{name}");
            names.part_or_pocket(name, &path, problems);
        }
    }
}

/// Everything that needs no engine.
pub(super) fn check(scenario: &Scenario, clock: Option<&NightClock>, problems: &mut Problems) {
    let hangar = &scenario.hangar;
    uncertain(&hangar.uncertain, "hangar.uncertain", problems);

    let oil = &scenario.oil;
    let thin = oil.at_100.si() > 0.0;
    if thin && oil.at_40.si() > 0.0 && oil.at_100.si() >= oil.at_40.si() {
        problems
            .tell(
                "oil.at_100",
                format!(
                    "the oil is {} mm2/s at 100 °C and {} at 40 °C: oil is thinner when hot",
                    oil.at_100.si(),
                    oil.at_40.si()
                ),
            )
            .help("were the two exchanged?");
    }
    // ASTM D341's form takes the logarithm of the logarithm of viscosity + 0.7, so that must be above 1.
    if thin && oil.at_100.si() <= 0.3 {
        problems.tell("oil.at_100", "`at_100` must be above 0.3 mm2/s");
    }
    uncertain(&oil.uncertain, "oil.uncertain", problems);

    let criteria = &scenario.criteria;
    if let (Some(simulated_time), Some(clock)) = (criteria.simulated_time, clock) {
        let (simulated_time, night) = (simulated_time.si(), clock.night_s());
        if simulated_time.is_nan() || simulated_time < night {
            problems
                .tell(
                    "criteria.simulated_time",
                    format!(
                        "the simulated time of {:.2} h lies before the departure, {:.2} h after the beginning",
                        simulated_time / 3600.0,
                        night / 3600.0
                    ),
                )
                .help("leave `simulated_time` out to stop at the departure");
        }
    }
    if let (InitialTemperature::after_flight { delay }, Some(clock)) =
        (&scenario.initial.temperature, clock)
        && delay.si() >= clock.night_s()
    {
        problems.tell(
            "initial.temperature.delay",
            format!(
                "a delay of {:.2} h outlasts the night of {:.2} h",
                delay.si() / 3600.0,
                clock.night_s() / 3600.0
            ),
        );
    }

    uncertain(&scenario.uncertain, "uncertain", problems);
}
