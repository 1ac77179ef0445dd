//! What heat flows between: cells, pockets, the air inside, and the surroundings that take what comes.

use crate::balance::Balance;
use crate::network::Network;
use crate::scenario::check::CheckedScenario;
use crate::trace::LossPath;
use serde::Serialize;
use std::collections::BTreeMap;

/// The face name of the cabin behind the firewall.
const CABIN: &str = "cabin";

/// Something with one temperature.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Node {
    /// Its name, unlike any other: that of the part (a cut one with the number of its piece), pocket or
    /// surrounding, or `(air inside)`, `hangar`, `cabin`.
    pub name: String,
    /// What people call it.
    pub label: String,
    /// What it is.
    pub kind: NodeKind,
    /// Its temperature at the moment, °C.
    pub temp_c: f64,
    /// Its heat capacity, J/K; none for what stays as it is given.
    pub heat_capacity_j_per_k: Option<f64>,
}

/// What a node is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum NodeKind {
    /// Solid or oil.
    Cell,
    /// A pocket of bay air.
    Pocket,
    /// The air inside the engine.
    AirInside,
    /// The hangar, the cabin or a given surrounding.
    Surrounding,
}

/// The nodes of a network, and how laws find them.
#[derive(Debug, Clone, PartialEq)]
pub struct Nodes {
    /// All of them: cells, pockets, air inside, then surroundings.
    pub list: Vec<Node>,
    by_column: BTreeMap<usize, usize>,
    cabin: Option<usize>,
    firewall_book: usize,
    unused_row: usize,
}

impl Nodes {
    /// The nodes of a night, at the temperatures of the balance's last evaluation. The network is the one
    /// this scenario was assembled to.
    pub fn new(checked: &CheckedScenario, balance: &Balance) -> Self {
        let net = balance.network();
        let (ix, legend) = (&net.index, &net.legend);
        let mut nodes = Self {
            list: Vec::new(),
            by_column: BTreeMap::new(),
            cabin: None,
            firewall_book: book_of(net, LossPath::Firewall),
            unused_row: ix.unused_row(),
        };
        let temps = balance.columns();
        for cell in &legend.cells {
            let capacity = Some(net.capacities[cell.column]);
            let named = (cell.part.as_str(), cell.label.as_str());
            nodes.add(named, NodeKind::Cell, (cell.column, temps), capacity);
        }
        for pocket in &legend.pockets {
            let capacity = Some(net.capacities[pocket.temperature]);
            let named = (pocket.name.as_str(), pocket.label.as_str());
            nodes.add(
                named,
                NodeKind::Pocket,
                (pocket.temperature, temps),
                capacity,
            );
        }
        if let Some(gas) = &legend.gas {
            let named = ("(air inside)", "air inside the engine");
            let capacity = Some(net.capacities[gas.temperature]);
            nodes.add(
                named,
                NodeKind::AirInside,
                (gas.temperature, temps),
                capacity,
            );
        }
        let hangar = ("hangar", "hangar air");
        nodes.add(hangar, NodeKind::Surrounding, (ix.hangar(), temps), None);
        let given = &checked.body().surroundings;
        for (number, surrounding) in given.iter().enumerate() {
            let column = ix.input(ix.inputs - given.len() + number);
            let named = (surrounding.name.as_str(), surrounding.name.as_str());
            nodes.add(named, NodeKind::Surrounding, (column, temps), None);
        }
        if checked.body().surfaces.iter().any(|f| f.meets == CABIN) {
            let above = checked.scenario().hangar.cabin_above.kelvin();
            nodes.cabin = Some(nodes.list.len());
            nodes.list.push(Node {
                name: CABIN.to_owned(),
                label: "cabin behind the firewall".to_owned(),
                kind: NodeKind::Surrounding,
                temp_c: temps[ix.hangar()] + above,
                heat_capacity_j_per_k: None,
            });
        }
        nodes
    }

    fn add(
        &mut self,
        (name, label): (&str, &str),
        kind: NodeKind,
        (column, temps): (usize, &[f64]),
        heat_capacity_j_per_k: Option<f64>,
    ) {
        self.by_column.insert(column, self.list.len());
        self.list.push(Node {
            name: name.to_owned(),
            label: label.to_owned(),
            kind,
            temp_c: temps[column],
            heat_capacity_j_per_k,
        });
    }

    /// The node of a temperature column; none if that is a mean, or no temperature.
    pub fn at(&self, column: usize) -> Option<usize> {
        self.by_column.get(&column).copied()
    }
    /// The node whose heat a law counts in `row` and whose temperature it reads in `column`.
    pub fn between(&self, column: usize, row: usize) -> Option<usize> {
        if row == self.unused_row {
            None
        } else if row == self.firewall_book {
            self.cabin
        } else {
            self.at(column)
        }
    }
    /// The cabin, if anything meets it.
    pub fn cabin(&self) -> Option<usize> {
        self.cabin
    }
    /// Whether the node of this column is of this kind.
    pub fn is(&self, column: usize, kind: NodeKind) -> bool {
        self.at(column).is_some_and(|n| self.list[n].kind == kind)
    }
}

/// The row in which heat lost by this path is booked.
pub fn book_of(net: &Network, path: LossPath) -> usize {
    let at = net.legend.losses.iter().position(|&(p, _)| p == path);
    at.map_or(net.index.unused_row(), |at| {
        net.index.book(net.heaters.len() + at)
    })
}
