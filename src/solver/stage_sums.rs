//! The sums of a step, between evaluations and solutions: what is carried through its stages.
//!
//! The vector carried is the states followed by the books (energy drawn, heat and vapour lost). A book is
//! an integral of what the states do; it is advanced by the same stages, so that what the states gain is
//! what the books say to the last digit, whatever the step. Within a step a third part stands behind them, the pressures
//! of the pockets.

use super::method::{A, C, DEFECT_POINT, DENSE, GAMMA, STAGES, TIME_DERIVATIVE};
use crate::balance::{Balance, Evaluate};
use crate::physics::lanes::Lanes;
use crate::physics::number::{Register, Work};

/// One of the sums.
pub enum Part<'r, G> {
    /// Capacities over the length of the step, for the matrix.
    Capacities(G),
    /// Where a stage asks for the rates.
    GoTo(usize),
    /// The right side of a stage, from the rates there.
    Weigh(usize, G, &'r [G]),
    /// A stage, from what was solved.
    Close(usize, G),
    /// The end of the step, and the curve to it.
    Arrive,
    /// Where the curve is looked at.
    GoOnTheWay,
    /// The right side of what the curve is off there, from the rates there.
    WeighOnTheWay(G, &'r [G]),
}

/// What is carried through the stages of a step; all work space is laid out once.
pub struct StageSums<G> {
    /// How many states there are.
    pub states: usize,
    /// How many states and books.
    pub carried: usize,
    /// Slopes of the books: position, book, column.
    booked: Vec<(usize, usize, usize)>,
    /// The columns of the pressures.
    pressures: Vec<usize>,
    /// What divides each state's row.
    pub capacities: Vec<G>,
    /// Rates where the step begins.
    pub first: Vec<G>,
    /// Slopes there.
    pub slopes: Vec<G>,
    /// How fast each row changes by itself there.
    pub drift: Vec<G>,
    /// The vector there.
    pub before: Vec<G>,
    stages: [Vec<G>; STAGES],
    /// Where rates are evaluated.
    pub place: Vec<G>,
    /// The diagonal of the matrix.
    pub diagonal: Vec<G>,
    /// A right side, then what was solved.
    pub rhs: Vec<G>,
    /// What bends the way between the ends of the step.
    pub curves: [Vec<G>; 2],
    /// The vector at its end.
    pub after: Vec<G>,
}

struct Summing<'s, 'r, G> {
    of: &'s mut StageSums<G>,
    part: Part<'r, G>,
}

impl<G: Register> Work for Summing<'_, '_, G> {
    type Done = ();
    #[inline(always)]
    fn done(self) {
        match self.part {
            Part::Capacities(step_s) => self.of.weigh_capacities(step_s),
            Part::GoTo(stage) => self.of.go_to(stage),
            Part::Weigh(stage, step_s, rates) => self.of.weigh(stage, step_s, rates),
            Part::Close(stage, step_s) => self.of.close(stage, step_s),
            Part::Arrive => self.of.arrive(),
            Part::GoOnTheWay => self.of.go_on_the_way(),
            Part::WeighOnTheWay(step_s, rates) => self.of.weigh_on_the_way(step_s, rates),
        }
    }
}

impl<G: Register> StageSums<G> {
    /// Room for the steps of a balance.
    pub fn new(balance: &Balance<G>) -> Self
    where
        G: Evaluate,
    {
        let nets = balance.networks();
        let net = G::first(nets);
        let ix = &net.index;
        let unknowns = ix.unknowns();
        let (states, carried) = (ix.states(), ix.states() + ix.books);
        let width = carried + net.pockets.len();
        let zeros = |count: usize| vec![G::all(0.0); count];
        let entries = balance.entries().iter().enumerate();
        Self {
            states,
            carried,
            booked: entries
                .filter(|(_, e)| e.column < unknowns)
                .filter(|(_, e)| (unknowns..ix.unused_row()).contains(&e.row))
                .map(|(at, e)| (at, e.row - unknowns, e.column))
                .collect(),
            pressures: net.pockets.iter().map(|p| p.pressure).collect(),
            capacities: (0..states)
                .map(|state| G::read(nets, |net| net.capacities[state]))
                .collect(),
            first: zeros(ix.rows()),
            slopes: zeros(balance.entries().len()),
            drift: zeros(ix.rows()),
            before: zeros(width),
            stages: std::array::from_fn(|_| zeros(width)),
            place: zeros(width),
            diagonal: zeros(unknowns),
            rhs: zeros(unknowns),
            curves: std::array::from_fn(|_| zeros(width)),
            after: zeros(width),
        }
    }

    /// The error of the step, a value for each state.
    pub fn error(&self) -> &[G] {
        &self.stages[STAGES - 1][..self.states]
    }

    /// Does one of the sums.
    pub fn sum(&mut self, part: Part<G>)
    where
        G: Lanes,
    {
        G::work(Summing { of: self, part });
    }

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
        for (weight, earlier) in A[stage].iter().zip(&self.stages[..stage]) {
            add(&mut self.place, G::all(*weight), earlier);
        }
    }

    /// The end of the step, and the curve to it.
    #[inline(always)]
    fn arrive(&mut self) {
        self.after.copy_from_slice(&self.before);
        self.curves.iter_mut().for_each(|c| c.fill(G::all(0.0)));
        for (number, stage) in self.stages.iter().enumerate() {
            let last = number + 1 == STAGES;
            let weight = G::all(if last { 1.0 } else { A[STAGES - 1][number] });
            add(&mut self.after, weight, stage);
            for (curve, weights) in self.curves.iter_mut().zip(&DENSE) {
                add(curve, G::all(weights[number]), stage);
            }
        }
    }

    /// The right side of a stage.
    #[inline(always)]
    fn weigh(&mut self, stage: usize, step_s: G, rates: &[G]) {
        let states = self.states;
        let unknowns = self.rhs.len();
        let (done, rest) = self.stages.split_at_mut(stage);
        let current = &mut rest[0];
        let rates = if stage == 0 { &self.first } else { rates };
        // What earlier stages leave over: Σ c u / h.
        current.fill(G::all(0.0));
        let per_s = G::all(1.0) / step_s;
        for (weight, earlier) in C[stage].iter().zip(&*done) {
            add(current, per_s * *weight, earlier);
        }
        let drifted = step_s * TIME_DERIVATIVE[stage];
        for row in 0..states {
            self.rhs[row] =
                rates[row] + self.capacities[row] * current[row] + drifted * self.drift[row];
        }
        let left_over = rates[states..unknowns].iter().zip(&self.drift[states..]);
        for (rhs, (rate, drift)) in self.rhs[states..].iter_mut().zip(left_over) {
            *rhs = *rate + drifted * *drift;
        }
        for book in 0..self.carried - states {
            let row = unknowns + book;
            current[states + book] =
                current[states + book] + (rates[row] + drifted * self.drift[row]);
        }
    }

    /// Takes a stage from what was solved.
    #[inline(always)]
    fn close(&mut self, stage: usize, step_s: G) {
        let (states, carried) = (self.states, self.carried);
        let current = &mut self.stages[stage];
        for &(at, book, column) in &self.booked {
            current[states + book] = current[states + book] + self.slopes[at] * self.rhs[column];
        }
        let scale = step_s * GAMMA;
        for book in &mut current[states..carried] {
            *book = *book * scale;
        }
        for (moved, pressure) in current[carried..].iter_mut().zip(&self.pressures) {
            *moved = self.rhs[*pressure];
        }
        current[..states].copy_from_slice(&self.rhs[..states]);
    }

    #[inline(always)]
    fn go_on_the_way(&mut self) {
        for i in (0..self.states).chain(self.carried..self.after.len()) {
            self.place[i] = self.curve(i, DEFECT_POINT);
        }
    }

    #[inline(always)]
    fn weigh_on_the_way(&mut self, step_s: G, rates: &[G]) {
        let unknowns = self.rhs.len();
        self.rhs.copy_from_slice(&rates[..unknowns]);
        let (share, rest) = (DEFECT_POINT, 1.0 - DEFECT_POINT);
        let per_s = G::all(1.0) / step_s;
        for (i, rate) in rates[..self.states].iter().enumerate() {
            let [bend, twist] = [self.curves[0][i], self.curves[1][i]];
            let climb = self.after[i] - self.before[i]
                + (bend + twist * share) * (rest - share)
                + twist * (share * rest);
            self.rhs[i] = *rate - self.capacities[i] * climb * per_s;
        }
    }

    /// One component on the curve between the ends of the step.
    #[inline(always)]
    fn curve(&self, component: usize, share: f64) -> G {
        let [bend, twist] = [self.curves[0][component], self.curves[1][component]];
        on_curve(
            self.before[component],
            self.after[component],
            bend,
            twist,
            share,
        )
    }
}

