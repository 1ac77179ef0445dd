//! The sums of a step between evaluations and solutions.

use super::method::{A, C, DENSE, DRIFT, GAMMA, ON_THE_WAY, STAGES};
use super::step::Stepper;
use crate::physics::number::{Register, Work};

/// The sums of a step between evaluations and solutions.
pub enum Part<G> {
    /// Capacities over the length of the step, for the matrix.
    Capacities(G),
    /// Where a stage asks for the rates.
    GoTo(usize),
    /// The right side of a stage.
    Weigh(usize, G),
    /// A stage, from what was solved.
    Close(usize, G),
    /// The end of the step, and the curve to it.
    Arrive,
    /// Where the curve is looked at.
    GoOnTheWay,
    /// The right side of what the curve is off there.
    WeighOnTheWay(G),
}

pub struct Sums<'s, 'n, G: Register> {
    /// The step.
    pub of: &'s mut Stepper<'n, G>,
    /// Which sum.
    pub part: Part<G>,
}

impl<G: Register> Work for Sums<'_, '_, G> {
    type Done = ();
    #[inline(always)]
    fn done<const WIDE: bool>(self) {
        match self.part {
            Part::Capacities(step_s) => self.of.weigh_capacities(step_s),
            Part::GoTo(stage) => self.of.go_to(stage),
            Part::Weigh(stage, step_s) => self.of.weigh(stage, step_s),
            Part::Close(stage, step_s) => self.of.close(stage, step_s),
            Part::Arrive => self.of.arrive(),
            Part::GoOnTheWay => self.of.go_on_the_way(),
            Part::WeighOnTheWay(step_s) => self.of.weigh_on_the_way(step_s),
        }
    }
}

impl<G: Register> Stepper<'_, G> {
    #[inline(always)]
    fn weigh_capacities(&mut self, step_s: G) {
        let per_s = G::all(1.0) / (step_s * GAMMA);
        for (d, capacity) in self.diagonal.iter_mut().zip(&self.capacities) {
            *d = *capacity * per_s;
        }
    }

    /// Where a stage asks for the rates.
    #[inline(always)]
    fn go_to(&mut self, stage: usize) {
        self.place.copy_from_slice(&self.before);
        for (weight, earlier) in A[stage].iter().zip(&self.stages) {
            add(&mut self.place, G::all(*weight), earlier);
        }
    }

    /// The end of the step, and the curve to it.
    #[inline(always)]
    fn arrive(&mut self) {
        let carried = self.after.len();
        self.after.copy_from_slice(&self.before[..carried]);
        self.expected.copy_from_slice(&self.before[carried..]);
        self.curves.iter_mut().for_each(|c| c.fill(G::all(0.0)));
        for (number, stage) in self.stages.iter().enumerate() {
            let last = number + 1 == STAGES;
            let weight = G::all(if last { 1.0 } else { A[STAGES - 1][number] });
            add(&mut self.after, weight, stage);
            add(&mut self.expected, weight, &stage[carried..]);
            for (curve, weights) in self.curves.iter_mut().zip(&DENSE) {
                add(curve, G::all(weights[number]), stage);
            }
        }
    }

    /// The right side of a stage.
    #[inline(always)]
    fn weigh(&mut self, stage: usize, step_s: G) {
        let (states, books) = (self.states, self.books);
        let unknowns = self.rhs.len();
        let (done, rest) = self.stages.split_at_mut(stage);
        let current = &mut rest[0];
        let rates: &[G] = if stage == 0 {
            &self.first
        } else {
            self.balance.last()
        };
        // What earlier stages leave over: Σ c u / h.
        current.fill(G::all(0.0));
        let per_s = G::all(1.0) / step_s;
        for (weight, earlier) in C[stage].iter().zip(&*done) {
            add(current, per_s * *weight, earlier);
        }
        let drifted = step_s * DRIFT[stage];
        for row in 0..states {
            self.rhs[row] =
                rates[row] + self.capacities[row] * current[row] + drifted * self.drift[row];
        }
        for row in states..unknowns {
            self.rhs[row] = rates[row] + drifted * self.drift[row];
        }
        for book in 0..books {
            let row = unknowns + book;
            current[states + book] =
                current[states + book] + (rates[row] + drifted * self.drift[row]);
        }
    }

    /// Takes a stage from what was solved.
    #[inline(always)]
    fn close(&mut self, stage: usize, step_s: G) {
        let (states, books) = (self.states, self.books);
        let carried = states + books;
        let current = &mut self.stages[stage];
        for &(at, book, column) in &self.booked {
            current[states + book] = current[states + book] + self.slopes[at] * self.rhs[column];
        }
        let scale = step_s * GAMMA;
        for book in &mut current[states..carried] {
            *book = *book * scale;
        }
        let pockets = &G::first(self.balance.networks()).pockets;
        for (moved, pocket) in current[carried..].iter_mut().zip(pockets) {
            *moved = self.rhs[pocket.pressure];
        }
        current[..states].copy_from_slice(&self.rhs[..states]);
    }

    #[inline(always)]
    fn go_on_the_way(&mut self) {
        let carried = self.states + self.books;
        for i in 0..self.states {
            self.place[i] = self.curve(i, self.after[i], ON_THE_WAY);
        }
        for pocket in 0..self.expected.len() {
            let expected = self.expected[pocket];
            self.place[carried + pocket] = self.curve(carried + pocket, expected, ON_THE_WAY);
        }
    }

    #[inline(always)]
    fn weigh_on_the_way(&mut self, step_s: G) {
        let rates = self.balance.last();
        let unknowns = self.rhs.len();
        self.rhs.copy_from_slice(&rates[..unknowns]);
        let (share, rest) = (ON_THE_WAY, 1.0 - ON_THE_WAY);
        let per_s = G::all(1.0) / step_s;
        for i in 0..self.states {
            let [bend, twist] = [self.curves[0][i], self.curves[1][i]];
            let climb = self.after[i] - self.before[i]
                + (bend + twist * share) * (rest - share)
                + twist * (share * rest);
            self.rhs[i] = rates[i] - self.capacities[i] * climb * per_s;
        }
    }

    #[inline(always)]
    fn curve(&self, component: usize, after: G, share: f64) -> G {
        let rest = 1.0 - share;
        let [bend, twist] = [self.curves[0][component], self.curves[1][component]];
        self.before[component] * rest + (after + (bend + twist * share) * rest) * share
    }
}

/// Adds a weighted vector to another, as far as the shorter reaches.
#[inline(always)]
fn add<G: Register>(to: &mut [G], weight: G, from: &[G]) {
    for (t, f) in to.iter_mut().zip(from) {
        *t = *t + weight * *f;
    }
}
