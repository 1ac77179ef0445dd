//! What was asked of a night, in a few lines: the engine, its coverings, its heaters with places and hours.

use super::format::wrapped;
use crate::night::Night;
use crate::scenario::heater::{Heater, Place};
use crate::scenario::hours::Hours;
use crate::scenario::start::Warmth;

/// The lines; `engine` is what its file is called.
pub fn told(night: &Night, engine: &str, width: u16) -> String {
    let scenario = night.scenario.scenario();
    let body = night.scenario.body();
    let kg: f64 = body
        .parts
        .iter()
        .filter(|p| p.role.is_engine())
        .map(|p| p.mass.si())
        .sum();
    let mut lines = vec![format!(
        "Engine: {engine}, {kg:.0} kg with its oil, {}.",
        scenario.oil.grade
    )];
    if !body.gaps.is_empty() {
        lines.push(format!("Cowl: {}.", coverings(night)));
    }
    if scenario.heaters.is_empty() {
        lines.push("Heaters: none.".to_owned());
    }
    for heater in &scenario.heaters {
        lines.push(format!("Heater: {}.", heater_told(heater, night)));
    }
    let wrapped: Vec<String> = lines.iter().map(|l| wrapped(l, width, "  ")).collect();
    wrapped.join("\n")
}

/// How well the cowl is closed, and what lies over it.
pub fn coverings(night: &Night) -> String {
    let covers = &night.scenario.scenario().covers;
    let mut told = vec![
        format!("inlets {:.0} percent plugged", 100.0 * covers.inlet_plug),
        format!("outlet {:.0} percent", 100.0 * covers.outlet_plug),
    ];
    for (pocket, resistance) in &covers.blankets {
        let r = resistance.si();
        told.push(format!(
            "blanket on the skin round {}, {r} m²K/W",
            called(night, pocket)
        ));
    }
    if covers.blankets.is_empty() {
        told.push("no blanket".to_owned());
    }
    if let Some(resistance) = covers.propeller {
        told.push(format!("propeller cover {} m²K/W", resistance.si()));
    }
    if let Some(side) = &covers.open_side {
        let cm2 = side.area.si() * 1e4;
        let into = called(night, &side.pocket);
        told.push(format!("a side open into {into}, {cm2:.0} cm²"));
    }
    if covers.filler_open {
        told.push("oil filler open".to_owned());
    }
    told.join(", ")
}

/// A pocket of bay air as people call it, with its name.
fn called(night: &Night, pocket: &str) -> String {
    let pockets = &night.scenario.body().pockets;
    match pockets.iter().find(|p| p.name == pocket) {
        Some(found) => format!("the {} ({pocket})", found.label),
        None => pocket.to_owned(),
    }
}

/// What people call the reading or the part that a thermostat feels.
pub fn sensor(night: &Night, key: &str) -> String {
    let legend = &night.trace.legend;
    let reading = legend.readings.iter().find(|r| r.key == key);
    let cell = legend.cells.iter().find(|c| c.part == key);
    let label = reading.map(|r| &r.label).or(cell.map(|c| &c.label));
    label.map_or(key, String::as_str).to_owned()
}

fn heater_told(heater: &Heater, night: &Night) -> String {
    let place = match &heater.place {
        Place::at(place) => format!("at {place}"),
        Place::aimed(_) => "aimed by hand".to_owned(),
    };
    // After a flight nothing is plugged in before the delay is over.
    let earliest_s = match &night.scenario.scenario().start.warmth {
        Warmth::after_flight { delay } => delay.si(),
        _ => 0.0,
    };
    let hours = match &heater.hours {
        Hours::never => "unplugged".to_owned(),
        Hours::always if earliest_s <= 0.0 => "on all night".to_owned(),
        hours => {
            let clock = night.scenario.clock();
            let spans = hours.spans(clock, earliest_s, night.scenario.end_s());
            let told: Vec<String> = spans
                .iter()
                .map(|(on, off)| format!("{} to {}", clock.dated(*on), clock.dated(*off)))
                .collect();
            told.join(" and ")
        }
    };
    let thermostat = heater.thermostat.as_ref().map_or(String::new(), |t| {
        let units = night.scenario.scenario().units;
        let (lo, hi) = (t.lo.told(units), t.hi.told(units));
        format!(
            ", thermostat on the {} from {lo} to {hi}",
            sensor(night, &t.sensor)
        )
    });
    format!(
        "{}, {:.0} W, {place}, {hours}{thermostat}",
        heater.name,
        heater.power.si()
    )
}
