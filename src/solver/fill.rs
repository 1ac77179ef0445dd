//! In which order unknowns are eliminated, and which places of the matrix that fills.

use std::collections::BTreeSet;

/// Part of the unknowns left that the least connected of them touches where a dense matrix is the better one. A
/// choice, not tuned; it moves work, not answers.
const CLOSELY_KNIT: f64 = 0.5;

/// The sparse unknowns in an order that always takes one with the fewest neighbours left, until those that are left
/// are so closely knit that they are better off in the dense border.
pub fn least_degree_order(
    size: usize,
    in_border: impl Fn(usize) -> bool,
    entries: &[(usize, usize)],
) -> Vec<usize> {
    let mut near: Vec<BTreeSet<usize>> = vec![BTreeSet::new(); size];
    for &(a, b) in entries {
        if a != b && !in_border(a) && !in_border(b) {
            near[a].insert(b);
            near[b].insert(a);
        }
    }
    let mut waiting: BTreeSet<(usize, usize)> = near
        .iter()
        .enumerate()
        .filter(|&(u, _)| !in_border(u))
        .map(|(u, n)| (n.len(), u))
        .collect();
    let mut order = Vec::with_capacity(size);
    while let Some((degree, taken)) = waiting.pop_first() {
        if degree as f64 >= CLOSELY_KNIT * waiting.len() as f64 && degree > 0 {
            break;
        }
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
pub fn filled(
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
