//! Where a night's heat went in its last hour.

use super::format::listed;
use super::model::Fact;
use crate::findings::{Findings, PathLoss};
use crate::trace::LossPath;
use serde_json::json;
use std::collections::BTreeMap;

/// Losses under this are not worth a word, W.
const LEAST_W: f64 = 0.5;

/// The losses, W by path, the largest first.
pub fn fact(f: &Findings) -> Fact {
    let by_path = f.losses_w.iter().map(|loss| (loss.path, loss.watts));
    let values = json!(by_path.collect::<BTreeMap<LossPath, f64>>());
    let text = shares(f).map_or(String::new(), |shares| format!("last hour: {shares}"));
    Fact::new("losses_w", "Heat", values, text)
}

/// Each path with its watts and its share; none if nothing is lost.
pub fn shares(f: &Findings) -> Option<String> {
    each(f, |loss, percent| {
        format!("{} {:.0} W ({percent:.0} %)", path(loss.path), loss.watts)
    })
}

/// Each path with its share; none if nothing is lost.
pub fn in_percent(f: &Findings) -> Option<String> {
    each(f, |loss, percent| {
        format!("{} {percent:.0} %", path(loss.path))
    })
}

/// The losses that are worth a word, the largest first, each with its share of them in percent.
fn each(f: &Findings, text: impl Fn(&PathLoss, f64) -> String) -> Option<String> {
    let mut losses: Vec<&PathLoss> = f.losses_w.iter().filter(|l| l.watts >= LEAST_W).collect();
    losses.sort_by(|a, b| b.watts.total_cmp(&a.watts));
    let total: f64 = losses.iter().map(|loss| loss.watts).sum();
    let words = losses
        .iter()
        .map(|loss| text(loss, 100.0 * loss.watts / total));
    (!losses.is_empty()).then(|| listed(words))
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
