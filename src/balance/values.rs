//! What the laws give to their rows, added up.

use super::law_lanes::LawLanes;
use crate::laws::{Element, Law, Laws, Visitor};
use crate::physics::four::{self, Four};
use crate::physics::lanes::Lanes;
use crate::physics::number::{Register, Work};

/// Adds what each law gives to its rows.
pub struct Values<'a, G> {
    /// The laws of each lane; of one night four times the same.
    pub laws: [&'a Laws; 4],
    /// All columns.
    pub x: &'a [G],
    /// Which heaters are on.
    pub on: &'a [G],
    /// All rows.
    pub out: &'a mut [G],
}

impl<G: Lanes> Visitor for Values<'_, G> {
    fn visit<const K: usize, const R: usize, L: Law<K, R> + 'static>(
        &mut self,
        pick: impl Fn(&Laws) -> &[Element<L, K, R>],
    ) {
        let lists = self.laws.map(pick);
        if four::available() {
            four::done(AddingValues {
                lists,
                x: self.x,
                on: self.on,
                out: self.out,
            });
        } else {
            self.one_by_one(lists[0]);
        }
    }
}

impl<G: Lanes> Values<'_, G> {
    /// The same for one night without registers of four.
    pub fn one_by_one<const K: usize, const R: usize, L: Law<K, R>>(
        &mut self,
        elements: &[Element<L, K, R>],
    ) {
        for element in elements {
            let values = element.linearise(self.x, self.on);
            for (row, value) in element.rows.into_iter().zip(values) {
                self.out[row] = self.out[row] + value.value;
            }
        }
    }
}

/// Adding up the laws of one kind. A kind is a piece of machine code of its own: all in one would need a deep stack where
/// code is not optimised.
struct AddingValues<'a, G, L, const K: usize, const R: usize> {
    lists: [&'a [Element<L, K, R>]; 4],
    x: &'a [G],
    on: &'a [G],
    out: &'a mut [G],
}

impl<G: Lanes, L: Law<K, R>, const K: usize, const R: usize> Work for AddingValues<'_, G, L, K, R> {
    type Done = ();
    #[inline(always)]
    fn done(self) {
        let mut number = 0;
        while number < self.lists[0].len() {
            let some = LawLanes::at::<G>(self.lists, number);
            let values = L::apply(some.laws(), some.columns(self.x), some.on(self.on));
            let mut numbers = [[Four::ZERO; 1]; R];
            for r in 0..R {
                numbers[r] = [values[r]];
            }
            let row = |lane: usize, r: usize, _| some.elements[lane].rows[r];
            some.add(numbers, self.out, row);
            number += some.count;
        }
    }
}
