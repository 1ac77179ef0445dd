//! Where each heater's watts enter: cells, pockets, the duct.

use super::nodes::{Nodes, book_of};
use super::streams::jets;
use crate::balance::Balance;
use crate::laws::{Bonded, Law};
use crate::trace::LossPath;
use serde::Serialize;
use std::collections::BTreeMap;

/// What one heater does at a moment, or would do if it were on.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct HeaterEntries {
    /// Its name.
    pub heater: String,
    /// Whether it is on.
    pub on: bool,
    /// What it draws while it is on, W: the sum of its entries.
    pub drawn_w: f64,
    /// Where that goes.
    pub heat_inputs: Vec<HeatInput>,
}

/// Watts entering at one node.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct HeatInput {
    /// The node.
    pub into: String,
    /// How it enters.
    pub mode: HeatMode,
    /// How much, W. A pocket's share is what the jet has left for it; it is negative where the jet takes
    /// more from the pocket's own air than the element gives.
    pub heat_w: f64,
}

/// How a heater's heat enters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum HeatMode {
    /// From an element bonded to the metal.
    Bonded,
    /// From the jet, to what it strikes.
    Jet,
    /// As light and infrared.
    Radiant,
    /// With the warmed air.
    Air,
    /// Lost in the duct.
    Duct,
}

/// Watts fed into a node at all times.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Feed {
    /// The node.
    pub into: String,
    /// How much, W.
    pub heat_w: f64,
}

/// Every heater's entries where the balance was last evaluated.
pub fn entries(balance: &Balance, nodes: &Nodes) -> Vec<HeaterEntries> {
    let net = balance.network();
    let (x, laws, ix) = (balance.columns(), &net.laws, &net.index);
    let duct = book_of(net, LossPath::Duct);
    let strikes = jets(net, nodes, x);
    let notes = net.legend.heaters.iter().enumerate();
    notes
        .map(|(number, note)| {
            let energy = ix.book(number);
            let mut drawn_w = 0.0;
            let mut sums: BTreeMap<(usize, HeatMode), f64> = BTreeMap::new();
            let mut enter = |column: usize, mode: HeatMode, heat_w: f64| {
                if let Some(node) = nodes.at(column) {
                    *sums.entry((node, mode)).or_default() += heat_w;
                }
            };
            let terms = laws.heater_terms.iter().filter(|t| t.law.heater == number);
            let watts = terms
                .clone()
                .find(|t| t.rows == [energy])
                .map(|t| t.columns[0]);
            for term in terms.filter(|t| Some(t.columns[0]) == watts) {
                let ([column], [row]) = (term.columns, term.rows);
                let heat_w = term.law.factor * x[column];
                if row == energy {
                    drawn_w += heat_w;
                } else if row == duct {
                    enter(ix.hangar(), HeatMode::Duct, heat_w);
                } else {
                    enter(row, HeatMode::Air, heat_w);
                }
            }
            for jet in strikes.iter().filter(|j| j.heater == number) {
                let heat_w = jet.w_per_k * jet.difference_k;
                enter(jet.cell, HeatMode::Jet, heat_w);
                enter(jet.pocket, HeatMode::Air, -heat_w);
            }
            for bonded in laws.bonded.iter().filter(|b| b.law.heater == number) {
                let [cell] = bonded.columns;
                let [heat_w, drawn] = Bonded::apply(&bonded.law, [x[cell]], 1.0);
                enter(cell, HeatMode::Bonded, heat_w);
                drawn_w += drawn;
            }
            let constants = laws.heater_constants.iter();
            for constant in constants.filter(|c| c.law.heater == number) {
                let ([row], value) = (constant.rows, constant.law.value);
                if row == energy {
                    drawn_w += value;
                } else if row < ix.cells {
                    enter(row, HeatMode::Radiant, value);
                } else {
                    enter(row, HeatMode::Air, value);
                }
            }
            HeaterEntries {
                heater: note.name.clone(),
                on: balance.on()[number] > 0.0,
                drawn_w,
                heat_inputs: sums
                    .into_iter()
                    .map(|((node, mode), heat_w)| HeatInput {
                        into: nodes.list[node].name.clone(),
                        mode,
                        heat_w,
                    })
                    .collect(),
            }
        })
        .collect()
}

/// The watts fed at all times, node by node; the warmth of the cabin is no feed.
pub fn feeds(balance: &Balance, nodes: &Nodes) -> Vec<Feed> {
    let net = balance.network();
    let first_book = net.index.unknowns();
    let all = &net.laws.feeds;
    let mut sums: BTreeMap<usize, f64> = BTreeMap::new();
    for (at, feed) in all.iter().enumerate() {
        let of_the_cabin = all
            .get(at + 1)
            .is_some_and(|next| next.rows[0] >= first_book);
        if let (false, Some(node)) = (of_the_cabin, nodes.at(feed.rows[0])) {
            *sums.entry(node).or_default() += feed.law.watts;
        }
    }
    sums.into_iter()
        .map(|(node, heat_w)| Feed {
            into: nodes.list[node].name.clone(),
            heat_w,
        })
        .collect()
}
