//! Every heat path of a network at one moment, with its conductance from the exact slopes of the laws.
//!
//! Each list of laws is visited by itself, so that what a slope comes from is known. Auxiliary unknowns
//! (air movement, streams, means) are held: a conductance is what one temperature does directly.

use super::nodes::{NodeKind, Nodes};
use super::path::{HeatPath, PathKind, Paths, Share};
use super::streams;
use crate::balance::Balance;
use crate::laws::{Element, Law, Laws, Visitor};
use crate::network::Network;

/// All heat paths where the balance was last evaluated, by the order of their nodes.
///
/// The heat into a node by all its paths but jets and latent ones, with what heaters and feeds enter there,
/// is the rate of its row. Heaters that are off lead nothing. The latent heat that leaves with vapour
/// through the breather belongs to no two nodes and is not among the paths.
pub fn heat_paths(balance: &Balance, nodes: &Nodes) -> Vec<HeatPath> {
    let net = balance.network();
    let (x, on, laws) = (balance.columns(), balance.on(), &net.laws);
    let mut paths = Paths::default();
    let mut two = TwoEnded {
        laws,
        paths: &mut paths,
        nodes,
        x,
        on,
        kind: PathKind::Conduction,
        ends: [0, 1],
    };
    two.visit(|l| &l.links);
    two.of(PathKind::Oil).visit(|l| &l.oil_links);
    two.of(PathKind::Radiation).visit(|l| &l.radiations);
    two.of(PathKind::Surface).visit(|l| &l.surfaces);
    two.visit(|l| &l.power_faces);
    two.of(PathKind::Fins).visit(|l| &l.fins);
    two.of(PathKind::Outside).visit(|l| &l.outdoors);
    two.of(PathKind::InnerWall).visit(|l| &l.wall_films);
    two.visit(|l| &l.oil_surfaces);
    two.of(PathKind::Exchange).visit(|l| &l.exchanges);
    two.of(PathKind::Breather).visit(|l| &l.vents);
    // The first column of a breathing law is the heat to the air inside.
    two.ends = [1, 2];
    two.visit(|l| &l.breathings);

    for film in &laws.wall_films {
        latent(&mut paths, nodes, x, film);
    }
    for surface in &laws.oil_surfaces {
        latent(&mut paths, nodes, x, surface);
    }
    warm_cabin(&mut paths, nodes, net);
    streams::add(&mut paths, nodes, net, x, on);
    paths.listed(nodes)
}

/// Adds laws that move heat from one temperature to another: the first row loses it, the second gains it.
struct TwoEnded<'a> {
    laws: &'a Laws,
    paths: &'a mut Paths,
    nodes: &'a Nodes,
    x: &'a [f64],
    on: &'a [f64],
    kind: PathKind,
    /// Which of a law's columns are the two temperatures.
    ends: [usize; 2],
}

impl TwoEnded<'_> {
    fn of(&mut self, kind: PathKind) -> &mut Self {
        self.kind = kind;
        self
    }
    /// A link is conduction between cells, and a face of fixed coefficient elsewhere.
    fn kind_between(&self, a: usize, b: usize) -> PathKind {
        let cells = [a, b].map(|n| self.nodes.list[n].kind == NodeKind::Cell);
        if self.kind == PathKind::Conduction && cells != [true, true] {
            PathKind::Surface
        } else {
            self.kind
        }
    }
}

impl Visitor for TwoEnded<'_> {
    fn visit<const K: usize, const R: usize, L: Law<K, R> + 'static>(
        &mut self,
        pick: impl Fn(&Laws) -> &[Element<L, K, R>],
    ) {
        for element in pick(self.laws) {
            self.add(element);
        }
    }
}

impl TwoEnded<'_> {
    fn add<const K: usize, const R: usize, L: Law<K, R>>(&mut self, element: &Element<L, K, R>) {
        let Element { columns, rows, .. } = element;
        let [a, b] = self.ends;
        let from = self.nodes.between(columns[a], rows[0]);
        let to = self.nodes.between(columns[b], rows[1]);
        let (Some(from), Some(to)) = (from, to) else {
            return;
        };
        let gained = element.linearise(self.x, self.on)[1];
        let share = Share {
            w_per_k: 0.5 * (gained.slopes[a] - gained.slopes[b]),
            heat_w: gained.value,
            difference_k: self.x[columns[a]] - self.x[columns[b]],
        };
        let kind = self.kind_between(from, to);
        self.paths.add(from, to, kind, share);
    }
}

/// The latent heat that a wet surface (the first column and row) gains over what the gas (the second) loses.
fn latent<const K: usize, const R: usize, L: Law<K, R>>(
    paths: &mut Paths,
    nodes: &Nodes,
    x: &[f64],
    element: &Element<L, K, R>,
) {
    let (wall, gas) = (element.columns[0], element.columns[1]);
    let (Some(from), Some(to)) = (nodes.at(gas), nodes.at(wall)) else {
        return;
    };
    let rows = element.linearise(x, &[]);
    let gained = rows[0] + rows[1];
    let share = Share {
        w_per_k: -gained.slopes[0],
        heat_w: gained.value,
        difference_k: x[gas] - x[wall],
    };
    paths.add(from, to, PathKind::Latent, share);
}

/// The cabin is read as hangar air; what it is warmer by is fed in pairs: into the cell, off the book.
fn warm_cabin(paths: &mut Paths, nodes: &Nodes, net: &Network) {
    for pair in net.laws.feeds.windows(2) {
        let ([cell], [row]) = (pair[0].rows, pair[1].rows);
        if row < net.index.unknowns() {
            continue;
        }
        if let (Some(from), Some(cabin)) = (nodes.at(cell), nodes.cabin()) {
            paths.hold_back(from, cabin, PathKind::Surface, pair[0].law.watts);
        }
    }
}
