//! Air that a heater moves: it must find a way out of the bay, or a way back.

use super::super::body::Body;
use super::super::cover::Covers;
use super::super::heater::{Aim, Heater, HeaterKind};
use super::names::listed;
use super::problem::Problems;
use std::collections::{BTreeMap, BTreeSet};

/// How far the shares of a heater may be from one.
pub(super) const SHARE_TOLERANCE: f64 = 1e-6;

/// Air that is blown in must find a way out, and air that is moved a way back.
pub(super) fn way_out(
    heater: &Heater,
    aim: &Aim,
    body: &Body,
    covers: &Covers,
    path: &str,
    problems: &mut Problems,
) {
    let drawn = match heater.kind {
        HeaterKind::bay_fan { .. } => 1.0,
        HeaterKind::ducted { .. } => 0.0,
        _ => return,
    };
    let (group, open) = groups(body, covers);
    let mut net: BTreeMap<usize, f64> = BTreeMap::new();
    for (list, sign) in [(&aim.discharge, 1.0), (&aim.intake, -drawn)] {
        for (name, share) in list {
            if let Some(&g) = group.get(name.as_str()) {
                *net.entry(g).or_default() += sign * share;
            }
        }
    }
    let shut = |(g, net): (&usize, &f64)| net.abs() > SHARE_TOLERANCE && !open.contains(g);
    if let Some((&g, _)) = net.iter().find(|&(g, n)| shut((g, n))) {
        let pockets: Vec<&str> = group
            .iter()
            .filter(|&(_, &at)| at == g)
            .map(|(&name, _)| name)
            .collect();
        let what = format!(
            "`{}` blows air, but {} nowhere to let it go: no passage or gap leads out",
            heater.name,
            if pockets.len() == 1 {
                format!("the air volume {} has", listed(&pockets))
            } else {
                format!("the air volumes {} have", listed(&pockets))
            },
        );
        problems
            .tell(format!("{path}.place"), what)
            .word(&heater.name)
            .help("open a plug, or give one of these air volumes a leak");
    }
}

/// Air volumes that share their air through passages, as group numbers; and the groups open to the hangar.
fn groups<'a>(body: &'a Body, covers: &Covers) -> (BTreeMap<&'a str, usize>, BTreeSet<usize>) {
    use super::super::body::OpeningKind;
    let mut group: BTreeMap<&str, usize> = BTreeMap::new();
    for (i, pocket) in body.air_volumes.iter().enumerate() {
        group.insert(&pocket.name, i);
    }
    let passages = body
        .openings
        .iter()
        .filter(|p| p.area.si() > 0.0)
        .map(|p| (p.between.0.as_str(), p.between.1.as_str()));
    let fins = body
        .fin_passages
        .iter()
        .map(|p| (p.below.as_str(), p.above.as_str()));
    for (a, b) in passages.chain(fins) {
        if let (Some(&keep), Some(&old)) = (group.get(a), group.get(b)) {
            group
                .values_mut()
                .filter(|g| **g == old)
                .for_each(|g| *g = keep);
        }
    }
    let gaps = body.cowl_leaks.iter().filter(|gap| {
        let left = match gap.opening {
            OpeningKind::inlet => 1.0 - covers.inlet_plug,
            OpeningKind::outlet => 1.0 - covers.outlet_plug,
            _ => 1.0,
        };
        gap.area.si() * left > 0.0
    });
    let side = covers.open_side.as_ref().map(|side| side.pocket.as_str());
    let open = gaps
        .map(|gap| gap.pocket.as_str())
        .chain(side)
        .filter_map(|pocket| group.get(pocket).copied())
        .collect();
    (group, open)
}
