//! The balance with every auxiliary unknown left open: a system of differential and algebraic equations of index one, whose
//! matrix is as sparse as coldsoak's own and whose evaluation searches for nothing.

use crate::columns::Columns;
use coldsoak::balance::Balance;
use coldsoak::network::Network;

/// coldsoak's laws as residuals.
pub struct Open<'n> {
    /// The network.
    pub net: &'n Network,
    /// Its balance, which knows what is on.
    pub balance: Balance<'n>,
    columns: Vec<f64>,
    /// The slopes of all unknowns; rows of states are a second.
    pub matrix: Columns,
    /// Diagonal slots of the states.
    pub diagonals: Vec<usize>,
    /// Entry of coldsoak's slopes, slot, and what it is divided by.
    from: Vec<(usize, usize, f64)>,
    /// Residuals asked for.
    pub residuals: usize,
    /// Slopes asked for.
    pub jacobians: usize,
}

impl<'n> Open<'n> {
    /// All heaters off.
    pub fn new(net: &'n Network) -> Self {
        let balance = Balance::new(net);
        let (states, all) = (net.index.states(), net.index.unknowns());
        let kept = |row: usize, column: usize| row < all && column < all;
        let entries = balance.entries();
        let pairs = entries
            .iter()
            .filter(|e| kept(e.row, e.column))
            .map(|e| (e.column, e.row));
        let mut pairs: Vec<(usize, usize)> = pairs.chain((0..states).map(|i| (i, i))).collect();
        pairs.sort_unstable();
        pairs.dedup();
        let mut matrix = Columns {
            starts: vec![0; all + 1],
            rows: pairs.iter().map(|p| p.1).collect(),
            values: vec![0.0; pairs.len()],
        };
        for column in 0..all {
            matrix.starts[column + 1] = pairs.partition_point(|p| p.0 <= column);
        }
        let slot = |row: usize, column: usize| pairs.binary_search(&(column, row)).unwrap_or(0);
        let from = entries
            .iter()
            .enumerate()
            .filter(|(_, e)| kept(e.row, e.column))
            .map(|(at, e)| {
                let divisor = net.capacities.get(e.row).copied().unwrap_or(1.0);
                (at, slot(e.row, e.column), 1.0 / divisor)
            })
            .collect();
        Self {
            net,
            columns: vec![0.0; net.index.columns()],
            diagonals: (0..states).map(|i| slot(i, i)).collect(),
            matrix,
            from,
            balance,
            residuals: 0,
            jacobians: 0,
        }
    }

    fn place(&mut self, time_s: f64, unknowns: &[f64]) {
        self.columns[..uncertain.len()].copy_from_slice(unknowns);
        for (which, curve) in self.net.inputs.iter().enumerate() {
            self.columns[self.net.index.input(which)] = curve.at(time_s).0;
        }
    }

    /// Rates of the states, a second; what is left over in the rows of the auxiliaries.
    pub fn residual(&mut self, time_s: f64, unknowns: &[f64], out: &mut [f64]) {
        self.residuals += 1;
        self.place(time_s, unknowns);
        let rows = self.balance.rates_at(&self.columns);
        out.copy_from_slice(&rows[..uncertain.len()]);
        for (out, capacity) in out.iter_mut().zip(&self.net.capacities) {
            *out /= capacity;
        }
    }

    /// Brings the matrix to this place.
    pub fn slopes(&mut self, time_s: f64, unknowns: &[f64]) {
        self.jacobians += 1;
        self.place(time_s, unknowns);
        self.matrix.values.fill(0.0);
        let slopes = self.balance.jacobian_at(&self.columns);
        for &(entry, slot, share) in &self.from {
            self.matrix.values[slot] += share * slopes[entry];
        }
    }

    /// Consistent values to begin with: the auxiliaries that follow from these states, and the rates; false if the air does
    /// not balance.
    pub fn solve_algebraic(&mut self, time_s: f64, unknowns: &mut [f64], rates: &mut [f64]) -> bool {
        let states = self.net.index.states();
        let Ok(found) = self.balance.rates(time_s, &unknowns[..states]) else {
            return false;
        };
        rates.fill(0.0);
        for ((to, rate), capacity) in rates.iter_mut().zip(found).zip(&self.net.capacities) {
            *to = rate / capacity;
        }
        self.balance.solve_algebraic();
        let all = unknowns.len();
        unknowns.copy_from_slice(&self.balance.columns()[..all]);
        true
    }
}
