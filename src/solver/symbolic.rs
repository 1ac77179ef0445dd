//! In which order unknowns are eliminated, and which places of the matrix that fills.

use std::cmp::Reverse;
use std::collections::BinaryHeap;
use std::ops::Range;

/// Part of the unknowns left that the least connected of them touches where a dense matrix is the better one. A
/// choice, not tuned; it moves work, not answers.
const DENSE_SWITCH: f64 = 0.5;

/// The sparse unknowns in an order that always takes one with the fewest neighbours left, until those that are left
/// are so closely knit that they are better off in the dense border.
pub fn minimum_degree_order(
    size: usize,
    in_border: impl Fn(usize) -> bool,
    entries: &[(usize, usize)],
) -> Vec<usize> {
    let mut near: Vec<Vec<usize>> = vec![Vec::new(); size];
    for &(a, b) in entries {
        if a != b && !in_border(a) && !in_border(b) {
            near[a].push(b);
            near[b].push(a);
        }
    }
    for around in &mut near {
        around.sort_unstable();
        around.dedup();
    }
    let mut degrees: Vec<usize> = near.iter().map(Vec::len).collect();
    // What was put in before a degree changed is passed over.
    let mut by_degree: BinaryHeap<Reverse<(usize, usize)>> = (0..size)
        .filter(|&u| !in_border(u))
        .map(|u| Reverse((degrees[u], u)))
        .collect();
    let mut waiting = by_degree.len();
    let mut is_left = vec![true; size];
    let mut order = Vec::with_capacity(waiting);
    while let Some(Reverse((degree, taken))) = by_degree.pop() {
        if !is_left[taken] || degree != degrees[taken] {
            continue;
        }
        is_left[taken] = false;
        waiting -= 1;
        if degree as f64 >= DENSE_SWITCH * waiting as f64 && degree > 0 {
            break;
        }
        order.push(taken);
        let mut around = std::mem::take(&mut near[taken]);
        around.retain(|&a| is_left[a]);
        for &a in &around {
            degrees[a] -= 1;
            for &b in around.iter().filter(|&&b| b != a) {
                if let Err(place) = near[a].binary_search(&b) {
                    near[a].insert(place, b);
                    degrees[a] += 1;
                }
            }
            by_degree.push(Reverse((degrees[a], a)));
        }
    }
    order
}

/// The places of a matrix that can be other than zero, by rows.
#[derive(Debug, Clone, Default)]
pub struct Rows {
    /// Where each row begins, and the end of the last.
    pub starts: Vec<usize>,
    /// The columns, rising within a row.
    pub columns: Vec<u32>,
    /// Where the diagonal of each row stands.
    pub diagonals: Vec<usize>,
}

impl Rows {
    /// Where the entries of a row stand.
    pub fn span(&self, row: usize) -> Range<usize> {
        self.starts[row]..self.starts[row + 1]
    }
    /// The columns of a row beyond its diagonal.
    pub fn beyond(&self, row: usize) -> &[u32] {
        &self.columns[self.diagonals[row] + 1..self.starts[row + 1]]
    }
}

