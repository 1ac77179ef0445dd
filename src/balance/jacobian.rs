//! The exact slopes of the laws, added up.

use super::law_lanes::LawLanes;
use crate::laws::{Element, Law, Laws, Visitor};
use crate::physics::dual::Dual;
use crate::physics::four::{self, Four};
use crate::physics::lanes::Lanes;
use crate::physics::number::{Number, Register, Work};

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
        pick: impl Fn(&Laws) -> &[Element<L, K, R>],
    ) {
        for Element { columns, rows, .. } in pick(self.laws) {
            for &row in rows {
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
pub struct Slopes<'a, G> {
    /// The laws of each lane; of one night four times the same.
    pub laws: [&'a Laws; 4],
    /// All columns.
    pub x: &'a [G],
    /// Which heaters are on.
    pub on: &'a [G],
    /// Where each slope goes, in the order of [`Pattern`].
    pub slots: &'a [u32],
    /// The places.
    pub values: &'a mut [G],
}

impl<G: Lanes> Visitor for Slopes<'_, G> {
    fn visit<const K: usize, const R: usize, L: Law<K, R> + 'static>(
        &mut self,
        pick: impl Fn(&Laws) -> &[Element<L, K, R>],
    ) {
        let lists = self.laws.map(pick);
        if four::available() {
            let (slots, rest) = self.slots.split_at(lists[0].len() * R * K);
            self.slots = rest;
            four::done(AddingSlopes {
                lists,
                slots,
                x: self.x,
                on: self.on,
                values: self.values,
            });
        } else {
            self.one_by_one(lists[0]);
        }
    }
}

impl<G: Lanes> Slopes<'_, G> {
    /// The same for one night without registers of four.
    pub fn one_by_one<const K: usize, const R: usize, L: Law<K, R>>(
        &mut self,
        elements: &[Element<L, K, R>],
    ) {
        for element in elements {
            let rows = element.linearise(self.x, self.on);
            let (slots, rest) = self.slots.split_at(R * K);
            self.slots = rest;
            for (slope, slot) in rows.iter().flat_map(|row| row.slopes).zip(slots) {
                let value = &mut self.values[*slot as usize];
                *value = *value + slope;
            }
        }
    }
}

/// Adding up the slopes of the laws of one kind.
struct AddingSlopes<'a, G, L, const K: usize, const R: usize> {
    lists: [&'a [Element<L, K, R>]; 4],
    slots: &'a [u32],
    x: &'a [G],
    on: &'a [G],
    values: &'a mut [G],
}

impl<G: Lanes, L: Law<K, R>, const K: usize, const R: usize> Work for AddingSlopes<'_, G, L, K, R> {
    type Done = ();
    #[inline(always)]
    fn done(self) {
        let mut number = 0;
        while number < self.lists[0].len() {
            let some = LawLanes::at::<G>(self.lists, number);
            let x = some.columns(self.x);
            let mut variables = [Dual::<K, Four>::given(Four::ZERO); K];
            for k in 0..K {
                variables[k] = Dual::variable(x[k], k);
            }
            let rows = L::apply(some.laws(), variables, some.on(self.on));
            let mut slopes = [[Four::ZERO; K]; R];
            for r in 0..R {
                slopes[r] = rows[r].slopes;
            }
            let slots = &self.slots[number * R * K..][..some.count * R * K];
            let slot = |lane: usize, r: usize, k: usize| slots[(lane * R + r) * K + k] as usize;
            some.add(slopes, self.values, slot);
            number += some.count;
        }
    }
}
