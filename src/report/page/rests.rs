//! What every page rests on, and where it comes from.

use super::data::{Rests, Row};
use crate::night::Night;
use crate::report::cautions::{CAUTIONS, TRUST};
use crate::report::input_names;
use crate::report::provenance::Provenance;
use crate::scenario::engine::Engine;
use crate::scenario::unknowns::{Basis, Unknowns};

/// Uncertain numbers of the night that are told one by one.
const UNKNOWNS: usize = 6;

/// What a page of this night rests on.
pub fn rests(night: &Night, from: &Provenance) -> Rests {
    let mut told = unknowns(night);
    told.extend(from.notes.iter().chain(&from.hard_to_believe).cloned());
    Rests {
        trust: TRUST.to_owned(),
        told,
        cautions: CAUTIONS.iter().map(|c| (*c).to_owned()).collect(),
        version: from.version.to_owned(),
        command: from.typed(),
        inputs: from
            .inputs
            .iter()
            .map(|i| Row::of(&i.name, [i.sha256.clone()]))
            .collect(),
    }
}

/// What is uncertain: the night's own numbers one by one, those of the engine counted.
fn unknowns(night: &Night) -> Vec<String> {
    let scenario = night.scenario.scenario();
    let basis = |b: Basis| match b {
        Basis::measured => "measured",
        Basis::published => "published",
        Basis::estimated => "estimated",
        Basis::adjusted_to_practice_readings => "adjusted to practice readings",
    };
    let of: &Unknowns = &scenario.unknowns;
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
        Engine::opposed(layout) => layout.unknowns.len(),
        Engine::body(body) => body.unknowns.len(),
    };
    if engine > 0 {
        told.push(format!(
            "{engine} numbers of the engine are uncertain; `coldsoak spread` says which of them matter most on such a night"
        ));
    }
    told
}
