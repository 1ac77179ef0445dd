//! What a law is to the balance: a few columns in, a few rows out.

use crate::physics::number::Number;

/// A law between `K` columns and `R` rows. `on` holds one for each heater that is on, zero for the others.
pub trait Law<const K: usize, const R: usize> {
    /// The columns it reads.
    fn columns(&self) -> [usize; K];
    /// The rows it adds to.
    fn rows(&self) -> [usize; R];
    /// What it adds to each row.
    fn apply<T: Number>(&self, x: [T; K], on: &[f64]) -> [T; R];
}

/// Something done with every law in turn, always in the same order.
pub trait Visitor {
    /// Meets one law.
    fn visit<const K: usize, const R: usize, L: Law<K, R>>(&mut self, law: &L);
    /// Meets several.
    fn visit_each<const K: usize, const R: usize, L: Law<K, R>>(&mut self, laws: &[L]) {
        for law in laws {
            self.visit(law);
        }
    }
}
