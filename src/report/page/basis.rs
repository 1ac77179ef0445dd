//! What an answer rests on: its uncertain numbers, and what was noted on its files.

use crate::night::Night;
use crate::report::model::Section;
use crate::report::provenance::Provenance;
use crate::report::{Show, input_names};
use crate::scenario::engine::Engine;
use crate::scenario::uncertain::{Basis, Uncertain};

/// Uncertain numbers of the night that are listed one by one.
const UNKNOWNS: usize = 6;

/// What the answer to this night is based on.
pub fn section(night: &Night, from: &Provenance) -> Section {
    let mut lines = unknowns(night);
    lines.extend(from.notes.iter().chain(&from.hard_to_believe).cloned());
    Section::new("What it rests on")
        .shown(Show::Page)
        .list("", lines)
}

/// What is uncertain: the night's own numbers one by one, those of the engine counted.
fn unknowns(night: &Night) -> Vec<String> {
    let scenario = night.scenario.scenario();
    let basis = |b: Basis| match b {
        Basis::measured => "measured",
        Basis::published => "published",
        Basis::estimated => "estimated",
        Basis::calibrated => "adjusted to practice readings",
    };
    let of: &Uncertain = &scenario.uncertain;
    let mut told: Vec<String> = of
        .iter()
        .take(UNKNOWNS)
        .map(|(key, u)| {
            let unit = u.unit.as_deref().map_or(String::new(), |u| format!(" {u}"));
            format!(
                "{}: {} to {}{unit}, {} ({})",
                input_names::words(key),
                u.low,
                u.high,
                basis(u.basis),
                u.source
            )
        })
        .collect();
    if of.len() > UNKNOWNS {
        told.push(format!("{} more numbers of the night", of.len() - UNKNOWNS));
    }
    let engine = match &scenario.engine {
        Engine::opposed(layout) => layout.uncertain.len(),
        Engine::body(body) => body.uncertain.len(),
    };
    if engine > 0 {
        told.push(format!(
            "{engine} numbers of the engine are uncertain; `coldsoak spread` says which of them matter most on such a night"
        ));
    }
    told
}
