//! The heaters: where each is aimed, what its shares sum to, and when it is on.

use super::super::body::Body;
use super::super::clock::NightClock;
use super::super::document::Scenario;
use super::super::heater::{Aim, Heater, HeaterKind, Place};
use super::hours::hours;
use super::names::{Names, listed};
use super::outlet_path::{SHARE_TOLERANCE, way_out};
use super::problem::Problems;
use super::surroundings::uncertain;
use crate::document::names::nearest;
use std::collections::BTreeSet;

/// Checks every heater and finds its aim; the engine's places are checked too.
pub(super) fn check_all(
    scenario: &Scenario,
    clock: Option<&NightClock>,
    body: Option<(&Body, &Names)>,
    aims: &mut Vec<Aim>,
    problems: &mut Problems,
) {
    if let Some((body, names)) = body {
        for (place, aim) in &body.places {
            shares(aim, &format!("engine.places.{place}"), names, problems);
        }
    }
    // Where a name leads nowhere, nothing is known of the way of the air.
    let resolved = problems.count() == 0;
    let mut called = BTreeSet::new();
    for (i, heater) in scenario.heaters.iter().enumerate() {
        let path = format!("heaters[{i}]");
        let name = heater.name.as_str();
        if name.trim().is_empty() {
            problems.tell(format!("{path}.name"), "a heater needs a name");
        }
        if !called.insert(name) {
            // The entry, and not the name in a file that both of them may be taken from.
            problems
                .tell(&path, format!("there are two heaters named `{name}`"))
                .help("give one of them another name, as in `name: \"second fan\"`");
        }
        numbers(heater, &path, problems);
        if let Some(clock) = clock {
            hours(heater, scenario, clock, &path, problems);
        }
        if let Some((body, names)) = body {
            if let Some(thermostat) = &heater.thermostat {
                let path = format!("{path}.thermostat.sensor");
                names.part_or_pocket(&thermostat.sensor, &path, problems);
            }
            if let Some(aim) = aimed(heater, body, names, &path, problems) {
                fits(heater, &aim, &path, problems);
                if resolved {
                    way_out(heater, &aim, body, &scenario.covers, &path, problems);
                }
                aims.push(aim);
            }
        }
    }
}

fn numbers(heater: &Heater, path: &str, problems: &mut Problems) {
    if let Some(t) = &heater.thermostat {
        let path = format!("{path}.thermostat");
        if t.on_at >= t.off_at {
            problems
                .tell(
                    format!("{path}.on_at"),
                    format!(
                        "the thermostat goes on at {:.1} °C and off at {:.1} °C: `on_at` must be below `off_at`",
                        t.on_at.celsius(),
                        t.off_at.celsius()
                    ),
                )
                .help("`off_at` is where the heater goes off, `on_at` where it comes on again");
        }
    }
    if let Some(limit) = &heater.self_limiting {
        let path = format!("{path}.self_limiting");
        if limit.full_power_below >= limit.zero_power_above {
            problems.tell(
                format!("{path}.full_power_below"),
                "`full_power_below` must be below `zero_power_above`",
            );
        }
        if matches!(heater.kind, HeaterKind::radiant { .. }) {
            problems
                .tell(
                    path,
                    "a radiant heater has no element in touch with what it heats, so it cannot limit itself",
                )
                .help("leave `self_limiting` out, or give the heater a thermostat");
        }
    }
    uncertain(&heater.uncertain, &format!("{path}.uncertain"), problems);
}

/// Where the heater is aimed, if its place is known and its names are.
fn aimed(
    heater: &Heater,
    body: &Body,
    names: &Names,
    path: &str,
    problems: &mut Problems,
) -> Option<Aim> {
    let path = format!("{path}.place");
    match &heater.place {
        Place::aimed(aim) => {
            let before = problems.count();
            shares(aim, &path, names, problems);
            (problems.count() == before).then(|| aim.clone())
        }
        Place::at(place) => {
            let found = body.places.get(place).cloned();
            if found.is_none() {
                let all: Vec<&str> = body.places.keys().map(String::as_str).collect();
                let problem = problems
                    .tell(&path, format!("the engine has no place named `{place}`"))
                    .word(place);
                match nearest(place, all.iter().copied()) {
                    Some(like) => problem.instead(like),
                    None if all.is_empty() => {
                        problem.help("this engine names no places; aim the heater by hand, as in `aimed(impingement: [(\"sump\", 1.0)])`")
                    }
                    None => problem.help(format!("its places are {}", listed(&all))),
                };
            }
            found
        }
    }
}

/// The names of an aim, no share below zero, none named twice.
fn shares(aim: &Aim, path: &str, names: &Names, problems: &mut Problems) {
    for (key, list, parts) in [
        ("intake", &aim.intake, false),
        ("discharge", &aim.discharge, false),
        ("impingement", &aim.impingement, true),
    ] {
        let path = format!("{path}.{key}");
        let mut seen = BTreeSet::new();
        for (name, _) in list {
            if parts {
                names.part(name, &path, problems);
            } else {
                names.pocket(name, &path, problems);
            }
            if !seen.insert(name) {
                problems
                    .tell(&path, format!("`{name}` is named twice in `{key}`"))
                    .word(name);
            }
        }
    }
}

/// Whether an aim suits the kind of heater.
fn fits(heater: &Heater, aim: &Aim, path: &str, problems: &mut Problems) {
    let (kind, intake, discharge, impingement) = match &heater.kind {
        HeaterKind::bay_fan { .. } => ("bay fan", true, true, false),
        HeaterKind::ducted { .. } => ("ducted heater", false, true, false),
        HeaterKind::bonded => ("bonded heater", false, false, true),
        HeaterKind::radiant { radiant_share } => (
            "radiant heater",
            false,
            *radiant_share < 1.0,
            *radiant_share > 0.0,
        ),
    };
    let path = format!("{path}.place");
    // The first misfit is enough: a place for another kind has several.
    let before = problems.count();
    let mut sums = |key: &str, list: &[(String, f64)], wanted: bool, allowed: bool| {
        let sum: f64 = list.iter().map(|(_, share)| share).sum();
        let what = match (wanted, list.is_empty()) {
            (true, true) => format!("a {kind} needs `{key}`, and its place names none"),
            (true, false) if sum.is_nan() || (sum - 1.0).abs() > SHARE_TOLERANCE => {
                format!("the shares of `{key}` must sum to 1, they sum to {sum}")
            }
            (false, false) if !allowed => {
                format!("a {kind} has no `{key}`, but its place names one")
            }
            _ => return,
        };
        if problems.count() > before {
            return;
        }
        let problem = problems.tell(&path, what);
        if let Place::at(place) = &heater.place {
            problem
                .word(place)
                .help(format!("the place `{place}` is for another kind of heater"));
        }
    };
    let blows = matches!(
        heater.kind,
        HeaterKind::bay_fan { .. } | HeaterKind::ducted { .. }
    );
    sums("intake", &aim.intake, intake, false);
    sums(
        "discharge",
        &aim.discharge,
        discharge,
        matches!(heater.kind, HeaterKind::radiant { .. }),
    );
    sums("impingement", &aim.impingement, impingement, blows);
}
