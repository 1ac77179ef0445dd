//! One law by itself, with its exact slopes.

use crate::balance::{Law, is_on};
use crate::physics::dual::Dual;

/// A law's rows with their exact slopes along its columns.
pub fn linearise<const K: usize, const R: usize, L: Law<K, R>>(
    law: &L,
    x: &[f64],
    on: &[f64],
) -> [Dual<K>; R] {
    let columns = law.columns();
    let variables = std::array::from_fn(|k| Dual::variable(x[columns[k]], k));
    L::apply(law, variables, is_on(law, on))
}
