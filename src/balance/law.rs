//! What a law is to the balance: a few columns in, a few rows out.

use crate::network::graph::Laws;
use crate::physics::number::{Number, Register};

/// An element, or the elements that stand at its place in the networks of several nights.
pub type Each<'a, E, T> = <<T as Number>::Given as Register>::Each<'a, E>;

/// A law between `K` columns and `R` rows.
pub trait Law<const K: usize, const R: usize>: Sized {
    /// The columns it reads.
    fn columns(&self) -> [usize; K];
    /// The rows it adds to.
    fn rows(&self) -> [usize; R];
    /// The heater it is a law of.
    fn heater(&self) -> Option<usize> {
        None
    }
    /// What, beside columns and rows, must be alike in networks that are worked on together; only a choice between
    /// laws is, a size never.
    fn choice(&self) -> u8 {
        0
    }
    /// What it adds to each row; `on` is one if its heater is on, zero if it is off.
    fn apply<T: Number>(it: Each<'_, Self, T>, x: [T; K], on: T::Given) -> [T; R];
}

/// Something done with every law in turn, always in the same order.
pub trait Visitor {
    /// Meets the laws of one kind.
    fn visit<const K: usize, const R: usize, L: Law<K, R> + 'static>(
        &mut self,
        pick: impl Fn(&Laws) -> &[L],
    );
}
