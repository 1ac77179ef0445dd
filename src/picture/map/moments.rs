//! The moments of a night that a page steps through.

use crate::findings::EventKind;
use crate::night::Night;

/// The most moments of a page, so that it stays small.
const MOST: usize = 9;
/// Moments closer than this are one, s.
const APART_S: f64 = 120.0;
/// How long before the departure there is a moment, s.
const BEFORE_S: f64 = 3600.0;

/// The moments of a night that matter, in order: seconds after the beginning, and what happens then. The departure is always
/// among them. Where there are too many, those that are wanted first stay.
pub fn moments(night: &Night) -> Vec<(f64, String)> {
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::files::night::load_named_from;
    use crate::files::sources::Outside;
    use crate::night::run;

    #[test]
    fn the_moments_go_forward_and_the_departure_is_the_last() {
        for name in ["demo", "thermostat-pad", "block-cooling"] {
            let night = run(&load_named_from(name, Outside::Refused).unwrap().scenario).unwrap();
            let moments = moments(&night);
            assert!(
                (3..=9).contains(&moments.len()),
                "{name}: {}",
                moments.len()
            );
            assert!(
                moments.windows(2).all(|w| w[1].0 - w[0].0 >= APART_S),
                "{name}"
            );
            let last = moments.last().unwrap();
            assert_eq!(
                (last.0, moments[0].0),
                (night.trace.departure_s, 0.0),
                "{name}"
            );
            assert!(
                last.1.starts_with("departure") && moments[0].1.starts_with("start"),
                "{name}"
            );
        }
    }
}
