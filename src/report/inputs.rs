//! What was computed, in a few lines: the night, the engine, its coverings, its heaters with places and hours.

use super::format::temperature;
use super::model::Fact;
use crate::night::Night;
use crate::scenario::heater::{Heater, Place};
use crate::scenario::hours::Hours;
use crate::scenario::initial::InitialTemperature;

/// The lines of a night; `engine` is what its file is called, if it has one.
pub fn facts(night: &Night, engine: &str) -> Vec<Fact> {
    let scenario = night.scenario.scenario();
    let body = night.scenario.body();
    let parts = body.parts.iter().filter(|p| p.role.is_engine());
    let kg: f64 = parts.map(|p| p.mass.si()).sum();
    let oil = &scenario.oil.grade;
    let named = match engine {
        "" => String::new(),
        engine => format!("{engine}, "),
    };
    let water_g = scenario.initial.water_in_oil.si() * 1e3;
    let mut facts = vec![
        Fact::text("Night", &scenario.title),
        Fact::text("Time", hours(night)),
        Fact::text(
            "Engine",
            format!("{named}{kg:.0} kg with its oil, {oil}, {water_g:.0} g of water in the oil"),
        ),
    ];
    if !body.cowl_leaks.is_empty() {
        facts.push(Fact::text("Cowl", cowl(night)));
    }
    if scenario.heaters.is_empty() {
        facts.push(Fact::text("Heater", "none"));
    }
    let heaters = scenario.heaters.iter();
    facts.extend(heaters.map(|h| Fact::text("Heater", heater(h, night))));
    facts.push(Fact::text("Hangar", hangar(night)));
    facts
}

/// From when to when.
pub fn hours(night: &Night) -> String {
    let clock = night.scenario.clock();
    let leave_s = night.trace.departure_s;
    // Whole hours without a point.
    let hours = (leave_s / 360.0).round() / 10.0;
    format!(
        "{} to {}, {hours} h",
        clock.dated(0.0),
        clock.dated(leave_s)
    )
}

/// The hangar at the beginning and at the departure.
pub fn hangar(night: &Night) -> String {
    let scenario = night.scenario.scenario();
    let at = |time_s: f64| {
        let row = night.trace.at(time_s);
        let value = row.get(night.trace.legend.hangar).copied();
        let air = temperature(value.unwrap_or(0.0), scenario.units);
        format!("{air} at {}", night.scenario.clock().dated(time_s))
    };
    let name = &scenario.hangar.name;
    format!("{name}, {}, {}", at(0.0), at(night.trace.departure_s))
}

/// How well the cowl is closed, and what lies over it.
pub fn cowl(night: &Night) -> String {
    let covers = &night.scenario.scenario().covers;
    let mut parts = vec![
        format!("inlets {:.0} % closed", 100.0 * covers.inlet_plug),
        format!("outlet {:.0} % closed", 100.0 * covers.outlet_plug),
    ];
    let blankets = covers.blankets.iter();
    parts.extend(blankets.map(|(volume, resistance)| {
        let r = resistance.si();
        format!(
            "blanket on the skin round {}, {r} m²K/W",
            called(night, volume)
        )
    }));
    if covers.blankets.is_empty() {
        parts.push("no blanket".to_owned());
    }
    if let Some(resistance) = covers.propeller {
        parts.push(format!("propeller cover {} m²K/W", resistance.si()));
    }
    if let Some(side) = &covers.open_side {
        let cm2 = side.area.si() * 1e4;
        let into = called(night, &side.pocket);
        parts.push(format!("a side open into {into}, {cm2:.0} cm²"));
    }
    if covers.filler_open {
        parts.push("oil filler open".to_owned());
    }
    parts.join(", ")
}

/// An air volume under the cowl as people call it, with its name.
fn called(night: &Night, name: &str) -> String {
    let volumes = &night.scenario.body().air_volumes;
    match volumes.iter().find(|v| v.name == name) {
        Some(found) => format!("the {} ({name})", found.label),
        None => name.to_owned(),
    }
}

/// What people call the part or the group of parts that a thermostat senses.
pub fn sensor(night: &Night, key: &str) -> String {
    let legend = &night.trace.legend;
    let reading = legend.readings.iter().find(|r| r.key == key);
    let cell = legend.cells.iter().find(|c| c.part == key);
    let label = reading.map(|r| &r.label).or(cell.map(|c| &c.label));
    label.map_or(key, String::as_str).to_owned()
}

/// The spans in which a heater is plugged in, s after the beginning, up to `end_s`.
pub fn plugged_in(heater: &Heater, night: &Night, end_s: f64) -> Vec<(f64, f64)> {
    // After a flight nothing is plugged in before the delay is over.
    let earliest_s = match &night.scenario.scenario().initial.temperature {
        InitialTemperature::after_flight { delay } => delay.si(),
        _ => 0.0,
    };
    match heater.hours {
        Hours::never => Vec::new(),
        _ => heater
            .hours
            .spans(night.scenario.clock(), earliest_s, end_s),
    }
}

/// Whether a name states this power: `250 W fan` does not state 50 W.
pub fn states(name: &str, power: &str) -> bool {
    let numeral = |c: char| c.is_ascii_digit() || c == '.' || c == ',';
    name.match_indices(power)
        .any(|(at, _)| !name[..at].ends_with(numeral))
}

fn heater(heater: &Heater, night: &Night) -> String {
    let place = match &heater.place {
        Place::at(place) => format!("at {place}"),
        Place::aimed(_) => "aimed by hand".to_owned(),
    };
    let clock = night.scenario.clock();
    let spans = plugged_in(heater, night, night.scenario.end_s()).into_iter();
    let spans = spans.map(|(on, off)| format!("{} to {}", clock.dated(on), clock.dated(off)));
    let hours = match spans.collect::<Vec<_>>().join(" and ") {
        none if none.is_empty() => "unplugged".to_owned(),
        spans => spans,
    };
    let units = night.scenario.scenario().units;
    let thermostat = heater.thermostat.as_ref().map_or(String::new(), |t| {
        format!(
            ", thermostat on the {}: on at {}, off at {}",
            sensor(night, &t.sensor),
            t.on_at.to_text(units),
            t.off_at.to_text(units)
        )
    });
    let power = format!("{:.0} W", heater.power.si());
    let watts = match states(&heater.name, &power) {
        true => String::new(),
        false => format!(", {power}"),
    };
    format!("{}{watts}, {place}, {hours}{thermostat}", heater.name)
}

/// The night that all choices share.
pub fn setting(title: &str, night: &Night) -> Vec<Fact> {
    let water_g = night.scenario.scenario().initial.water_in_oil.si() * 1e3;
    vec![
        Fact::text("Night", title),
        Fact::text("Time", hours(night)),
        Fact::text("Hangar", hangar(night)),
        Fact::text("Engine", format!("{water_g:.0} g of water in the oil")),
    ]
}

/// The clock time so many minutes before departure.
pub fn clock(night: &Night, minutes: usize) -> String {
    let clock = night.scenario.clock();
    clock.dated(clock.night_s() - 60.0 * minutes as f64)
}

/// The departure.
pub fn leave(night: &Night) -> String {
    clock(night, 0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_power_is_left_out_only_where_the_name_states_just_this() {
        assert!(states("bay fan 350 W", "350 W") && states("350 W fan", "350 W"));
        assert!(!states("the 350 W fan", "50 W") && !states("fan of 1.50 W", "50 W"));
    }
}
