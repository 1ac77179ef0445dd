//! Whether nights can be worked on together: their networks differ in sizes only.

use crate::laws::{Element, Law, Laws, Visitor, visit_all};
use crate::network::Network;

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
        let pockets: Vec<_> = pockets
            .map(|p| (p.pressure, p.air_speed, p.pinned))
            .collect();
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
        pick: impl Fn(&Laws) -> &[Element<L, K, R>],
    ) {
        let [a, b] = self.laws.map(&pick);
        let same = |(a, b): (&Element<L, K, R>, &Element<L, K, R>)| {
            (a.columns, a.rows) == (b.columns, b.rows)
                && a.law.heater() == b.law.heater()
                && a.law.choice() == b.law.choice()
        };
        self.alike &= a.len() == b.len() && a.iter().zip(b).all(same);
    }
}
