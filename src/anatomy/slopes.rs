//! One law by itself, with its exact slopes.

use crate::balance::Law;
use crate::physics::number::Dual;

/// A law's rows with their exact slopes along its columns.
pub fn sloped<const K: usize, const R: usize, L: Law<K, R>>(
    law: &L,
    x: &[f64],
    on: &[f64],
) -> [Dual<K>; R] {
    let columns = law.columns();
    law.apply(
        std::array::from_fn(|k| Dual::variable(x[columns[k]], k)),
        on,
    )
}
