//! A night followed to one moment and laid open there.

use super::conductances::heat_paths;
use super::constants::{Mode, ModeError, time_constants};
use super::entries::{Feed, HeaterEntries, entries, feeds};
use super::nodes::{Node, Nodes};
use super::path::HeatPath;
use crate::balance::{Balance, PressureError};
use crate::network::assemble;
use crate::night::{NightError, run};
use crate::scenario::document::Scenario;
use crate::trace::Trace;
use serde::Serialize;

/// Modes that are listed.
const MODES: usize = 5;

/// What is being solved, at one moment of a night.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct NetworkSnapshot {
    /// The title of the night.
    pub title: String,
    /// The moment by the local clock.
    pub clock: String,
    /// The moment, seconds after the beginning.
    pub time_s: f64,
    /// What heat flows between.
    pub nodes: Vec<Node>,
    /// The ways it takes.
    pub paths: Vec<HeatPath>,
    /// Where each heater's watts enter.
    pub heaters: Vec<HeaterEntries>,
    /// Watts fed at all times.
    pub heat_sources: Vec<Feed>,
    /// The slowest time constants, slowest first.
    pub modes: Vec<Mode>,
}

/// Why a night was not laid open.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum SnapshotError {
    /// The night was not computed.
    #[error(transparent)]
    Night(#[from] NightError),
    /// The moment lies outside the night.
    #[error(
        "{hour:.2} h after the beginning is no moment of this night, which lasts {night_h:.2} h"
    )]
    Outside {
        /// The time of the snapshot, h.
        hour: f64,
        /// The length of the night that is followed, h.
        night_h: f64,
    },
    /// The air streams do not balance at that moment.
    #[error(transparent)]
    Air(#[from] PressureError),
    /// No time constants were found.
    #[error(transparent)]
    Modes(#[from] ModeError),
}

/// Follows a night and lays it open so many seconds after its beginning. At the moment of a switching the
/// heater counts as on; between two samples the states lie on a straight line.
///
/// *Errors*: those of [`run`], a moment outside the night, or one at which the mathematics fails.
pub fn anatomy(scenario: &Scenario, at_s: f64) -> Result<NetworkSnapshot, SnapshotError> {
    let night = run(scenario)?;
    let checked = &night.scenario;
    let end_s = checked.end_s();
    if !(0.0..=end_s).contains(&at_s) {
        return Err(SnapshotError::Outside {
            hour: at_s / 3600.0,
            night_h: end_s / 3600.0,
        });
    }
    let net = assemble(checked);
    let mut balance = Balance::new(&net);
    for heater in 0..net.heaters.len() {
        balance.switch(heater, is_on(&night.trace, heater, at_s));
    }
    let sample = night.trace.at(at_s);
    balance.rates(at_s, &sample[..net.index.states()])?;
    let nodes = Nodes::new(checked, &balance);
    Ok(NetworkSnapshot {
        title: scenario.title.clone(),
        clock: checked.clock().to_text(at_s),
        time_s: at_s,
        paths: heat_paths(&balance, &nodes),
        heaters: entries(&balance, &nodes),
        heat_sources: feeds(&balance, &nodes),
        modes: time_constants(&mut balance, &nodes, MODES)?,
        nodes: nodes.list,
    })
}

fn is_on(trace: &Trace, heater: usize, at_s: f64) -> bool {
    trace
        .on_spans(heater)
        .iter()
        .any(|&(on, off)| on <= at_s && at_s <= off)
}