/// The places of the matrix after elimination, in the elimination order. Rows of the border hold all its columns.
pub fn symbolic_factor(
    size: usize,
    sparse: usize,
    entries: &[(usize, usize)],
    place: &[usize],
) -> Rows {
    let mut own: Vec<Vec<u32>> = vec![Vec::new(); size];
    for &(row, column) in entries {
        own[place[row]].push(place[column] as u32);
    }
    let mut rows = Rows::default();
    let mut seen_in = vec![usize::MAX; size];
    let mut found: Vec<u32> = Vec::new();
    // Columns that are eliminated from the row, the next one first.
    let mut left: BinaryHeap<Reverse<u32>> = BinaryHeap::new();
    rows.starts.push(0);
    for (row, own) in own.iter().enumerate() {
        let limit = row.min(sparse);
        let mut meet = |column: u32, left: &mut BinaryHeap<Reverse<u32>>| {
            let seen = std::mem::replace(&mut seen_in[column as usize], row);
            if seen != row {
                found.push(column);
                if (column as usize) < limit {
                    left.push(Reverse(column));
                }
            }
        };
        meet(row as u32, &mut left);
        own.iter().for_each(|&column| meet(column, &mut left));
        if row >= sparse {
            (sparse..size).for_each(|column| meet(column as u32, &mut left));
        }
        while let Some(Reverse(taken)) = left.pop() {
            for &column in rows.beyond(taken as usize) {
                meet(column, &mut left);
            }
        }
        found.sort_unstable();
        let own_place = found.partition_point(|&c| (c as usize) < row);
        rows.diagonals.push(rows.columns.len() + own_place);
        rows.columns.append(&mut found);
        rows.starts.push(rows.columns.len());
    }
    rows
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use std::collections::BTreeSet;

    proptest! {
        /// Against elimination by the book: whatever two neighbours of an eliminated unknown share, they come to share it.
        #[test]
        fn places_fill_as_elimination_by_the_book_fills_them(
            entries in proptest::collection::vec((0..14_usize, 0..14_usize), 0..60),
            sparse in 0..14_usize,
        ) {
            let size = 14;
            let place: Vec<usize> = (0..size).collect();
            let mut full = vec![BTreeSet::new(); size];
            for (row, columns) in full.iter_mut().enumerate() {
                columns.insert(row);
                if row >= sparse {
                    columns.extend(sparse..size);
                }
            }
            for &(row, column) in &entries {
                full[row].insert(column);
            }
            for k in 0..sparse {
                let tail: Vec<usize> = full[k].range(k + 1..).copied().collect();
                for row in full.iter_mut().skip(k + 1).filter(|row| row.contains(&k)) {
                    row.extend(&tail);
                }
            }
            let found = symbolic_factor(size, sparse, &entries, &place);
            for (row, columns) in full.iter().enumerate() {
                let listed: Vec<usize> =
                    found.columns[found.span(row)].iter().map(|&c| c as usize).collect();
                prop_assert_eq!(&listed, &columns.iter().copied().collect::<Vec<_>>());
                prop_assert_eq!(found.columns[found.diagonals[row]] as usize, row);
            }
        }

        #[test]
        fn one_with_the_fewest_neighbours_left_is_always_taken(
            entries in proptest::collection::vec((0..14_usize, 0..14_usize), 0..60),
        ) {
            let mut near = vec![BTreeSet::new(); 14];
            for &(a, b) in entries.iter().filter(|(a, b)| a != b) {
                near[a].insert(b);
                near[b].insert(a);
            }
            let mut left: BTreeSet<usize> = (0..14).collect();
            for taken in minimum_degree_order(14, |_| false, &entries) {
                let fewest = left.iter().map(|&u| (near[u].len(), u)).min();
                prop_assert_eq!(fewest, Some((near[taken].len(), taken)));
                left.remove(&taken);
                let around = std::mem::take(&mut near[taken]);
                for &a in &around {
                    near[a].extend(around.iter().filter(|&&b| b != a));
                    near[a].remove(&taken);
                }
            }
        }
    }

    #[test]
    fn a_chain_stays_as_sparse_as_it_is() {
        let chain: Vec<(usize, usize)> = (1..50).flat_map(|i| [(i, i - 1), (i - 1, i)]).collect();
        let order = minimum_degree_order(50, |_| false, &chain);
        assert!(order.len() >= 47, "{} of 50", order.len());
        let mut place = vec![0; 50];
        let left = (0..50).filter(|u| !order.contains(u));
        for (position, unknown) in order.iter().copied().chain(left).enumerate() {
            place[unknown] = position;
        }
        let rows = symbolic_factor(50, order.len(), &chain, &place);
        // One neighbour on each side, and what stands on the diagonal.
        assert!(rows.columns.len() <= 3 * 50, "{}", rows.columns.len());
    }
}
