//! An element of a network: a law between a few columns and a few rows.
//!
//! Heat rows count watts into the thing, vapour rows grams a second, mass rows kilograms a second.

use crate::physics::dual::Dual;
use crate::physics::number::{Number, Register};

/// A law, or the laws that stand at its place in the networks of several nights.
pub type Each<'a, E, T> = <<T as Number>::Given as Register>::Each<'a, E>;

/// A law and its place in the network.
#[derive(Debug, Clone, PartialEq)]
pub struct Element<L, const K: usize, const R: usize> {
    /// The columns it reads.
    pub columns: [usize; K],
    /// The rows it adds to.
    pub rows: [usize; R],
    /// The law, with its constants.
    pub law: L,
}

/// A law between `K` columns and `R` rows.
pub trait Law<const K: usize, const R: usize>: Sized {
    /// The heater it belongs to.
    fn heater(&self) -> Option<usize> {
        None
    }
    /// What, beside columns and rows, must be the same in networks that are evaluated together: a choice between
    /// equations, never a size.
    fn choice(&self) -> u8 {
        0
    }
    /// What it adds to each row; `on` is one if its heater is on, zero if it is off.
    fn apply<T: Number>(it: Each<'_, Self, T>, x: [T; K], on: T::Given) -> [T; R];
    /// The element with this law between these columns and rows.
    fn between(self, columns: [usize; K], rows: [usize; R]) -> Element<Self, K, R> {
        Element {
            columns,
            rows,
            law: self,
        }
    }
}

/// A law's rows with their exact slopes along its columns: compiled once a law, for what looks at one element at a time
/// and for processors without registers of four.
#[inline(never)]
fn linearise<const K: usize, const R: usize, L: Law<K, R>>(
    law: &L,
    x: [f64; K],
    on: f64,
) -> [Dual<K>; R] {
    L::apply(law, std::array::from_fn(|k| Dual::variable(x[k], k)), on)
}

impl<L: Law<K, R>, const K: usize, const R: usize> Element<L, K, R> {
    /// Its rows with their exact slopes, from all columns and from which heaters are on.
    pub fn linearise<G: Register>(&self, x: &[G], on: &[G]) -> [Dual<K>; R] {
        let on = self.law.heater().map_or(0.0, |heater| on[heater].lane(0));
        linearise(&self.law, self.columns.map(|column| x[column].lane(0)), on)
    }
}
