//! Sparse elimination with a dense border.
//!
//! The unknowns that touch only few others (cells, films) are eliminated in an order that keeps them
//! sparse; the air and the rest form a small dense border that is left for last, by its diagonal too, and by chosen pivots
//! where that does not serve. What goes where is found once a network; each factorisation then only moves numbers.
//!
//! The sparse part is eliminated without pivoting. It is the heat balance of cells and the water balance of films over a
//! positive step, whose diagonal outweighs their couplings; and the explicit auxiliaries (means, watts, fin streams,
//! air movement ...), each the only one in its row that the row defines, so that its pivot is its own until a loop through
//! the cells closes.

use super::border::Border;
use super::symbolic::{Rows, minimum_degree_order, symbolic_factor};
use crate::physics::lanes::Lanes;
use crate::physics::number::Work;
use std::ops::Range;

/// The matrix cannot be solved.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("the balance of unknown {unknown} does not depend on itself")]
pub struct SingularError {
    /// Which unknown.
    pub unknown: usize,
}

/// Symbolic and numeric factors of one pattern.
#[derive(Debug, Clone)]
pub struct Factor<G = f64> {
    sparse: usize,
    /// Place in the elimination order of each unknown.
    place: Vec<usize>,
    /// Where the entries stand, by rows and columns in the elimination order.
    rows: Rows,
    values: Vec<G>,
    /// One over the pivot of each sparse row.
    inverses: Vec<G>,
    /// For each multiplication of the elimination, in its order: the entry of the row that it is taken from.
    targets: Vec<u32>,
    /// Where each matrix entry goes.
    scatter: Vec<u32>,
    /// Where the diagonal of each unknown goes.
    diagonal_slots: Vec<u32>,
    border: Border<G>,
    work: Vec<G>,
}

#[allow(private_bounds)]
impl<G: Lanes> Factor<G> {
    /// Finds the elimination order and the places of all entries: (row, column) pairs of a square matrix
    /// of so many unknowns, of which `in_border` marks those that are left for the dense border.
    pub fn new(size: usize, in_border: impl Fn(usize) -> bool, entries: &[(usize, usize)]) -> Self {
        let order = minimum_degree_order(size, &in_border, entries);
        let sparse = order.len();
        let mut place = vec![size; size];
        for (position, &unknown) in order.iter().enumerate() {
            place[unknown] = position;
        }
        let left = place.iter_mut().filter(|p| **p == size);
        left.zip(sparse..).for_each(|(p, position)| *p = position);
        let rows = symbolic_factor(size, sparse, entries, &place);
        let mut slots = Slots {
            row: None,
            of: vec![0; size],
        };
        let mut targets = Vec::new();
        for row in 0..size {
            let start = rows.starts[row];
            let of = slots.at(row, &rows);
            let before = rows.columns[rows.span(row)].iter();
            for &k in before.take_while(|&&k| (k as usize) < row.min(sparse)) {
                let taken = rows.beyond(k as usize).iter();
                targets.extend(taken.map(|&c| (of[c as usize] - start) as u32));
            }
        }
        let scatter = entries.iter().map(|&(row, column)| {
            let of = slots.at(place[row], &rows);
            of[place[column]] as u32
        });
        Self {
            sparse,
            scatter: scatter.collect(),
            diagonal_slots: place.iter().map(|&p| rows.diagonals[p] as u32).collect(),
            inverses: vec![G::all(0.0); sparse],
            values: vec![G::all(0.0); rows.columns.len()],
            border: Border::new(size - sparse),
            work: vec![G::all(0.0); size],
            targets,
            place,
            rows,
        }
    }

    /// Factors `diag(d) − A`, with the values of A in the order of the entries given to [`Factor::new`].
    ///
    /// *Errors*: a row without any way to solve it.
    pub fn factor(
        &mut self,
        slopes: impl Iterator<Item = G>,
        diagonal: &[G],
    ) -> Result<(), SingularError> {
        G::work(Factoring {
            factor: self,
            slopes,
            diagonal,
        })
        .map_err(|position| self.singular(position))
    }

