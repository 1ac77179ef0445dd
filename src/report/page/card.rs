//! The schedule card: when to switch what on, what a thermometer should read on the way, what to check by hand.

use super::data::{Card, Entry};
use crate::findings::THIN_MARGIN_K;
use crate::night::Night;
use crate::quantity::Units;
use crate::report::asked::{coverings, sensor};
use crate::report::phrase::{finely, size, whole};
use crate::scenario::heater::Place;
use crate::scenario::hours::Hours;
use crate::scenario::part::Role;
use crate::scenario::start::Warmth;
use crate::study::when::Checkpoint;
use crate::trace::{CellNote, Trace};

/// What to check by hand before the flight. Common practice, no source; the makers' manuals come first.
const MAGNETOS: &str = "Magnetos off, key out, before anybody touches the propeller.";
const FEEL: &str = "Feel or measure all of oil, cylinders, crankcase and propeller flange";
const BY_HAND: [&str; 3] = [
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
        let watts = match tells(&heater.name, &watts) {
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
    if !night.scenario.body().gaps.is_empty() {
        let close = format!("Close the cowl as computed: {}.", coverings(night));
        entries.push((0.0, close));
    }
    let spot = spot(&night.trace);
    if let (Some(check), Some(spot)) = (Checkpoint::of(night), spot) {
        let on_s = first_on_s(&night.trace);
        let put = format!(
            "Put a thermometer on the {}: of what air reaches, the coldest at departure.",
            spot.label
        );
        entries.push((on_s, put));
        for time_s in [(check.time_s + on_s) / 2.0, check.time_s] {
            let reads = reads(spot, &night.trace.at(time_s), units);
            entries.push((time_s, format!("It should read {reads}.")));
        }
    }
    if let Some(coldest) = &night.findings.coldest {
        let threshold_c = scenario.question.threshold.celsius();
        let gap = coldest.temp_c - threshold_c;
        let stands = if gap < 0.0 { "short of" } else { "over" };
        let there = spot.filter(|s| s.part != coldest.part);
        let there = there.map_or(String::new(), |s| {
            let reads = reads(s, &night.trace.at(leave_s), units);
            format!(" It should read {reads}.")
        });
        entries.push((
            leave_s,
            format!(
                "Departure.{there} The {} is coldest, at {}, {} {stands} the {} asked: measure there.",
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
        by_hand: by_hand(night),
    }
}

fn by_hand(night: &Night) -> Vec<String> {
    let units = night.scenario.scenario().units;
    let parts = &night.scenario.body().parts;
    let mut propeller = parts.iter().filter(|p| p.role == Role::propeller);
    let hub = propeller.next().and_then(|hub| {
        let found = night.findings.parts.iter().find(|p| p.part == hub.name)?;
        let at = whole(found.temp_c, units);
        Some(format!("; the {} should be at about {at}", found.label))
    });
    let feel = format!("{FEEL}{}.", hub.unwrap_or_default());
    let rest = BY_HAND.map(str::to_owned);
    [MAGNETOS.to_owned(), feel]
        .into_iter()
        .chain(rest)
        .collect()
}

/// Whether a name tells these watts: `250 W fan` does not tell 50 W.
fn tells(name: &str, watts: &str) -> bool {
    let numeral = |c: char| c.is_ascii_digit() || c == '.' || c == ',';
    name.match_indices(watts)
        .any(|(at, _)| !name[..at].ends_with(numeral))
}

/// The one spot for a thermometer: the engine part that is coldest at departure of those that the air round the engine
/// reaches, so that a probe can be put on it; of all engine parts where air reaches none.
fn spot(trace: &Trace) -> Option<&CellNote> {
    let row = trace.at(trace.departure_s);
    let coldest = |reached: bool| {
        let cells = trace.legend.cells.iter();
        let cells = cells.filter(|c| c.engine && (!reached || !c.pockets.is_empty()));
        cells.min_by(|a, b| row[a.column].total_cmp(&row[b.column]))
    };
    coldest(true).or_else(|| coldest(false))
}

/// What a thermometer reads there, and how far off it may be: as far as a cowl closed worse or better moves the coldest
/// part.
fn reads(spot: &CellNote, row: &[f64], units: Units) -> String {
    let doubt = units.step(THIN_MARGIN_K);
    format!(
        "{}, give or take {doubt:.0}",
        whole(row[spot.column], units)
    )
}

fn first_on_s(trace: &Trace) -> f64 {
    let ons = trace.switchings.iter().filter(|s| s.on);
    ons.map(|s| s.time_s).fold(f64::MAX, f64::min)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::files::night::load_named_from;
    use crate::files::sources::Outside;
    use crate::night::run;

    #[test]
    fn watts_are_left_out_only_where_the_name_tells_just_these() {
        assert!(tells("bay fan 350 W", "350 W") && tells("350 W fan", "350 W"));
        assert!(!tells("the 350 W fan", "50 W") && !tells("fan of 1.50 W", "50 W"));
    }

    /// The spot is one part, can be reached, and no other that can be is colder.
    #[test]
    fn the_thermometer_goes_where_a_probe_can_and_where_it_is_coldest() {
        for name in [
            "demo",
            "radial-underneath",
            "thermostat-pad",
            "block-cooling",
        ] {
            let scenario = load_named_from(name, Outside::Refused).unwrap().scenario;
            let night = run(&scenario).unwrap();
            let spot = spot(&night.trace).unwrap();
            let row = night.trace.at(night.trace.departure_s);
            let cells = night.trace.legend.cells.iter().filter(|c| c.engine);
            let reached: Vec<_> = cells.filter(|c| !c.pockets.is_empty()).collect();
            assert!(name == "block-cooling" || reached.contains(&spot), "{name}");
            for cell in reached {
                assert!(
                    row[cell.column] >= row[spot.column],
                    "{name}: {}",
                    cell.label
                );
            }
        }
    }
}
