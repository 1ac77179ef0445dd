//! What would raise the chance: each change with the chance that it gives.

use super::chance::{json as chance_json, percent};
use super::change;
use super::columns::{Cell, Table};
use crate::night::Night;
use crate::quantity::Units;
use crate::study::improve::Improvement;
use serde_json::{Value, json};

/// A change that raises the chance, for programs: what it sets.
pub fn facts(improved: &Improvement, night: &Night) -> Value {
    let (scenario, clock) = (night.scenario.scenario(), night.scenario.clock());
    let each = improved.changes.iter();
    let words = each.map(|c| change::words(c, scenario, clock, Units::Celsius));
    json!({
        "changes": words.collect::<Vec<_>>(),
        "set": improved.set(scenario),
        "ready": chance_json(Some(&improved.chance)),
        "energy_kwh": improved.kwh,
    })
}

/// Changes with the chance that each gives, a row each.
pub fn table(all: &[Improvement], night: &Night, target: f64) -> Table {
    let (scenario, clock) = (night.scenario.scenario(), night.scenario.clock());
    Table::of("", all)
        .words("", "What would raise the chance", |improved| {
            let each = improved.changes.iter();
            let words = each.map(|c| change::words(c, scenario, clock, scenario.units));
            let words = words.collect::<Vec<_>>().join("; ");
            Cell::from(capital(&words))
        })
        .number("", "Ready", |improved| percent(&improved.chance, target))
        .number("", "kWh", |improved| format!("{:.1}", improved.kwh))
        .table()
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters.next().map(|c| c.to_uppercase().collect::<String>());
    first.unwrap_or_default() + letters.as_str()
}
