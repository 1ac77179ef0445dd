//! The exact slopes of the laws, added up: one law at a time, or several of a kind side by side.

use super::law::{Law, Visitor};
use super::values::{LawLanes, is_on};
use crate::network::graph::Laws;
use crate::physics::dual::Dual;
use crate::physics::number::{Number, Register, Widen, Work};

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

impl Pattern<'_> {
    /// The places in order, by rows, each once; and for each recorded one the number of its place.
    pub fn places(&self) -> (Vec<(usize, usize)>, Vec<u32>) {
        let mut order: Vec<u32> = (0..self.pairs.len() as u32).collect();
        by(&mut order, |at| self.pairs[at].1);
        by(&mut order, |at| self.pairs[at].0);
        let mut places: Vec<(usize, usize)> = Vec::with_capacity(order.len());
        let mut numbers = vec![0; order.len()];
        for at in order {
            let pair = self.pairs[at as usize];
            if places.last() != Some(&pair) {
                places.push(pair);
            }
            numbers[at as usize] = places.len() as u32 - 1;
        }
        (places, numbers)
    }
}

/// Sorts by a small number, those that are alike as they stood: by counting, which takes a fraction of the time of
/// comparing.
fn by(order: &mut [u32], key: impl Fn(usize) -> usize) {
    let largest = order.iter().map(|&at| key(at as usize)).max().unwrap_or(0);
    let mut next = vec![0; largest + 2];
    for &at in &*order {
        next[key(at as usize) + 1] += 1;
    }
    for value in 1..next.len() {
        next[value] += next[value - 1];
    }
    let before = order.to_vec();
    for at in before {
        let place = &mut next[key(at as usize)];
        order[*place] = at;
        *place += 1;
    }
}

/// Adds the slopes of each law to their places.
pub struct Slopes<'a, 'n, G: Register> {
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

impl<G: Widen> Visitor for Slopes<'_, '_, G> {
    fn visit<const K: usize, const R: usize, L: Law<K, R> + 'static>(
        &mut self,
        pick: impl Fn(&Laws) -> &[L],
    ) {
        let each = G::part(self.laws, |laws| pick(laws));
        let (slots, rest) = self.slots.split_at(G::first(each).len() * R * K);
        self.slots = rest;
        G::work(AddingSlopes::<G, L, K, R> {
            each,
            x: self.x,
            on: self.on,
            slots,
            values: self.values,
        });
    }
}

/// Adding up the slopes of the laws of one kind, several at a time where there is a register for it.
pub struct AddingSlopes<'a, 'n, G: Register, L: 'static, const K: usize, const R: usize> {
    pub(super) each: G::Each<'n, [L]>,
    pub(super) x: &'a [G],
    pub(super) on: &'a [G],
    pub(super) slots: &'a [u32],
    pub(super) values: &'a mut [G],
}

impl<G: Widen, L: Law<K, R>, const K: usize, const R: usize> Work
    for AddingSlopes<'_, '_, G, L, K, R>
{
    type Done = ();
    #[inline(always)]
    fn done<const WIDE: bool>(self) {
        let count = G::first(self.each).len();
        let mut number = 0;
        while number < count {
            if WIDE && let Some(some) = LawLanes::<G, L, K>::at(self.each, number, self.x, self.on)
            {
                let rows = L::apply(some.it, variables(some.x), some.on);
                for which in 0..G::ABREAST {
                    let slots = &self.slots[(number + which) * R * K..][..R * K];
                    for r in 0..R {
                        for k in 0..K {
                            let value = &mut self.values[slots[r * K + k] as usize];
                            *value = *value + G::narrow(rows[r].slopes[k], which);
                        }
                    }
                }
                number += G::ABREAST;
                continue;
            }
            let it = G::part(self.each, |laws| &laws[number]);
            let law = G::first(it);
            let columns = law.columns();
            let mut x = [G::ZERO; K];
            for k in 0..K {
                x[k] = self.x[columns[k]];
            }
            let rows = L::apply(it, variables(x), is_on(law, self.on));
            let slots = &self.slots[number * R * K..][..R * K];
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
