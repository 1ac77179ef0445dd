//! A sparse matrix by columns.

use std::collections::BTreeSet;

/// A sparse matrix by columns, its pattern fixed.
#[derive(Clone, Default)]
pub struct Columns {
    /// Where each column begins.
    pub starts: Vec<usize>,
    /// The rows, rising within a column.
    pub rows: Vec<usize>,
    /// The values.
    pub values: Vec<f64>,
}

impl Columns {
    /// Zeros at these rows of each column.
    pub fn of(columns: &[BTreeSet<usize>]) -> Self {
        let mut made = Self {
            starts: vec![0],
            ..Self::default()
        };
        for column in columns {
            made.rows.extend(column);
            made.starts.push(made.rows.len());
        }
        made.values = vec![0.0; made.rows.len()];
        made
    }

    /// Where an entry stands.
    pub fn slot(&self, row: usize, column: usize) -> Option<usize> {
        let start = self.starts[column];
        self.rows[start..self.starts[column + 1]]
            .binary_search(&row)
            .ok()
            .map(|at| start + at)
    }
}
