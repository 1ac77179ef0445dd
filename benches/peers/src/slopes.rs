//! The slopes of the states over each other alone, as a sparse matrix by columns, for peers that know states only.
//!
//! coldsoak keeps every auxiliary unknown in its matrix. Means, watts, air speeds and the like each follow from a row of
//! their own, so they are put in, in order, at once; what is left are states and pressures. The pressures, a small dense
//! block, are eliminated last.
//! Where everything goes is found once a network; it is not part of what is timed.

use crate::columns::Columns;
use coldsoak::balance::Balance;
use coldsoak::network::Network;
use nalgebra::DMatrix;
use std::collections::BTreeSet;

/// An entry of coldsoak's slopes that goes through an auxiliary: times each of its slots, to these targets.
#[derive(Clone)]
struct Through {
    entry: usize,
    auxiliary: usize,
    targets: Vec<usize>,
}

/// One row: an auxiliary or a kept unknown.
#[derive(Clone, Default)]
struct Row {
    /// Entry and slot.
    direct: Vec<(usize, usize)>,
    through: Vec<Through>,
    /// What the row is divided by, an entry of coldsoak's slopes; for auxiliaries.
    own: Option<usize>,
}

/// Finds slopes again and again.
#[derive(Clone)]
pub struct Slopes {
    states: usize,
    pressures: usize,
    /// Auxiliary rows, in the order in which they follow, each with its slots in `work`.
    auxiliaries: Vec<(Row, Vec<usize>)>,
    kept: Vec<Row>,
    work: Vec<f64>,
    /// States, then pressures.
    whole: Columns,
    /// States alone, a second.
    pub alone: Columns,
    /// For each slot of `alone`: the slot of `whole` it comes from.
    from: Vec<Option<usize>>,
    /// Columns of states that move pressures; rows of states that pressures move; their slots in `alone`.
    movers: Vec<usize>,
    moved: Vec<usize>,
    targets: Vec<usize>,
}

impl Slopes {
    /// Finds where everything goes.
    pub fn new(net: &Network, balance: &Balance) -> Self {
        let (n, p, all) = (net.index.states(), net.pockets.len(), net.index.unknowns());
        // Place of each unknown among those kept.
        let mut place: Vec<Option<usize>> = (0..all).map(|u| (u < n).then_some(u)).collect();
        for (number, pocket) in net.pockets.iter().enumerate() {
            place[pocket.pressure] = Some(n + number);
        }
        let mut by_row: Vec<Vec<(usize, usize)>> = vec![Vec::new(); all];
        for (at, e) in balance.entries().iter().enumerate() {
            if e.row < all && e.column < all {
                by_row[e.row].push((at, e.column));
            }
        }
        let mut order = Vec::new();
        let mut seen = vec![false; all];
        for u in (0..all).filter(|&u| place[u].is_none()) {
            follow(u, &by_row, &place, &mut seen, &mut order);
        }
        // What each auxiliary depends on, of what is kept.
        let mut reach: Vec<BTreeSet<usize>> = vec![BTreeSet::new(); all];
        let reached = |row: usize, reach: &[BTreeSet<usize>]| -> BTreeSet<usize> {
            let columns = by_row[row]
                .iter()
                .filter(|(_, c)| *c != row || place[row].is_some());
            columns
                .flat_map(|&(_, c)| match place[c] {
                    Some(kept) => vec![kept],
                    None => reach[c].iter().copied().collect(),
                })
                .collect()
        };
        let mut ends = vec![0; all];
        let mut slots = vec![Vec::new(); all];
        let mut filled = 0;
        for &a in &order {
            reach[a] = reached(a, &reach);
            slots[a] = (filled..filled + reach[a].len()).collect();
            filled += reach[a].len();
            ends[a] = filled;
        }
        let unknown_of = |kept: usize| {
            if kept < n {
                kept
            } else {
                net.pockets[kept - n].pressure
            }
        };
        let mut columns: Vec<BTreeSet<usize>> = (0..n + p).map(|c| BTreeSet::from([c])).collect();
        for row in 0..n + p {
            for column in reached(unknown_of(row), &reach) {
                columns[column].insert(row);
            }
        }
        let whole = Columns::of(&columns);
        let make = |unknown: usize, slot_of: &dyn Fn(usize) -> usize| {
            let mut row = Row::default();
            for &(entry, c) in &by_row[unknown] {
                match place[c] {
                    Some(kept) => row.direct.push((entry, slot_of(kept))),
                    None if c == unknown => row.own = Some(entry),
                    None => row.through.push(Through {
                        entry,
                        auxiliary: order.iter().position(|&a| a == c).unwrap_or(0),
                        targets: reach[c].iter().map(|&k| slot_of(k)).collect(),
                    }),
                }
            }
            row
        };
        let auxiliaries = order
            .iter()
            .map(|&a| {
                let known: Vec<usize> = reach[a].iter().copied().collect();
                let row = make(a, &|k| slots[a][known.binary_search(&k).unwrap_or(0)]);
                (row, slots[a].clone())
            })
            .collect();
        let kept = (0..n + p)
            .map(|r| make(unknown_of(r), &|k| whole.slot(r, k).unwrap_or(0)))
            .collect();
        let pressed = |c: usize| columns[c].range(n..).next().is_some();
        let movers: Vec<usize> = (0..n).filter(|&c| pressed(c)).collect();
        let moved: BTreeSet<usize> = (n..n + p)
            .flat_map(|c| columns[c].range(..n).copied())
            .collect();
        let mut alone: Vec<BTreeSet<usize>> = columns[..n]
            .iter()
            .map(|c| c.range(..n).copied().collect())
            .collect();
        for &c in &movers {
            alone[c].extend(&moved);
        }
        let alone = Columns::of(&alone);
        let moved: Vec<usize> = moved.into_iter().collect();
        let from = (0..n)
            .flat_map(|c| {
                alone.rows[alone.starts[c]..alone.starts[c + 1]]
                    .iter()
                    .map(move |&r| (r, c))
            })
            .map(|(r, c)| whole.slot(r, c))
            .collect();
        let targets = movers
            .iter()
            .flat_map(|&c| moved.iter().map(move |&r| (r, c)))
            .map(|(r, c)| alone.slot(r, c).unwrap_or(0))
            .collect();
        Self {
            states: n,
            pressures: p,
            auxiliaries,
            kept,
            work: vec![0.0; filled],
            whole,
            alone,
            from,
            movers,
            moved,
            targets,
        }
    }