    #[inline(always)]
    fn factor_here(
        &mut self,
        slopes: impl Iterator<Item = G>,
        diagonal: &[G],
    ) -> Result<(), usize> {
        self.values.fill(G::all(0.0));
        for (slot, slope) in self.scatter.iter().zip(slopes) {
            let value = &mut self.values[*slot as usize];
            *value = *value - slope;
        }
        for (slot, d) in self.diagonal_slots.iter().zip(diagonal) {
            let value = &mut self.values[*slot as usize];
            *value = *value + *d;
        }
        self.eliminate()?;
        self.fill_border();
        let mut factored = self.border.factor();
        if factored.is_err() && G::LANES == 1 {
            self.fill_border();
            factored = self.border.factor_choosing();
        }
        factored.map_err(|row| self.sparse + row)
    }

    #[inline(always)]
    fn fill_border(&mut self) {
        let n = self.border.size();
        for row in 0..n {
            let end = self.rows.starts[self.sparse + row + 1];
            self.border.set_row(row, &self.values[end - n..end]);
        }
    }

    fn singular(&self, position: usize) -> SingularError {
        let unknown = self.place.iter().position(|&p| p == position).unwrap_or(0);
        SingularError { unknown }
    }

    /// Takes from each row what the sparse rows before it account for.
    ///
    /// *Errors*: the place of a row without a pivot.
    #[inline(always)]
    fn eliminate(&mut self) -> Result<(), usize> {
        let mut targets = &self.targets[..];
        let rows = &self.rows;
        for row in 0..self.place.len() {
            let (done, rest) = self.values.split_at_mut(rows.starts[row]);
            let rest = &mut rest[..rows.starts[row + 1] - rows.starts[row]];
            let limit = row.min(self.sparse) as u32;
            let before = rows.columns[rows.span(row)]
                .iter()
                .take_while(|&&k| k < limit);
            for (i, &k) in before.enumerate() {
                let k = k as usize;
                let factor = rest[i] * self.inverses[k];
                rest[i] = factor;
                let taken = &done[rows.diagonals[k] + 1..rows.starts[k + 1]];
                let (now, later) = targets.split_at(taken.len());
                targets = later;
                for (value, &target) in taken.iter().zip(now) {
                    let from = &mut rest[target as usize];
                    *from = *from - factor * *value;
                }
            }
            if row < self.sparse {
                let pivot = rest[rows.diagonals[row] - rows.starts[row]];
                let inverse = G::all(1.0) / pivot;
                // No number where the pivot is nothing or no end: of nights in lanes, one must not stop the others.
                let sound = (pivot * inverse).where_positive(inverse, G::all(f64::NAN));
                if G::LANES == 1 && sound.any(f64::is_nan) {
                    return Err(row);
                }
                self.inverses[row] = sound;
            }
        }
        Ok(())
    }

    /// Solves with the last factors, in place.
    pub fn solve(&mut self, rhs: &mut [G]) {
        G::work(Solving { factor: self, rhs });
    }

    #[inline(always)]
    fn solve_here(&mut self, rhs: &mut [G]) {
        let sparse = self.sparse;
        for (unknown, &position) in self.place.iter().enumerate() {
            self.work[position] = rhs[unknown];
        }
        for row in 0..self.place.len() {
            let end = if row < sparse {
                self.rows.diagonals[row]
            } else {
                self.rows.starts[row + 1] - self.border.size()
            };
            self.work[row] = self.work[row] - self.product(self.rows.starts[row]..end);
        }
        self.border.solve(&mut self.work[sparse..]);
        for row in (0..sparse).rev() {
            let known = self.product(self.rows.diagonals[row] + 1..self.rows.starts[row + 1]);
            self.work[row] = (self.work[row] - known) * self.inverses[row];
        }
        for (unknown, &position) in self.place.iter().enumerate() {
            rhs[unknown] = self.work[position];
        }
    }

    /// These entries times what stands at their columns. In four parts, so that one addition need not wait for another.
    #[inline(always)]
    fn product(&self, entries: Range<usize>) -> G {
        let (columns, column) = self.rows.columns[entries.clone()].as_chunks::<4>();
        let (values, value) = self.values[entries].as_chunks::<4>();
        let mut parts = [G::all(0.0); 4];
        for (columns, values) in columns.iter().zip(values) {
            for part in 0..4 {
                parts[part] = parts[part] + values[part] * self.work[columns[part] as usize];
            }
        }
        for (&column, value) in column.iter().zip(value) {
            parts[0] = parts[0] + *value * self.work[column as usize];
        }
        (parts[0] + parts[1]) + (parts[2] + parts[3])
    }
}

/// Where each column of one row stands.
struct Slots {
    row: Option<usize>,
    of: Vec<usize>,
}

