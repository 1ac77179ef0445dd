//! The schedule card: when to switch what on, what a thermometer should read on the way, what to check by hand.

use super::data::{Card, Entry};
use crate::night::Night;
use crate::report::asked::sensor;
use crate::report::phrase::{finely, size, temperature};
use crate::scenario::heater::Place;
use crate::scenario::hours::Hours;
use crate::scenario::start::Warmth;
use crate::study::when::Checkpoint;
use crate::trace::Trace;

/// What to check by hand before the flight. Common practice, no source; the makers' manuals come first.
const BY_HAND: [&str; 5] = [
    "Magnetos off, key out, before anybody touches the propeller.",
    "Feel or measure oil, cylinders, crankcase and propeller flange: all of them, not only the nearest.",
    "Unplug every heater, take it out, and put the cord away from the propeller.",
    "Take out plugs, blankets and covers, and count them.",
    "Look into the filler and at the breather's end for water and ice.",
];

/// What is said first of a plan that does not make the engine ready.
const SHORT: &str = "With this plan the engine is NOT ready at departure.";

/// The card of a night.
pub fn card(night: &Night) -> Card {
    let scenario = night.scenario.scenario();
    let clock = night.scenario.clock();
    let units = scenario.units;
    let leave_s = night.trace.departure_s;
    // After a flight nothing is plugged in before the delay is over.
    let earliest_s = match &scenario.start.warmth {
        Warmth::after_flight { delay } => delay.si(),
        _ => 0.0,
    };
    let mut entries: Vec<(f64, String)> = Vec::new();
    for heater in &scenario.heaters {
        let place = match &heater.place {
            Place::at(place) => format!(" ({place})"),
            Place::aimed(_) => String::new(),
        };
        // Many a name tells its watts.
        let watts = format!("{:.0} W", heater.power.si());
        let watts = match heater.name.contains(&watts) {
            true => String::new(),
            false => format!(", {watts}"),
        };
        let thermostat = match &heater.thermostat {
            Some(t) => format!(
                "; its thermostat holds the {} between {} and {}",
                sensor(night, &t.sensor),
                t.lo.told(units),
                t.hi.told(units)
            ),
            None => String::new(),
        };
        let spans = match heater.hours {
            Hours::never => Vec::new(),
            _ => heater.hours.spans(clock, earliest_s, leave_s),
        };
        for (on_s, off_s) in spans {
            let on = format!("Switch on {}{watts}{place}{thermostat}.", heater.name);
            entries.push((on_s, on));
            if off_s < leave_s {
                entries.push((off_s, format!("Switch off {}.", heater.name)));
            }
        }
    }
    if scenario.heaters.is_empty() {
        entries.push((0.0, "No heater is planned.".to_owned()));
    }
    if let Some(check) = Checkpoint::of(night) {
        let half_s = (check.time_s + first_on_s(&night.trace)) / 2.0;
        for time_s in [half_s, check.time_s] {
            let reads = read(&night.trace, &check, time_s);
            entries.push((
                time_s,
                format!(
                    "The {} should read about {} or more, in the mean.",
                    check.label,
                    temperature(reads, units)
                ),
            ));
        }
    }
    if let Some(coldest) = &night.findings.coldest {
        let threshold_c = scenario.question.threshold.celsius();
        let gap = coldest.temp_c - threshold_c;
        let stands = if gap < 0.0 { "short of" } else { "over" };
        entries.push((
            leave_s,
            format!(
                "Departure. The {} is coldest, at {}, {} {stands} the {} asked: measure there.",
                coldest.label,
                finely(coldest.temp_c, units),
                size(gap, units),
                finely(threshold_c, units),
            ),
        ));
    }
    entries.sort_by(|a, b| a.0.total_cmp(&b.0));
    let short = !night.findings.ready.ready_at_departure;
    Card {
        short: short.then(|| SHORT.to_owned()),
        entries: entries
            .into_iter()
            .map(|(time_s, what)| Entry {
                clock: clock.dated(time_s),
                what,
            })
            .collect(),
        by_hand: BY_HAND.map(str::to_owned).to_vec(),
    }
}

fn first_on_s(trace: &Trace) -> f64 {
    let ons = trace.switchings.iter().filter(|s| s.on);
    ons.map(|s| s.time_s).fold(f64::MAX, f64::min)
}

/// What the spot of a checkpoint reads at another time, °C.
fn read(trace: &Trace, check: &Checkpoint, time_s: f64) -> f64 {
    let row = trace.at(time_s);
    let group = trace.legend.readings.iter().find(|r| r.key == check.spot);
    let cell = trace.legend.cells.iter().find(|c| c.part == check.spot);
    match (group, cell) {
        (Some(group), _) => group.columns.iter().map(|&(c, w)| w * row[c]).sum(),
        (None, Some(cell)) => row[cell.column],
        (None, None) => check.temp_c,
    }
}
