//! What a integrate gives: the record, the books, and the work it took.

use crate::balance::{stored_j, water_g};
use crate::network::Network;
use crate::trace::{Conservation, Trace};

/// Work that was done.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct SolverStats {
    /// Numbers the solver carries: temperatures and grams.
    pub states: usize,
    /// Steps taken.
    pub steps: usize,
    /// Steps tried in vain.
    pub rejected: usize,
    /// Factorisations of the matrix.
    pub factorisations: usize,
    /// Evaluations of the rates.
    pub evaluations: usize,
}

/// A night that was integrated.
#[derive(Debug, Clone)]
pub struct Solution {
    /// Its record.
    pub trace: Trace,
    /// Its books.
    pub ledger: Conservation,
    /// The work done.
    pub effort: SolverStats,
    /// The state at the departure, and which heaters were on just before it.
    pub at_departure: (Vec<f64>, Vec<f64>),
}

/// The books of a night that ended with this vector of states and books.
pub fn ledger(net: &Network, vector: &[f64], trace: &Trace) -> Conservation {
    let books = &vector[net.index.states()..];
    let heaters = net.heaters.len();
    let losses = &trace.legend.losses;
    Conservation {
        stored_before_j: stored_j(net, &net.initial),
        stored_after_j: stored_j(net, vector),
        drawn_j: books[..heaters].to_vec(),
        fed_j: net.fed_w * net.end_s,
        lost_j: losses
            .iter()
            .zip(&books[heaters..])
            .map(|(&(path, _), &joules)| (path, joules))
            .collect(),
        water_before_g: water_g(net, &net.initial),
        water_after_g: water_g(net, vector),
        water_lost_g: books[heaters + losses.len()],
        turnover_g: trace.turnover_g(f64::INFINITY),
    }
}