    /// Finds `whole`; rows of states a second, of pressures as they are.
    fn find_whole(&mut self, net: &Network, slopes: &[f64]) {
        self.work.fill(0.0);
        for (row, own) in &self.auxiliaries {
            gather(
                row,
                slopes,
                &self.auxiliaries,
                &mut Into::Own(&mut self.work),
            );
            let divisor = row.own.map_or(-1.0, |entry| slopes[entry]);
            for &slot in own {
                self.work[slot] /= -divisor;
            }
        }
        self.whole.values.fill(0.0);
        let mut into = Into::Whole(&self.work, &mut self.whole.values);
        for row in &self.kept {
            gather(row, slopes, &self.auxiliaries, &mut into);
        }
        for (value, &row) in self.whole.values.iter_mut().zip(&self.whole.rows) {
            if row < self.states {
                *value /= net.capacities[row];
            }
        }
    }

    /// Finds `alone` from coldsoak's slopes; false if the pressures do not follow from the states.
    pub fn find_alone(&mut self, net: &Network, slopes: &[f64]) -> bool {
        self.find_whole(net, slopes);
        for (value, from) in self.alone.values.iter_mut().zip(&self.from) {
            *value = from.map_or(0.0, |slot| self.whole.values[slot]);
        }
        let (n, p) = (self.states, self.pressures);
        if p == 0 {
            return true;
        }
        let at = |row: usize, column: usize| {
            self.whole
                .slot(row, column)
                .map_or(0.0, |slot| self.whole.values[slot])
        };
        let square = DMatrix::from_fn(p, p, |r, c| at(n + r, n + c));
        let mut right = DMatrix::from_fn(p, self.movers.len(), |r, c| at(n + r, self.movers[c]));
        if !square.lu().solve_mut(&mut right) {
            return false;
        }
        let left = DMatrix::from_fn(self.moved.len(), p, |r, c| at(self.moved[r], n + c));
        let product = left * right;
        for (target, value) in self.targets.iter().zip(product.as_slice()) {
            self.alone.values[*target] -= value;
        }
        true
    }
}

/// Orders auxiliaries so that each comes after those it depends on.
fn follow(
    unknown: usize,
    by_row: &[Vec<(usize, usize)>],
    place: &[Option<usize>],
    seen: &mut [bool],
    order: &mut Vec<usize>,
) {
    if std::mem::replace(&mut seen[unknown], true) {
        return;
    }
    for &(_, column) in &by_row[unknown] {
        if place[column].is_none() {
            follow(column, by_row, place, seen, order);
        }
    }
    order.push(unknown);
}

/// Where a row is gathered: among the auxiliaries' own slots, or in the whole matrix.
enum Into<'a> {
    Own(&'a mut [f64]),
    Whole(&'a [f64], &'a mut [f64]),
}

fn gather(row: &Row, slopes: &[f64], auxiliaries: &[(Row, Vec<usize>)], into: &mut Into) {
    for &(entry, slot) in &row.direct {
        match into {
            Into::Own(work) => work[slot] += slopes[entry],
            Into::Whole(_, values) => values[slot] += slopes[entry],
        }
    }
    for through in &row.through {
        let slope = slopes[through.entry];
        for (&source, &target) in auxiliaries[through.auxiliary]
            .1
            .iter()
            .zip(&through.targets)
        {
            match into {
                Into::Own(work) => work[target] += slope * work[source],
                Into::Whole(work, values) => values[target] += slope * work[source],
            }
        }
    }
}
