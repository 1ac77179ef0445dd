//! The dense border of the sparse matrix: elimination in place and without allocation, by the diagonal or by chosen pivots.

use crate::physics::number::Register;

/// A pivot of less than this part of its row's largest entry is weak. A choice: in built-in nights the least is a
/// hundred-thousandth, and rounding is 1e-16.
const WEAK: f64 = 1e-11;

/// A small dense matrix and its factors.
#[derive(Debug, Clone)]
pub struct Border<G = f64> {
    size: usize,
    values: Vec<G>,
    scales: Vec<G>,
    /// One over each pivot.
    inverses: Vec<G>,
    pivots: Vec<usize>,
}

impl<G: Register> Border<G> {
    /// Room for so many unknowns.
    pub fn new(size: usize) -> Self {
        Self {
            size,
            values: vec![G::all(0.0); size * size],
            scales: vec![G::ZERO; size],
            inverses: vec![G::all(0.0); size],
            pivots: (0..size).collect(),
        }
    }
    /// The number of unknowns.
    pub fn size(&self) -> usize {
        self.size
    }
    /// Sets a row.
    #[inline(always)]
    pub fn set_row(&mut self, row: usize, values: &[G]) {
        self.values[row * self.size..][..self.size].copy_from_slice(values);
    }

    /// Factors the rows that were set, the diagonal being the pivots: several nights in lanes would each choose others, and a
    /// night is to be the same beside others as alone. Where a pivot is weak, its night's numbers come out as no numbers.
    ///
    /// *Errors*: the number of a column whose pivot is weak in every lane.
    #[inline(always)]
    pub fn factor(&mut self) -> Result<(), usize> {
        for (row, pivot) in self.pivots.iter_mut().enumerate() {
            *pivot = row;
        }
        self.weigh();
        for k in 0..self.size {
            self.take(k)?;
        }
        Ok(())
    }

    /// Factors the rows that were set, choosing pivots.
    ///
    /// *Errors*: the number of a column without a pivot.
    #[inline(always)]
    pub fn factor_choosing(&mut self) -> Result<(), usize> {
        self.weigh();
        for k in 0..self.size {
            self.choose(k);
            self.take(k)?;
        }
        Ok(())
    }

    /// The largest entry of each row.
    #[inline(always)]
    fn weigh(&mut self) {
        for row in 0..self.size {
            let entries = &self.values[row * self.size..][..self.size];
            self.scales[row] = entries
                .iter()
                .fold(G::ZERO, |most, v| most.largest(v.magnitude()));
        }
    }

    /// Takes a column from the rows below.
    #[inline(always)]
    fn take(&mut self, k: usize) -> Result<(), usize> {
        let n = self.size;
        let pivot = self.values[k * n + k];
        let strong = pivot.magnitude() - self.scales[k] * WEAK;
        let inverse = strong.where_positive(G::all(1.0) / pivot, G::all(f64::NAN));
        if !inverse.any(f64::is_finite) {
            return Err(k);
        }
        self.inverses[k] = inverse;
        let (above, below) = self.values.split_at_mut((k + 1) * n);
        let lead = &above[k * n..];
        for row in below.chunks_exact_mut(n) {
            if row[k].any(|v| v != 0.0) {
                let factor = row[k] * inverse;
                row[k] = factor;
                for (value, led) in row[k + 1..].iter_mut().zip(&lead[k + 1..]) {
                    *value = *value - factor * *led;
                }
            }
        }
        Ok(())
    }

    /// Brings the row with the heaviest entry in this column, of those left, to its place.
    #[inline(always)]
    fn choose(&mut self, k: usize) {
        let n = self.size;
        let weight = |row: usize| (self.values[row * n + k] / self.scales[row]).lane(0).abs();
        let mut pivot = k;
        for row in k + 1..n {
            if weight(row) > weight(pivot) {
                pivot = row;
            }
        }
        self.pivots[k] = pivot;
        if pivot != k {
            self.scales.swap(pivot, k);
            let (above, below) = self.values.split_at_mut(pivot * n);
            above[k * n..][..n].swap_with_slice(&mut below[..n]);
        }
    }

    /// Solves with the last factors, in place.
    #[inline(always)]
    pub fn solve(&self, x: &mut [G]) {
        let n = self.size;
        for (k, &pivot) in self.pivots.iter().enumerate() {
            x.swap(k, pivot);
        }
        for row in 0..n {
            x[row] = x[row] - product(&self.values[row * n..][..row], x);
        }
        for row in (0..n).rev() {
            let values = &self.values[row * n..][..n];
            let known = product(&values[row + 1..], &x[row + 1..]);
            x[row] = (x[row] - known) * self.inverses[row];
        }
    }
}

/// The sum of the products, as far as the first reaches; in four parts, so that one addition need not wait for another.
#[inline(always)]
fn product<G: Register>(values: &[G], x: &[G]) -> G {
    let x = &x[..values.len()];
    let ((values, value), (x, last)) = (values.as_chunks::<4>(), x.as_chunks::<4>());
    let mut parts = [G::all(0.0); 4];
    for (values, x) in values.iter().zip(x) {
        for part in 0..4 {
            parts[part] = parts[part] + values[part] * x[part];
        }
    }
    for (value, x) in value.iter().zip(last) {
        parts[0] = parts[0] + *value * *x;
    }
    (parts[0] + parts[1]) + (parts[2] + parts[3])
}
