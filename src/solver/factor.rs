//! Sparse elimination with a dense border.
//!
//! The unknowns that touch only few others (cells, films) are eliminated in an order that keeps them
//! sparse; the air and the rest form a small dense border that is left for last and solved with row
//! pivoting. What goes where is found once a network; each factorisation then only moves numbers.
//!
//! The sparse part is eliminated without pivoting: it is the heat balance of cells and the water balance
//! of films over a positive step, whose diagonal outweighs their couplings.

use super::border::Border;
use std::collections::BTreeSet;

/// The matrix cannot be solved.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("the balance of unknown {unknown} does not depend on itself")]
pub struct SingularError {
    /// Which unknown.
    pub unknown: usize,
}

/// Symbolic and numeric factors of one pattern.
#[derive(Debug, Clone)]
pub struct Factor {
    sparse: usize,
    /// Place in the elimination order of each unknown.
    place: Vec<usize>,
    /// For each row, in order: where its entries begin.
    starts: Vec<usize>,
    /// Columns of the entries, rising, in the elimination order; border rows hold all border columns.
    columns: Vec<usize>,
    values: Vec<f64>,
    /// Where the diagonal of each sparse row stands.
    diagonals: Vec<usize>,
    /// Where each matrix entry goes.
    scatter: Vec<u32>,
    /// Where the diagonal of each unknown goes.
    diagonal_slots: Vec<u32>,
    border: Border,
    work: Vec<f64>,
    /// Factorisations made.
    pub count: usize,
}

impl Factor {
    /// Finds the elimination order and the places of all entries: (row, column) pairs of a square matrix
    /// of `size` unknowns, of which the first `sparse` are sparse.
    pub fn new(size: usize, sparse: usize, entries: &[(usize, usize)]) -> Self {
        let mut place: Vec<usize> = (0..size).collect();
        for (position, unknown) in least_degree_order(sparse, entries).into_iter().enumerate() {
            place[unknown] = position;
        }
        let rows = filled(size, sparse, entries, &place);
        let mut starts = vec![0];
        let mut columns = Vec::new();
        for row in &rows {
            columns.extend_from_slice(row);
            starts.push(columns.len());
        }
        let slot = |row: usize, column: usize| {
            let span = &columns[starts[row]..starts[row + 1]];
            (starts[row] + span.binary_search(&column).unwrap_or(0)) as u32
        };
        let scatter = entries
            .iter()
            .map(|&(row, column)| slot(place[row], place[column]))
            .collect();
        let diagonal_slots = (0..size).map(|u| slot(place[u], place[u])).collect();
        let diagonals = (0..sparse).map(|row| slot(row, row) as usize).collect();
        Self {
            sparse,
            diagonals,
            scatter,
            diagonal_slots,
            values: vec![0.0; columns.len()],
            border: Border::new(size - sparse),
            work: vec![0.0; size],
            place,
            starts,
            columns,
            count: 0,
        }
    }

    /// Entries of the factors, the border counted whole.
    pub fn entries(&self) -> usize {
        self.columns.len()
    }

    /// Factors `diag(d) − A`, with the values of A in the order of the entries given to [`Factor::new`].
    ///
    /// *Errors*: a row without any way to solve it.
    pub fn factor(
        &mut self,
        slopes: impl Iterator<Item = f64>,
        diagonal: &[f64],
    ) -> Result<(), SingularError> {
        self.count += 1;
        self.values.fill(0.0);
        for (slot, slope) in self.scatter.iter().zip(slopes) {
            self.values[*slot as usize] -= slope;
        }
        for (slot, d) in self.diagonal_slots.iter().zip(diagonal) {
            self.values[*slot as usize] += d;
        }
        for row in 0..self.place.len() {
            self.eliminate(row);
        }
        for row in 0..self.sparse {
            let pivot = self.values[self.diagonals[row]];
            if pivot == 0.0 || !pivot.is_finite() {
                return Err(self.singular(row));
            }
        }
        let n = self.border.size();
        for row in 0..n {
            let end = self.starts[self.sparse + row + 1];
            self.border.set_row(row, &self.values[end - n..end]);
        }
        self.border
            .factor()
            .map_err(|row| self.singular(self.sparse + row))
    }

    fn singular(&self, position: usize) -> SingularError {
        let unknown = self.place.iter().position(|&p| p == position).unwrap_or(0);
        SingularError { unknown }
    }

    /// Takes from one row what the sparse rows before it account for.
    fn eliminate(&mut self, row: usize) {
        let span = self.starts[row]..self.starts[row + 1];
        for i in span.clone() {
            self.work[self.columns[i]] = self.values[i];
        }
        let limit = row.min(self.sparse);
        for i in span.clone() {
            let k = self.columns[i];
            if k >= limit {
                break;
            }
            let diagonal = self.diagonals[k];
            let factor = self.work[k] / self.values[diagonal];
            self.work[k] = factor;
            for j in diagonal + 1..self.starts[k + 1] {
                self.work[self.columns[j]] -= factor * self.values[j];
            }
        }
        for i in span {
            self.values[i] = self.work[self.columns[i]];
        }
    }

