//! The slopes of the rates over the states alone, as a dense matrix, for integrators that know nothing of a border.

use coldsoak::balance::Balance;
use coldsoak::network::Network;

/// The slopes of the rates where they were last evaluated, the auxiliary unknowns eliminated: `A - B D^-1 C`.
///
/// Row by row, a second; none if an auxiliary unknown does not follow from the states.
pub fn slopes(net: &Network, balance: &mut Balance) -> Option<Vec<f64>> {
    let (n, all) = (net.index.states(), net.index.unknowns());
    let values = balance.slopes().to_vec();
    let mut full = nalgebra::DMatrix::<f64>::zeros(all, all);
    for (entry, value) in balance.entries().iter().zip(values) {
        if entry.row < all && entry.column < all {
            full[(entry.row, entry.column)] += value;
        }
    }
    let m = all - n;
    let eliminated = full
        .view((n, n), (m, m))
        .into_owned()
        .lu()
        .solve(&full.view((n, 0), (m, n)).into_owned())?;
    let mut reduced = full.view((0, 0), (n, n)) - full.view((0, n), (n, m)) * eliminated;
    for (row, capacity) in net.capacities.iter().enumerate() {
        reduced.row_mut(row).scale_mut(1.0 / capacity);
    }
    Some(reduced.transpose().as_slice().to_vec())
}
