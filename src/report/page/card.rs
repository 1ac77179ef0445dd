//! The schedule card: when to switch what on, what a thermometer should read, what to check by hand.

use crate::findings::Unmet;
use crate::night::Night;
use crate::quantity::Units;
use crate::report::format::{finely, size};
use crate::report::inputs::{cowl, plugged_in, sensor, states};
use crate::report::model::{Fact, Section};
use crate::report::{Show, reading, verdict};
use crate::scenario::heater::Place;
use crate::scenario::part::Role;
use crate::study::when::{Checkpoint, Thermometer};
use crate::trace::Trace;

/// What to check by hand before the flight. Common practice, no source; the makers' manuals come first.
const MAGNETOS: &str = "Magnetos off, key out, before anybody touches the propeller.";
const FEEL: &str = "Feel or measure all of oil, cylinders, crankcase and propeller flange";
const FILLER: &str = "Put the cap back on the oil filler.";
const BY_HAND: [&str; 3] = [
    "Unplug every heater, take it out, and put the cord away from the propeller.",
    "Take out plugs, blankets and covers, and count them.",
    "Look into the filler and at the breather's end for water and ice.",
];

/// The card of a night under its answer; `choice` is the name of its choice, if there are others.
pub fn section(
    night: &Night,
    choice: Option<&str>,
    rule: Option<&Thermometer>,
    answer: Option<String>,
) -> Section {
    let scenario = night.scenario.scenario();
    let clock = night.scenario.clock();
    let units = scenario.units;
    let leave_s = night.trace.departure_s;
    let mut entries: Vec<(f64, String)> = Vec::new();
    // Of what is to be done at one time, the cowl and the thermometer come first.
    if !night.scenario.body().cowl_leaks.is_empty() {
        let close = format!("Close the cowl as computed: {}.", cowl(night));
        entries.push((0.0, close));
    }
    let check = Checkpoint::of(night).filter(|_| rule.is_none());
    if let Some(rule) = rule {
        let put = format!("Put a thermometer on the {}.", rule.label);
        entries.push((first_on_s(&night.trace), put));
        let leave = clock.dated(leave_s);
        let limit = whole(rule.rule(units).limit_c, units);
        let read = format!(
            "{limit} or more on the {}: leave at {leave}. Less: do not leave then; read again every 30 min.",
            rule.label
        );
        entries.push((rule.time_s, read));
    }
    if let Some(check) = &check {
        let on_s = first_on_s(&night.trace);
        let put = format!(
            "Put a thermometer on the {}: of what air reaches, the coldest at departure.",
            check.label
        );
        entries.push((on_s, put));
        for time_s in [(check.time_s + on_s) / 2.0, check.time_s] {
            entries.push((time_s, reads(check, &night.trace, time_s, units)));
        }
    }
    for heater in &scenario.heaters {
        let place = match &heater.place {
            Place::at(place) => format!(" ({place})"),
            Place::aimed(_) => String::new(),
        };
        // Many a name states its watts.
        let watts = format!("{:.0} W", heater.power.si());
        let watts = match states(&heater.name, &watts) {
            true => String::new(),
            false => format!(", {watts}"),
        };
        let thermostat = match &heater.thermostat {
            Some(t) => format!(
                "; its thermostat switches it off at {} of the {}, on again at {}",
                t.off_at.to_text(units),
                sensor(night, &t.sensor),
                t.on_at.to_text(units)
            ),
            None => String::new(),
        };
        for (on_s, off_s) in plugged_in(heater, night, leave_s) {
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
    if let Some(coldest) = &night.findings.coldest {
        let threshold_c = scenario.criteria.min_temperature.celsius();
        let gap = coldest.temp_c - threshold_c;
        let side = if gap < 0.0 { "below" } else { "above" };
        let there = check.iter().filter(|c| c.spot != coldest.part);
        let there = there.map(|c| format!(" {}", reads(c, &night.trace, leave_s, units)));
        let there: String = there.collect();
        entries.push((
            leave_s,
            format!(
                "Departure.{there} The {} is coldest, at {}, {} {side} the minimum of {}{}.",
                coldest.label,
                finely(coldest.temp_c, units),
                size(gap, units),
                finely(threshold_c, units),
                if night.findings.ready.is_small() {
                    ": a small margin"
                } else {
                    ""
                },
            ),
        ));
    }
    entries.sort_by(|a, b| a.0.total_cmp(&b.0));
    let f = &night.findings;
    let wet = f.ready.unmet.iter().any(|u| matches!(u, Unmet::Wet { .. }));
    let only_when = match wet {
        true => "the coldest part itself is warm and the upper walls inside are dry",
        false => "the coldest part itself is warm",
    };
    let less = check.iter().map(|_| format!(
        "If it reads less, the night is not the computed one: leave later, and only when {only_when}."
    ));
    let lacking = (!f.ready.ready_at_departure).then(|| verdict::sentence(night));
    let entries = entries.into_iter();
    let title = "Card for the hangar wall";
    Section::new(choice.map_or(title.to_owned(), |name| format!("{title}: {name}")))
        .shown(Show::Page)
        .say(answer)
        .hazard(verdict::do_not(f))
        .hazard(lacking)
        .facts(entries.map(|(time_s, what)| Fact::text(clock.dated(time_s), what)))
        .say(less.chain(["By hand, before the flight:".to_owned()]))
        .list("", by_hand(night))
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
    let open = night.scenario.scenario().covers.filler_open;
    let rest = BY_HAND.into_iter().chain(open.then_some(FILLER));
    let first = [MAGNETOS.to_owned(), feel].into_iter();
    first.chain(rest.map(str::to_owned)).collect()
}

fn first_on_s(trace: &Trace) -> f64 {
    let ons = trace.switchings.iter().filter(|s| s.on);
    ons.map(|s| s.time_s).fold(f64::MAX, f64::min)
}

/// What the thermometer should read at a time.
fn reads(check: &Checkpoint, trace: &Trace, time_s: f64, units: Units) -> String {
    let cells = trace.legend.cells.iter();
    let row = trace.at(time_s);
    let here = cells
        .filter(|c| c.part == check.spot)
        .map(|c| row[c.column]);
    let celsius = here.reduce(f64::min).unwrap_or(check.temp_c);
    format!("It should read {}.", reading::words(celsius, units))
}

/// The same in whole degrees, for who reads a thermometer.
fn whole(celsius: f64, units: Units) -> String {
    let value = units.temperature(celsius).round();
    // Minus nothing is nothing.
    format!("{} {}", value + 0.0, units.symbol())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_thermometer_is_read_in_whole_degrees() {
        assert_eq!(whole(-0.3, Units::Celsius), "0 °C");
        assert_eq!(whole(-17.6, Units::Celsius), "-18 °C");
    }
}