    /// Solves with the last factors, in place.
    pub fn solve(&mut self, rhs: &mut [f64]) {
        let sparse = self.sparse;
        for (unknown, &position) in self.place.iter().enumerate() {
            self.work[position] = rhs[unknown];
        }
        for row in 0..self.place.len() {
            let limit = row.min(sparse);
            let mut sum = self.work[row];
            for i in self.starts[row]..self.starts[row + 1] {
                let k = self.columns[i];
                if k >= limit {
                    break;
                }
                sum -= self.values[i] * self.work[k];
            }
            self.work[row] = sum;
        }
        self.border.solve(&mut self.work[sparse..]);
        for row in (0..sparse).rev() {
            let diagonal = self.diagonals[row];
            let mut sum = self.work[row];
            for i in diagonal + 1..self.starts[row + 1] {
                sum -= self.values[i] * self.work[self.columns[i]];
            }
            self.work[row] = sum / self.values[diagonal];
        }
        for (unknown, &position) in self.place.iter().enumerate() {
            rhs[unknown] = self.work[position];
        }
    }
}

/// The sparse unknowns in an order that always takes one with the fewest neighbours left.
fn least_degree_order(sparse: usize, entries: &[(usize, usize)]) -> Vec<usize> {
    let mut near: Vec<BTreeSet<usize>> = vec![BTreeSet::new(); sparse];
    for &(a, b) in entries {
        if a != b && a < sparse && b < sparse {
            near[a].insert(b);
            near[b].insert(a);
        }
    }
    let mut waiting: BTreeSet<(usize, usize)> =
        near.iter().enumerate().map(|(u, n)| (n.len(), u)).collect();
    let mut order = Vec::with_capacity(sparse);
    while let Some((_, taken)) = waiting.pop_first() {
        order.push(taken);
        let around = std::mem::take(&mut near[taken]);
        for &a in &around {
            waiting.remove(&(near[a].len(), a));
            near[a].remove(&taken);
            near[a].extend(around.iter().filter(|&&b| b != a));
            waiting.insert((near[a].len(), a));
        }
    }
    order
}

/// The columns of each row after elimination, in the elimination order.
fn filled(
    size: usize,
    sparse: usize,
    entries: &[(usize, usize)],
    place: &[usize],
) -> Vec<Vec<usize>> {
    let mut rows: Vec<BTreeSet<usize>> = (0..size)
        .map(|row| {
            let mut set = BTreeSet::from([row]);
            if row >= sparse {
                set.extend(sparse..size);
            }
            set
        })
        .collect();
    for &(row, column) in entries {
        rows[place[row]].insert(place[column]);
    }
    for row in 0..size {
        let mut from = 0;
        while let Some(&k) = rows[row].range(from..row.min(sparse)).next() {
            let tail: Vec<usize> = rows[k].range(k + 1..).copied().collect();
            rows[row].extend(tail);
            from = k + 1;
        }
    }
    rows.into_iter().map(|r| r.into_iter().collect()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use nalgebra::{DMatrix, DVector};

    /// A matrix like ours: chains of cells, a few unknowns that touch many.
    fn example(sparse: usize, border: usize) -> (Vec<(usize, usize)>, Vec<f64>) {
        let size = sparse + border;
        let mut number = 1.0_f64;
        let mut next = || {
            number = (number * 1.7 + 0.3).fract();
            number
        };
        let mut entries = Vec::new();
        let mut values = Vec::new();
        for i in 0..size {
            for j in 0..size {
                if i.abs_diff(j) <= 1 || (i * 7 + j * 3) % 11 == 0 && i.max(j) >= sparse {
                    entries.push((i, j));
                    values.push(if i == j { -4.0 - next() } else { next() });
                }
            }
        }
        (entries, values)
    }

    #[test]
    fn the_solution_is_that_of_a_dense_solver() {
        for (sparse, border) in [(0, 5), (12, 0), (20, 6), (40, 9)] {
            let size = sparse + border;
            let (entries, values) = example(sparse, border);
            // The border's diagonal is all but taken away, so that pivoting is needed.
            let diagonal: Vec<f64> = (0..size)
                .map(|i| if i < sparse { 0.5 } else { -4.5 })
                .collect();
            let mut dense = DMatrix::from_diagonal(&DVector::from_vec(diagonal.clone()));
            for (&(i, j), v) in entries.iter().zip(&values) {
                dense[(i, j)] -= v;
            }
            let rhs: Vec<f64> = (0..size).map(|i| (i as f64).sin() + 0.2).collect();
            let expected = dense.lu().solve(&DVector::from_vec(rhs.clone())).unwrap();
            let mut factor = Factor::new(size, sparse, &entries);
            factor.factor(values.iter().copied(), &diagonal).unwrap();
            let mut found = rhs;
            factor.solve(&mut found);
            for (a, b) in found.iter().zip(expected.iter()) {
                assert!((a - b).abs() < 1e-9 * (1.0 + b.abs()), "{a} is not {b}");
            }
        }
    }

    #[test]
    fn a_row_of_zeros_is_refused() {
        let mut factor = Factor::new(2, 1, &[(0, 0), (1, 1)]);
        assert_eq!(
            factor.factor([-1.0, 0.0].into_iter(), &[0.0, 0.0]),
            Err(SingularError { unknown: 1 })
        );
    }
}
