//! The exact slopes of the laws, added up: one law at a time, or four laws of a kind side by side.

use super::law::{Law, Visitor};
use super::values::{Four, is_on};
use crate::network::graph::Laws;
use crate::physics::dual::Dual;
use crate::physics::number::{Number, Register};

/// Records which places of the matrix the laws touch, in their order.
pub struct Pattern<'a> {
    /// The laws.
    pub laws: &'a Laws,
    /// Row and column of each, in their order.
    pub pairs: Vec<(usize, usize)>,
}

impl Visitor for Pattern<'_> {
    fn visit<const K: usize, const R: usize, L: Law<K, R> + 'static>(
        &mut self,
        pick: impl Fn(&Laws) -> &[L],
    ) {
        for law in pick(self.laws) {
            let columns = law.columns();
            for row in law.rows() {
                self.pairs.extend(columns.map(|column| (row, column)));
            }
        }
    }
}

/// Adds the slopes of each law to their places, of laws of a kind four at a time if `WIDE`.
pub struct Slopes<'a, 'n, G: Register, const WIDE: bool> {
    /// The laws, one list a night.
    pub laws: G::Each<'n, Laws>,
    /// All columns.
    pub x: &'a [G],
    /// Which heaters are on.
    pub on: &'a [G],
    /// Where each slope goes, in the order of [`Pattern`].
    pub slots: &'a [u32],
    /// The places.
    pub values: &'a mut [G],
}

impl<G: Register, const WIDE: bool> Visitor for Slopes<'_, '_, G, WIDE> {
    #[inline(always)]
    fn visit<const K: usize, const R: usize, L: Law<K, R> + 'static>(
        &mut self,
        pick: impl Fn(&Laws) -> &[L],
    ) {
        let each = G::part(self.laws, |laws| pick(laws));
        let count = G::first(each).len();
        let (mine, rest) = self.slots.split_at(count * R * K);
        self.slots = rest;
        let mut number = 0;
        while number < count {
            if WIDE && let Some(four) = Four::<G, L, K>::at(each, number, self.x, self.on) {
                let rows = L::apply(four.it, variables(four.x), four.on);
                for lane in 0..4 {
                    let slots = &mine[(number + lane) * R * K..][..R * K];
                    for r in 0..R {
                        for k in 0..K {
                            let value = &mut self.values[slots[r * K + k] as usize];
                            *value = *value + G::narrow(rows[r].slopes[k])[lane];
                        }
                    }
                }
                number += 4;
                continue;
            }
            let it = G::part(each, |laws| &laws[number]);
            let law = G::first(it);
            let columns = law.columns();
            let mut x = [G::all(0.0); K];
            for k in 0..K {
                x[k] = self.x[columns[k]];
            }
            let rows = L::apply(it, variables(x), is_on(law, self.on));
            let slots = &mine[number * R * K..][..R * K];
            for r in 0..R {
                for k in 0..K {
                    let value = &mut self.values[slots[r * K + k] as usize];
                    *value = *value + rows[r].slopes[k];
                }
            }
            number += 1;
        }
    }
}

/// The columns as variables, each with a slope of one along itself.
#[inline(always)]
fn variables<const K: usize, G: Register>(x: [G; K]) -> [Dual<K, G>; K] {
    let mut variables = [Dual::<K, G>::given(G::all(0.0)); K];
    for k in 0..K {
        variables[k] = Dual::variable(x[k], k);
    }
    variables
}
