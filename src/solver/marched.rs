//! What a march gives: the record, the books, and the work it took.

use crate::trace::{Ledger, Trace};

/// Work that was done.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Effort {
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

/// A night that was marched through.
#[derive(Debug, Clone)]
pub struct Marched {
    /// Its record.
    pub trace: Trace,
    /// Its books.
    pub ledger: Ledger,
    /// The work done.
    pub effort: Effort,
    /// The state at the departure, and which heaters were on just before it.
    pub at_departure: (Vec<f64>, Vec<f64>),
}