impl Slots {
    /// Those of this row; columns that it has not keep what they had.
    fn at(&mut self, row: usize, rows: &Rows) -> &[usize] {
        if self.row != Some(row) {
            self.row = Some(row);
            let span = rows.span(row);
            for (slot, &column) in span.clone().zip(&rows.columns[span]) {
                self.of[column as usize] = slot;
            }
        }
        &self.of
    }
}

struct Factoring<'f, G, I> {
    factor: &'f mut Factor<G>,
    slopes: I,
    diagonal: &'f [G],
}

impl<G: Lanes, I: Iterator<Item = G>> Work for Factoring<'_, G, I> {
    type Done = Result<(), usize>;
    #[inline(always)]
    fn done(self) -> Self::Done {
        self.factor.factor_here(self.slopes, self.diagonal)
    }
}

struct Solving<'f, G> {
    factor: &'f mut Factor<G>,
    rhs: &'f mut [G],
}

impl<G: Lanes> Work for Solving<'_, G> {
    type Done = ();
    #[inline(always)]
    fn done(self) {
        self.factor.solve_here(self.rhs);
    }
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
            // The border's diagonal but its last entry is taken away, so that pivots must be chosen.
            let own = |i: usize| entries.iter().position(|e| *e == (i, i)).unwrap();
            let diagonal: Vec<f64> = (0..size)
                .map(|i| {
                    if i < sparse || i + 1 == size {
                        0.5
                    } else {
                        values[own(i)]
                    }
                })
                .collect();
            let mut dense = DMatrix::from_diagonal(&DVector::from_vec(diagonal.clone()));
            for (&(i, j), v) in entries.iter().zip(&values) {
                dense[(i, j)] -= v;
            }
            let rhs: Vec<f64> = (0..size).map(|i| (i as f64).sin() + 0.2).collect();
            let expected = dense.lu().solve(&DVector::from_vec(rhs.clone())).unwrap();
            let mut factor = Factor::new(size, |u| u >= sparse, &entries);
            factor.factor(values.iter().copied(), &diagonal).unwrap();
            let mut found = rhs;
            factor.solve(&mut found);
            for (a, b) in found.iter().zip(expected.iter()) {
                assert!((a - b).abs() < 1e-9 * (1.0 + b.abs()), "{a} is not {b}");
            }
        }
    }

    /// The solution of a random-looking system against a dense solver.
    fn agrees(
        size: usize,
        in_border: impl Fn(usize) -> bool,
        touch: impl Fn(usize, usize) -> bool,
    ) {
        let entries: Vec<(usize, usize)> = (0..size)
            .flat_map(|i| (0..size).map(move |j| (i, j)))
            .filter(|&(i, j)| i == j || touch(i, j))
            .collect();
        let values: Vec<f64> = entries
            .iter()
            .map(|&(i, j)| {
                let number = ((i * 31 + j * 17) as f64 * 0.37).fract();
                if i == j { -9.0 - number } else { number }
            })
            .collect();
        let mut dense = DMatrix::zeros(size, size);
        for (&(i, j), v) in entries.iter().zip(&values) {
            dense[(i, j)] -= v;
        }
        let rhs: Vec<f64> = (0..size).map(|i| (i as f64).cos()).collect();
        let expected = dense.lu().solve(&DVector::from_vec(rhs.clone())).unwrap();
        let mut factor = Factor::new(size, in_border, &entries);
        factor.factor(values.into_iter(), &vec![0.0; size]).unwrap();
        let mut found = rhs;
        factor.solve(&mut found);
        for (a, b) in found.iter().zip(expected.iter()) {
            assert!((a - b).abs() < 1e-10, "{a} is not {b}");
        }
    }

    #[test]
    fn a_border_may_stand_in_between_and_what_is_closely_knit_is_left_to_it() {
        let near = |i: usize, j: usize| i.abs_diff(j) == 1 || i % 5 == 2 || j % 5 == 2;
        agrees(31, |u| u % 5 == 2, near);
        // A clique of twelve among the sparse ones.
        let knit = |i: usize, j: usize| {
            i.abs_diff(j) <= 2 || (10..22).contains(&i) && (10..22).contains(&j)
        };
        agrees(40, |u| u >= 37, knit);
    }

    #[test]
    fn a_row_of_zeros_is_refused() {
        let mut factor = Factor::new(2, |u| u == 1, &[(0, 0), (1, 1)]);
        assert_eq!(
            factor.factor([-1.0, 0.0].into_iter(), &[0.0, 0.0]),
            Err(SingularError { unknown: 1 })
        );
    }
}
