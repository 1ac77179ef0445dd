//! Heat carried by air: through openings and fin passages, and by the fans of heaters.
//!
//! A stream carries its enthalpy over that of the hangar air, so its conductance is its heat capacity rate,
//! and it acts in its own direction only.

use super::nodes::{NodeKind, Nodes};
use super::path::{PathKind, Paths, Share};
use crate::laws::{Element, HeaterTerm};
use crate::network::Network;
use crate::physics::air::HEAT_CAPACITY_J_PER_KGK;

/// Adds all that moving air carries.
pub fn add(paths: &mut Paths, nodes: &Nodes, net: &Network, x: &[f64], on: &[f64]) {
    let mut carriage = Carriage { paths, nodes, x };
    let laws = &net.laws;
    let hangar = net.index.hangar();
    for passage in &laws.passages {
        let [.., a, b, _, _, _] = passage.columns;
        let rows = passage.linearise(x, on).map(|row| row.value);
        // Rows: mass of the first, and the mean of the two one-way streams.
        let (net_stream, mean) = (-rows[4], rows[6]);
        let [there, back] = [0.5, -0.5].map(|half| mean + half * net_stream);
        let kind = PathKind::Stream;
        carriage.carry(a, b, kind, there * HEAT_CAPACITY_J_PER_KGK, hangar);
        carriage.carry(b, a, kind, back * HEAT_CAPACITY_J_PER_KGK, hangar);
    }
    for gap in &laws.gaps {
        let [_, pocket, ..] = gap.columns;
        let rows = gap.linearise(x, on).map(|row| row.value);
        let out = rows[3] - 0.5 * rows[2];
        let w_per_k = out * HEAT_CAPACITY_J_PER_KGK;
        carriage.carry(pocket, hangar, PathKind::Gap, w_per_k, hangar);
    }
    for fins in &laws.fin_carries {
        let [_, low, high, ..] = fins.columns;
        let [below, above, ..] = fins.linearise(x, on);
        // What a pocket loses to the stream that leaves it; the stream itself is held.
        let (up, down) = (-below.slopes[1], -above.slopes[2]);
        carriage.carry(low, high, PathKind::FinAir, up, hangar);
        carriage.carry(high, low, PathKind::FinAir, down, hangar);
    }
    for fins in &laws.fin_cells {
        let [_, low, high, cell] = fins.columns;
        let [gained] = fins.linearise(x, on);
        let kind = PathKind::FinPassage;
        carriage.carry(cell, high, kind, gained.slopes[1], low);
        carriage.carry(cell, low, kind, gained.slopes[2], high);
    }
    for jet in jets(net, nodes, x) {
        if on[jet.heater] > 0.0 {
            let share = Share {
                w_per_k: jet.w_per_k,
                heat_w: jet.w_per_k * jet.difference_k,
                difference_k: jet.difference_k,
            };
            if let (Some(from), Some(to)) = (nodes.at(jet.pocket), nodes.at(jet.cell)) {
                carriage.paths.add(from, to, PathKind::Jet, share);
            }
        }
    }
    for forced in &laws.heater_terms {
        let ([from], [to]) = (forced.columns, forced.rows);
        let pockets = [from, to].map(|c| nodes.is(c, NodeKind::Pocket));
        if pockets == [true, true] && from != to && on[forced.law.heater] > 0.0 {
            carriage.carry(from, to, PathKind::Forced, forced.law.factor, hangar);
        }
    }
}

struct Carriage<'a> {
    paths: &'a mut Paths,
    nodes: &'a Nodes,
    x: &'a [f64],
}

impl Carriage<'_> {
    /// A stream that takes heat over that of `against` from one column's node to another's.
    fn carry(&mut self, from: usize, to: usize, kind: PathKind, w_per_k: f64, against: usize) {
        let difference_k = self.x[from] - self.x[against];
        let share = Share {
            w_per_k,
            heat_w: w_per_k * difference_k,
            difference_k,
        };
        if let (Some(from), Some(to)) = (self.nodes.at(from), self.nodes.at(to)) {
            self.paths.add(from, to, kind, share);
        }
    }
}

/// A heater's jet on one cell, at the cost of one pocket.
#[derive(Debug, Clone, Copy)]
pub struct Jet {
    /// The heater.
    pub heater: usize,
    /// Column of the pocket that would have had the heat.
    pub pocket: usize,
    /// Column of the cell that is struck.
    pub cell: usize,
    /// Conductance, W/K.
    pub w_per_k: f64,
    /// Jet over cell, K.
    pub difference_k: f64,
}

/// What the jets do, or would do if their heaters were on.
pub fn jets(net: &Network, nodes: &Nodes, x: &[f64]) -> Vec<Jet> {
    let terms = &net.laws.heater_terms;
    let is_cell = |column: usize| nodes.is(column, NodeKind::Cell);
    let struck = |t: &&Element<HeaterTerm, 1, 1>| {
        nodes.is(t.rows[0], NodeKind::Pocket) && is_cell(t.columns[0])
    };
    terms
        .iter()
        .filter(struck)
        .filter_map(|t| {
            // What strikes a cell of this heater is read from the one column that is no cell.
            let impact = terms.iter().find(|other| {
                other.law.heater == t.law.heater
                    && is_cell(other.rows[0])
                    && !is_cell(other.columns[0])
            })?;
            Some(Jet {
                heater: t.law.heater,
                pocket: t.rows[0],
                cell: t.columns[0],
                w_per_k: t.law.factor,
                difference_k: x[impact.columns[0]] - x[t.columns[0]],
            })
        })
        .collect()
}