/// A cubic through its ends, at a share of the way: `(1 - s) a + s (b + (1 - s)(bend + s twist))`.
#[inline(always)]
pub fn on_curve<G: Register>(before: G, after: G, bend: G, twist: G, share: f64) -> G {
    let rest = 1.0 - share;
    before * rest + (after + (bend + twist * share) * rest) * share
}

/// Adds a weighted vector to another, as far as the shorter reaches.
#[inline(always)]
fn add<G: Register>(to: &mut [G], weight: G, from: &[G]) {
    for (t, f) in to.iter_mut().zip(from) {
        *t = *t + weight * *f;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::network::{Index, Network};

    #[test]
    fn what_a_failed_try_left_in_later_stages_does_not_reach_earlier_ones() {
        let index = Index {
            cells: 1,
            ..Index::default()
        };
        let net = Network {
            capacities: vec![1.0; index.states()],
            index,
            ..Network::default()
        };
        let mut sums = StageSums::new(&Balance::new(&net));
        for (number, stage) in sums.stages.iter_mut().enumerate() {
            stage.fill(if number < 2 { 1.0 } else { f64::NAN });
        }
        sums.sum(Part::GoTo(2));
        assert_eq!(sums.place[0], A[2][0] + A[2][1]);
        sums.sum(Part::Weigh(2, 10.0, &vec![0.0; net.index.rows()]));
        assert!((sums.rhs[0] - (C[2][0] + C[2][1]) / 10.0).abs() < 1e-15);
    }
}
