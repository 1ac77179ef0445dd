//! The clock times a page steps through, and the engine at each of them.

use super::data::Step;
use crate::findings::EventKind;
use crate::night::Night;
use crate::picture::draw::colour::Theme;
use crate::picture::draw::svg::shapes;
use crate::picture::map::Map;

/// Most steps of a page, so that it stays small.
const MOST: usize = 9;
/// Steps closer than this are one, s.
const APART_S: f64 = 120.0;
/// How long before the departure there is a step, s.
const BEFORE_S: f64 = 3600.0;

/// What the pictures of all steps begin with, and the steps of a night in order; the departure is always among them.
pub fn steps(night: &Night, map: &Map) -> (String, Vec<Step>) {
    let clock = night.scenario.clock();
    let leave_s = night.trace.departure_s;
    let times = times(night).into_iter();
    let pictures: Vec<_> = times
        .map(|(time_s, name)| (time_s, name, map.picture(time_s, Theme::Light)))
        .collect();
    let first = &pictures[0].2.shapes;
    let same = |k: &usize| {
        let mut all = pictures.iter();
        all.all(|p| p.2.shapes.get(*k) == first.get(*k))
    };
    let still = (0..first.len()).take_while(same).count();
    let begun = shapes(&first[..still]);
    let steps = pictures.into_iter().enumerate();
    let steps = steps.map(|(index, (time_s, name, picture))| Step {
        index,
        clock: clock.dated(time_s),
        name,
        departure: time_s == leave_s,
        shapes: shapes(&picture.shapes[still..]),
        told: picture.description,
    });
    (begun, steps.collect())
}

/// Seconds after the beginning, and what happens then. Where there are too many, those that come first here stay.
fn times(night: &Night) -> Vec<(f64, String)> {
    let leave_s = night.trace.departure_s;
    let mut wanted = vec![(leave_s, "departure".to_owned()), (0.0, "start".to_owned())];
    for heater in 0..night.trace.legend.heaters.len() {
        let name = &night.trace.legend.heaters[heater].name;
        let first = night.trace.on_spans(heater).first().copied();
        if let Some((on_s, _)) = first {
            wanted.push((on_s, format!("{name} on")));
        }
    }
    wanted.push((leave_s - BEFORE_S, "an hour before departure".to_owned()));
    for event in &night.findings.events {
        if event.what == EventKind::AllPartsWarm {
            wanted.push((event.time_h * 3600.0, "every part warm".to_owned()));
        }
    }
    for heater in 0..night.trace.legend.heaters.len() {
        let name = &night.trace.legend.heaters[heater].name;
        let last = night.trace.on_spans(heater).last().copied();
        if let Some((_, off_s)) = last {
            wanted.push((off_s, format!("{name} off")));
        }
    }
    for share in [0.5, 0.25, 0.75] {
        let hours = (share * leave_s / 1800.0).round() * 1800.0;
        wanted.push((hours, String::new()));
    }
    let mut kept: Vec<(f64, String)> = Vec::new();
    for (time_s, name) in wanted {
        if !(0.0..=leave_s).contains(&time_s) {
            continue;
        }
        let room = kept.len() < MOST;
        match kept.iter_mut().find(|k| (k.0 - time_s).abs() < APART_S) {
            // One moment, two names: "start, heater on".
            Some(same) if !name.is_empty() && !name.ends_with(" off") => {
                same.1 = format!("{}, {name}", same.1);
            }
            Some(_) => {}
            None if room => kept.push((time_s, name)),
            None => {}
        }
    }
    kept.sort_by(|a, b| a.0.total_cmp(&b.0));
    kept
}
