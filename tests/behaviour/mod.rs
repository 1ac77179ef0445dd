//! What must hold of whole nights. Each test is a claim, and says engine, coverings, start and water.

mod counts;
mod findings;
mod heat;
mod still;
mod symmetry;
mod water;

use coldsoak::night::{Night, run};
use coldsoak::scenario::document::Scenario;

/// Computes a night.
pub fn computed(scenario: &Scenario) -> Night {
    run(scenario).unwrap_or_else(|e| panic!("{e}"))
}

/// A column of the trace by its key.
pub fn column(night: &Night, key: &str) -> usize {
    let columns = &night.trace.legend.columns;
    columns
        .iter()
        .position(|c| c.key == key)
        .unwrap_or_else(|| panic!("no column {key}"))
}

/// A column at the departure.
pub fn at_departure(night: &Night, key: &str) -> f64 {
    night.trace.at(night.trace.departure_s)[column(night, key)]
}

/// A group of parts at the departure, °C.
pub fn group(night: &Night, key: &str) -> f64 {
    let groups = &night.findings.groups_c;
    groups.iter().find(|g| g.key == key).unwrap().temp_c
}

/// The mean temperature of engine parts, weighed by heat capacity, at the departure, °C.
pub fn mean(night: &Night) -> f64 {
    let row = night.trace.at(night.trace.departure_s);
    let cells = night.trace.legend.cells.iter().filter(|c| c.engine);
    let (mut heat, mut capacity) = (0.0, 0.0);
    for cell in cells {
        heat += cell.heat_capacity_j_per_k * row[cell.column];
        capacity += cell.heat_capacity_j_per_k;
    }
    heat / capacity
}

/// Watts lost by a path in the last hour.
pub fn lost(night: &Night, path: coldsoak::trace::LossPath) -> f64 {
    let losses = &night.findings.losses_w;
    losses
        .iter()
        .find(|l| l.path == path)
        .map_or(0.0, |l| l.watts)
}
