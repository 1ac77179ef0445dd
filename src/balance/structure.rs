//! Whether nights can be worked on together: their networks differ in sizes only.

use super::law::{Law, Visitor};
use super::order::visit_all;
use crate::network::Network;
use crate::network::graph::Laws;

/// Whether two networks have the same numbering, the same laws between the same columns, and heaters and inputs in the
/// same places.
pub fn same_structure(a: &Network, b: &Network) -> bool {
    let mut both = Both {
        laws: [&a.laws, &b.laws],
        alike: true,
    };
    visit_all(&mut both);
    let places = |net: &Network| {
        let pockets = net.pockets.iter();
        let pockets: Vec<_> = pockets.map(|p| (p.pressure, p.draught, p.pinned)).collect();
        (pockets, net.inputs.len(), net.heaters.len())
    };
    both.alike && a.index == b.index && a.auxiliaries == b.auxiliaries && places(a) == places(b)
}

struct Both<'a> {
    laws: [&'a Laws; 2],
    alike: bool,
}

impl Visitor for Both<'_> {
    fn visit<const K: usize, const R: usize, L: Law<K, R> + 'static>(
        &mut self,
        pick: impl Fn(&Laws) -> &[L],
    ) {
        let [a, b] = self.laws.map(&pick);
        let same = |(a, b): (&L, &L)| {
            (a.columns(), a.rows()) == (b.columns(), b.rows())
                && a.heater() == b.heater()
                && a.choice() == b.choice()
        };
        self.alike &= a.len() == b.len() && a.iter().zip(b).all(same);
    }
}
