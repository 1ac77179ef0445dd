//! Elements of a kind evaluated together, four at a time: elements of one night, or the same element of four nights.

use crate::laws::{Element, Law};
use crate::physics::four::Four;
use crate::physics::lanes::Lanes;
use crate::physics::number::Register;

/// Elements that are evaluated together.
pub struct LawLanes<'a, L, const K: usize, const R: usize> {
    /// The element in each lane. Lanes that are left over repeat the first.
    pub elements: [&'a Element<L, K, R>; 4],
    /// How many elements of a list are evaluated, of one night or of each.
    pub count: usize,
}

impl<'a, L: Law<K, R>, const K: usize, const R: usize> LawLanes<'a, L, K, R> {
    /// Those from this number on: of one night, as many of the next four as make the same choice.
    #[inline(always)]
    pub fn at<G: Lanes>([a, b, c, d]: [&'a [Element<L, K, R>]; 4], number: usize) -> Self {
        if G::LANES > 1 {
            return Self {
                elements: [&a[number], &b[number], &c[number], &d[number]],
                count: 1,
            };
        }
        let rest = &a[number..];
        let choice = rest[0].law.choice();
        let joins = |lane: usize| lane < rest.len() && rest[lane].law.choice() == choice;
        let count = match (joins(1), joins(2), joins(3)) {
            (false, ..) => 1,
            (_, false, _) => 2,
            (.., false) => 3,
            _ => 4,
        };
        let lane = |lane: usize| &rest[if lane < count { lane } else { 0 }];
        Self {
            elements: [&rest[0], lane(1), lane(2), lane(3)],
            count,
        }
    }

    /// The laws by themselves.
    #[inline(always)]
    pub fn laws(&self) -> [&'a L; 4] {
        let [a, b, c, d] = self.elements;
        [&a.law, &b.law, &c.law, &d.law]
    }

    /// What the laws read.
    #[inline(always)]
    pub fn columns<G: Lanes>(&self, x: &[G]) -> [Four; K] {
        let [a, b, c, d] = self.elements;
        let mut columns = [Four::ZERO; K];
        for (k, column) in columns.iter_mut().enumerate() {
            let places = [a.columns[k], b.columns[k], c.columns[k], d.columns[k]];
            *column = G::gather(x, places);
        }
        columns
    }

    /// One if a law's heater is on, zero if it is off or the law has none.
    #[inline(always)]
    pub fn on<G: Lanes>(&self, on: &[G]) -> Four {
        let [a, b, c, d] = self.laws();
        match (a.heater(), b.heater(), c.heater(), d.heater()) {
            (Some(a), Some(b), Some(c), Some(d)) => G::gather(on, [a, b, c, d]),
            _ => Four::ZERO,
        }
    }

    /// Adds numbers of each element to their places, element by element.
    #[inline(always)]
    pub fn add<G: Lanes, const M: usize, const N: usize>(
        &self,
        numbers: [[Four; N]; M],
        to: &mut [G],
        place: impl Fn(usize, usize, usize) -> usize,
    ) {
        // With the bound known the lanes are read from registers.
        for lane in 0..4 {
            if lane < self.count {
                for (m, row) in numbers.iter().enumerate() {
                    for (n, number) in row.iter().enumerate() {
                        G::add_at(to, place(lane, m, n), *number, lane);
                    }
                }
            }
        }
    }
}
