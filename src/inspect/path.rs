//! A way for heat, and the list in which laws between the same two nodes are added up.

use super::nodes::Nodes;
use serde::Serialize;
use std::collections::BTreeMap;

/// A way for heat from one node to another at one moment.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct HeatPath {
    /// The node it comes from.
    pub from: String,
    /// The node it goes to.
    pub to: String,
    /// How it flows.
    pub kind: PathKind,
    /// The slope of the heat along the temperature difference, W/K, at the air speeds, streams and vapours of
    /// the moment. Free convection grows faster than the difference, so its slope exceeds heat over
    /// difference.
    pub conductance_w_per_k: f64,
    /// The heat it carries, W; negative if it flows the other way.
    pub heat_w: f64,
    /// The difference that drives it, K: between its two nodes, unless its [`PathKind`] says otherwise.
    pub difference_k: f64,
    /// Whether it runs one way only, carried by moving air or vapour: the node it goes to has no like effect
    /// on the node it comes from.
    pub directed: bool,
}

/// How heat flows along a path.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum PathKind {
    /// Through metal and joints.
    Conduction,
    /// Through oil, which mixes when heated from below.
    Oil,
    /// Between a surface and the air or surroundings it meets, with the half cell behind it.
    Surface,
    /// From fins to the air that reaches between them.
    Fins,
    /// Between surfaces that see each other. The slope is the mean of those along the two temperatures.
    Radiation,
    /// From an outer surface: free convection, wind and radiation, under its cover.
    Outside,
    /// Between an inner wall or the oil and the air inside.
    InnerWall,
    /// With vapour that condenses on an inner wall, or (negative) evaporates from it. The slope is along the
    /// wall's temperature alone.
    Latent,
    /// Through breather and filler, heat one can feel only.
    Breather,
    /// With air through an opening between pockets; driven by the difference to the hangar.
    Stream,
    /// With air exchanged both ways through a level opening.
    Exchange,
    /// With air that leaves to the hangar.
    Gap,
    /// With the air through a fin passage; driven by the difference to the hangar.
    FinAir,
    /// From a finned cell to the air through its passage, and with it to where the air leaves; driven by the
    /// difference to the pocket where the air enters.
    FinPassage,
    /// From a heater's jet to what it strikes; driven by the difference between jet and cell.
    Jet,
    /// With air a heater moves; driven by the difference to the hangar.
    Forced,
}

impl PathKind {
    /// Whether such a path runs one way only.
    pub fn directed(self) -> bool {
        use PathKind::{FinAir, FinPassage, Forced, Gap, Jet, Latent, Stream};
        matches!(
            self,
            Latent | Stream | Gap | FinAir | FinPassage | Jet | Forced
        )
    }
}

/// What one law does between two nodes.
#[derive(Debug, Clone, Copy, Default)]
pub struct Share {
    /// The slope, W/K.
    pub w_per_k: f64,
    /// The heat from the first to the second, W.
    pub heat_w: f64,
    /// The driving difference, K.
    pub difference_k: f64,
}

/// Paths, laws of one kind between the same nodes made one.
#[derive(Debug, Default)]
pub struct Paths {
    sums: BTreeMap<(usize, usize, PathKind), Sum>,
}

#[derive(Debug, Default)]
struct Sum {
    w_per_k: f64,
    heat_w: f64,
    /// Slope times difference, W.
    weighed_w: f64,
}

impl Paths {
    /// Adds what one law does. Undirected paths run from the lower number to the higher.
    pub fn add(&mut self, from: usize, to: usize, kind: PathKind, share: Share) {
        let flip = !kind.directed() && to < from;
        let (key, sign) = if flip {
            ((to, from, kind), -1.0)
        } else {
            ((from, to, kind), 1.0)
        };
        let sum = self.sums.entry(key).or_default();
        sum.w_per_k += share.w_per_k;
        sum.heat_w += sign * share.heat_w;
        sum.weighed_w += sign * share.w_per_k * share.difference_k;
    }

    /// Takes a fixed heat off a path, as of surroundings that are so much warmer than was read.
    pub fn hold_back(&mut self, from: usize, to: usize, kind: PathKind, heat_w: f64) {
        let sum = self.sums.entry((from, to, kind)).or_default();
        sum.heat_w -= heat_w;
        sum.weighed_w -= heat_w;
    }

    /// The paths that lead heat or could, by the order of their nodes.
    pub fn listed(self, nodes: &Nodes) -> Vec<HeatPath> {
        self.sums
            .into_iter()
            .filter(|(_, s)| s.w_per_k != 0.0 || s.heat_w != 0.0)
            .map(|((from, to, kind), s)| HeatPath {
                from: nodes.list[from].name.clone(),
                to: nodes.list[to].name.clone(),
                kind,
                conductance_w_per_k: s.w_per_k,
                heat_w: s.heat_w,
                difference_k: if s.w_per_k == 0.0 {
                    0.0
                } else {
                    s.weighed_w / s.w_per_k
                },
                directed: kind.directed(),
            })
            .collect()
    }
}
