//! What would raise the chance: one change at a time, each simulated as a night of its own.

use super::case::Case;
use super::change::Change;
use super::paired::Bands;
use super::quantile::Share;
use super::simulate::{Job, Outcome, Simulation, Subject, chance, succeeded};
use crate::quantity::Power;
use crate::scenario::document::Scenario;
use crate::scenario::heater::{Heater, Place};
use crate::scenario::hours::Hours;
use std::ops::Range;

/// How far plugs that fit close an outlet and the inlets (estimates: foam cut to shape still leaks at its edges).
const OUTLET: f64 = 0.90;
const INLETS: f64 = 0.97;
/// Plugs that close so nearly as much are left alone.
const NEARLY: f64 = 0.02;
/// A quilted blanket over the upper cowl, m²K/W (estimate: two centimetres of batting).
const BLANKET: f64 = 0.5;
/// A stronger heater of the same kind.
const STRONGER: f64 = 1.5;
/// An earlier beginning, minutes.
const EARLIER_MIN: usize = 120;
/// Nights in which every change is tried, and changes that are then run in all.
const TRIED: u32 = 64;
const KEPT: usize = 3;
/// The least rise that is named, as a share.
const LEAST: f64 = 0.02;

/// A change with the chance it gives.
#[derive(Debug, Clone, PartialEq)]
pub struct Improvement {
    /// The changes, made together.
    pub changes: Vec<Change>,
    /// The chance with them.
    pub chance: Share,
    /// Mean energy, kWh.
    pub kwh: f64,
}

impl Improvement {
    /// The changes as `--set` takes them, `path=value`; none if one is no single value.
    pub fn set(&self, night: &Scenario) -> Option<Vec<String>> {
        let each = self.changes.iter().map(|change| change.setting(night));
        each.map(|set| set.map(|(path, value)| format!("{path}={value}")))
            .collect()
    }
}

/// The changes that raise the chance of a subject, the most helpful first.
pub fn improvements(
    simulation: &Simulation,
    subject: &Subject,
    written: &[Outcome],
    spare: &[Heater],
) -> Vec<Improvement> {
    let Some(now) = chance(written) else {
        return Vec::new();
    };
    let tried = simulation.count.nights.min(TRIED);
    let mut found: Vec<(Vec<Outcome>, Vec<Change>, Subject)> = candidates(&subject.night, spare)
        .into_iter()
        .filter_map(|changes| {
            let changed = changed(simulation, subject, &changes)?;
            let first = run(simulation, &changed, 0..tried);
            // A change that overheats or overloads is none.
            let hazardous = Bands::of("", first.iter().flatten()).hazardous();
            (!hazardous).then_some((first, changes, changed))
        })
        .collect();
    let ready = |first: &[Outcome]| first.iter().filter(|o| succeeded(o)).count();
    let before = ready(&written[..written.len().min(tried as usize)]);
    found.retain(|(first, ..)| ready(first) > before);
    found.sort_by_key(|(first, changes, _)| (std::cmp::Reverse(ready(first)), changes.len()));
    let all = found.into_iter().take(KEPT);
    let mut all: Vec<Improvement> = all
        .filter_map(|(mut outcomes, changes, changed)| {
            outcomes.extend(run(simulation, &changed, tried..simulation.count.nights));
            if Bands::of("", outcomes.iter().flatten()).hazardous() {
                return None;
            }
            let kwh: Vec<f64> = outcomes.iter().flatten().map(|o| o.kwh).collect();
            Some(Improvement {
                changes,
                chance: chance(&outcomes)?,
                kwh: kwh.iter().sum::<f64>() / kwh.len() as f64,
            })
        })
        .filter(|improved| improved.chance.share >= now.share + LEAST)
        .collect();
    all.sort_by(|a, b| b.chance.share.total_cmp(&a.chance.share));
    all
}

/// The subject with the changes; none if that makes no night.
fn changed(simulation: &Simulation, subject: &Subject, changes: &[Change]) -> Option<Subject> {
    let mut night = subject.night.clone();
    for change in changes {
        night = change.of(&night);
    }
    simulation.subject(&Case::whole("", &night)).ok()
}

/// Simulated nights of these numbers.
fn run(simulation: &Simulation, subject: &Subject, numbers: Range<u32>) -> Vec<Outcome> {
    let nothing = Case::default();
    let job = |number| Job {
        subject,
        change: &nothing,
        number,
    };
    simulation.run(&numbers.map(job).collect::<Vec<_>>())
}

/// What is tried: plugs that fit, a blanket, more watts, an earlier beginning, each spare heater.
fn candidates(night: &Scenario, spare: &[Heater]) -> Vec<Vec<Change>> {
    let covers = &night.covers;
    let outlet =
        (covers.outlet_plug < OUTLET - NEARLY).then_some(Change::Outlet { closed: OUTLET });
    let inlets = (covers.inlet_plug < INLETS - NEARLY).then_some(Change::Inlets { closed: INLETS });
    let mut all: Vec<Vec<Change>> = Vec::new();
    all.extend(outlet.clone().map(|change| vec![change]));
    all.extend(inlets.clone().map(|change| vec![change]));
    all.extend(outlet.zip(inlets).map(|(a, b)| vec![a, b]));
    let over = super::change::upper_skins(night);
    if covers.blankets.is_empty() && !over.is_empty() {
        all.push(vec![Change::Blanket {
            pockets: over,
            resistance_m2k_w: BLANKET,
        }]);
    }
    let strongest = (0..night.heaters.len()).max_by(|&a, &b| {
        night.heaters[a]
            .power
            .si()
            .total_cmp(&night.heaters[b].power.si())
    });
    if let Some(heater) = strongest {
        let watts = 10.0 * (STRONGER * night.heaters[heater].power.si() / 10.0).round();
        all.push(vec![Change::Watts { heater, watts }]);
    }
    // Heaters that are on from the beginning are on earlier then.
    if night
        .heaters
        .iter()
        .any(|heater| heater.hours == Hours::always)
    {
        all.push(vec![Change::BegunEarlier {
            minutes: EARLIER_MIN,
        }]);
    }
    let free = |heater: &&Heater| {
        let at = |place: &Place| *place == heater.place;
        let taken = |h: &Heater| at(&h.place) || h.name == heater.name;
        heater.power > Power::W(0.0) && !night.heaters.iter().any(taken)
    };
    let spare = spare.iter().filter(free);
    all.extend(spare.map(|heater| vec![Change::Added(Box::new(heater.clone()))]));
    all
}
