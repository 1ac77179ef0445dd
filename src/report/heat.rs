//! Where a night's heat went in its last hour.

use super::model::Fact;
use crate::findings::{Findings, PathLoss};
use crate::trace::LossPath;
use serde_json::{Map, Value};

/// Losses under this are not worth a word, W.
const LEAST_W: f64 = 0.5;

/// The losses, W by path, the largest first.
pub fn fact(f: &Findings) -> Fact {
    let by_path = |loss: &PathLoss| (key(loss.path).to_owned(), loss.watts.into());
    let values: Map<String, Value> = f.losses_w.iter().map(by_path).collect();
    let text = shares(f).map_or(String::new(), |shares| format!("last hour: {shares}"));
    Fact::new("losses_w", "Heat", Value::Object(values), text)
}

/// Each path with its watts and its share; none if nothing is lost.
pub fn shares(f: &Findings) -> Option<String> {
    let mut losses: Vec<&PathLoss> = f.losses_w.iter().filter(|l| l.watts >= LEAST_W).collect();
    losses.sort_by(|a, b| b.watts.total_cmp(&a.watts));
    let total: f64 = losses.iter().map(|loss| loss.watts).sum();
    let text = |loss: &&PathLoss| {
        let percent = 100.0 * loss.watts / total;
        format!("{} {:.0} W ({percent:.0} %)", path(loss.path), loss.watts)
    };
    let texts: Vec<String> = losses.iter().map(text).collect();
    (!texts.is_empty()).then(|| texts.join(", "))
}

/// What a way that heat leaves by is called.
pub fn path(path: LossPath) -> &'static str {
    match path {
        LossPath::Skins => "cowl skin",
        LossPath::Gaps => "air leaks",
        LossPath::Duct => "duct",
        LossPath::Propeller => "propeller",
        LossPath::Firewall => "firewall",
        LossPath::Breather => "vapour through the breather",
        LossPath::Surroundings => "surroundings",
    }
}

/// The key of a way that heat leaves by; these names are part of the contract.
fn key(path: LossPath) -> &'static str {
    match path {
        LossPath::Skins => "skins",
        LossPath::Gaps => "gaps",
        LossPath::Duct => "duct",
        LossPath::Propeller => "propeller",
        LossPath::Firewall => "firewall",
        LossPath::Breather => "breather",
        LossPath::Surroundings => "surroundings",
    }
}
