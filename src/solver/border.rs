//! The dense border of the sparse matrix: elimination with row pivoting, in place and without allocation.

use crate::physics::number::Register;

/// A small dense matrix and its factors.
#[derive(Debug, Clone)]
pub struct Border<G = f64> {
    size: usize,
    values: Vec<G>,
    scales: Vec<f64>,
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
            scales: vec![0.0; size],
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

    /// Factors the rows that were set; rows are weighed by their largest entry when a pivot is chosen. Several nights
    /// abreast would each choose another: there the diagonal is taken, and where it does not serve, that night's numbers
    /// come out as no numbers or with an error that its step is refused for.
    ///
    /// *Errors*: the number of a column without a pivot.
    #[inline(always)]
    pub fn factor(&mut self) -> Result<(), usize> {
        let n = self.size;
        if n == 0 {
            return Ok(());
        }
        let chosen = G::LANES == 1;
        if chosen {
            for (row, scale) in self.values.chunks_exact(n).zip(&mut self.scales) {
                let largest = row.iter().fold(0.0_f64, |m, v| m.max(v.lane(0).abs()));
                *scale = if largest > 0.0 { 1.0 / largest } else { 0.0 };
            }
        }
        for k in 0..n {
            if chosen {
                self.choose(k)?;
            }
            let (above, below) = self.values.split_at_mut((k + 1) * n);
            let lead = &above[k * n..];
            let inverse = G::all(1.0) / lead[k];
            self.inverses[k] = inverse;
            for row in below.chunks_exact_mut(n) {
                if row[k].any(|v| v != 0.0) {
                    let factor = row[k] * inverse;
                    row[k] = factor;
                    for (value, led) in row[k + 1..].iter_mut().zip(&lead[k + 1..]) {
                        *value = *value - factor * *led;
                    }
                }
            }
        }
        Ok(())
    }

    /// Brings the row with the heaviest entry in this column, of those left, to its place.
    #[inline(always)]
    fn choose(&mut self, k: usize) -> Result<(), usize> {
        let n = self.size;
        let weight = |row: usize| self.values[row * n + k].lane(0).abs() * self.scales[row];
        let mut pivot = k;
        for row in k + 1..n {
            if weight(row) > weight(pivot) {
                pivot = row;
            }
        }
        if weight(pivot) == 0.0 || !weight(pivot).is_finite() {
            return Err(k);
        }
        self.pivots[k] = pivot;
        if pivot != k {
            self.scales.swap(pivot, k);
            let (above, below) = self.values.split_at_mut(pivot * n);
            above[k * n..][..n].swap_with_slice(&mut below[..n]);
        }
        Ok(())
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
