//! One step of the method, with its error and the curve between its ends.
//!
//! The vector carried is the states followed by the books (energy drawn, heat and vapour lost). A book is
//! an integral of what the states do; it is advanced by the same stages, so that what the states gain is
//! what the books say to the last digit, whatever the step.
//!
//! The pressures of the pockets follow from the states at once. They are found at the beginning of each step; its
//! stages foresee them as they do the states, and leave what does not balance to the matrix: the method keeps its order
//! for such equations (index 1; Hairer and Wanner, section VI.4; from memory).

use super::factor::{Factor, SingularError};
use super::method::{A, C, DENSE, DRIFT, GAMMA, STAGES, TIMES};
use crate::balance::{Balance, PressureError};

/// Share of a step at which its curve is looked at: not the middle, through which a bent curve comes back.
const ON_THE_WAY: f64 = 0.75;

/// Why a step could not be made.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum StepError {
    /// The air would not balance.
    #[error(transparent)]
    Air(#[from] PressureError),
    /// The matrix could not be solved.
    #[error(transparent)]
    Matrix(#[from] SingularError),
}

/// Makes steps; all its work space is laid out once.
pub struct Stepper<'n> {
    /// The balance that is stepped.
    pub balance: Balance<'n>,
    factor: Factor,
    /// Positions, among the slopes, of those that belong to the square matrix.
    square: Vec<usize>,
    /// Slopes of the books: position, book, column.
    booked: Vec<(usize, usize, usize)>,
    states: usize,
    books: usize,
    stages: [Vec<f64>; STAGES],
    place: Vec<f64>,
    rhs: Vec<f64>,
    drift: Vec<f64>,
    diagonal: Vec<f64>,
    slopes: Vec<f64>,
    first: Vec<f64>,
    before: Vec<f64>,
    /// What bends the way between the ends of the step.
    curves: [Vec<f64>; 2],
    /// The vector after the last step that was tried.
    pub after: Vec<f64>,
    /// The pressures foreseen at its end.
    expected: Vec<f64>,
}

impl<'n> Stepper<'n> {
    /// A stepper for this balance.
    pub fn new(balance: Balance<'n>) -> Self {
        let ix = &balance.network().index;
        let (unknowns, nowhere) = (ix.unknowns(), ix.nowhere());
        let mut square = Vec::new();
        let mut pairs = Vec::new();
        let mut booked = Vec::new();
        for (at, e) in balance.entries().iter().enumerate() {
            if e.column >= unknowns || e.row == nowhere {
                continue;
            }
            if e.row < unknowns {
                square.push(at);
                pairs.push((e.row, e.column));
            } else {
                booked.push((at, e.row - unknowns, e.column));
            }
        }
        let (states, books) = (ix.states(), ix.books);
        let pockets = balance.network().pockets.len();
        let width = states + books + pockets;
        Self {
            factor: Factor::new(unknowns, |u| balance.network().in_border(u), &pairs),
            square,
            booked,
            states,
            books,
            stages: std::array::from_fn(|_| vec![0.0; width]),
            place: vec![0.0; width],
            rhs: vec![0.0; unknowns],
            drift: vec![0.0; ix.rows()],
            diagonal: vec![0.0; unknowns],
            slopes: vec![0.0; balance.entries().len()],
            first: vec![0.0; ix.rows()],
            before: vec![0.0; width],
            curves: std::array::from_fn(|_| vec![0.0; width]),
            after: vec![0.0; states + books],
            expected: vec![0.0; pockets],
            balance,
        }
    }

    /// Factorisations made.
    pub fn factorisations(&self) -> usize {
        self.factor.count
    }

    /// Evaluates rates and slopes at the beginning of a step; tries of several lengths may follow.
    ///
    /// *Errors*: the air streams do not balance.
    pub fn begin(&mut self, time_s: f64, vector: &[f64]) -> Result<(), StepError> {
        let kept = self.after.len();
        self.before[..kept].copy_from_slice(vector);
        // Where the last step ended is the best guess of the pressures.
        self.balance.expect(&self.expected);
        let rates = self.balance.rates(time_s, &vector[..self.states])?;
        self.first.copy_from_slice(rates);
        for (before, found) in self.before[kept..].iter_mut().zip(self.balance.pressures()) {
            *before = found;
        }
        self.slopes.copy_from_slice(self.balance.slopes());
        self.balance.drift(&mut self.drift);
        Ok(())
    }

    /// Tries a step of this length from where [`Stepper::begin`] stood; the result is in `after`.
    ///
    /// *Errors*: the matrix cannot be solved.
    pub fn attempt(&mut self, time_s: f64, step_s: f64) -> Result<(), SingularError> {
        let (states, books) = (self.states, self.books);
        let kept = states + books;
        let unknowns = self.rhs.len();
        let net = self.balance.network();
        for (d, capacity) in self.diagonal.iter_mut().zip(&net.capacities) {
            *d = capacity / (step_s * GAMMA);
        }
        self.factor.factor(
            self.square.iter().map(|&at| self.slopes[at]),
            &self.diagonal,
        )?;
        for stage in 0..STAGES {
            let (done, rest) = self.stages.split_at_mut(stage);
            let current = &mut rest[0];
            if stage > 0 {
                self.place.copy_from_slice(&self.before);
                for (weight, earlier) in A[stage].iter().zip(&*done) {
                    add(&mut self.place, *weight, earlier);
                }
            }
            let rates: &[f64] = if stage == 0 {
                &self.first
            } else {
                self.balance.rates_under(
                    time_s + TIMES[stage] * step_s,
                    &self.place[..states],
                    &self.place[kept..],
                )
            };
            // What earlier stages leave over: Σ c u / h.
            current.fill(0.0);
            for (weight, earlier) in C[stage].iter().zip(&*done) {
                add(current, weight / step_s, earlier);
            }
            let drifted = DRIFT[stage] * step_s;
            for row in 0..states {
                self.rhs[row] =
                    rates[row] + net.capacities[row] * current[row] + drifted * self.drift[row];
            }
            let left_over = rates[states..unknowns].iter().zip(&self.drift[states..]);
            for (rhs, (rate, drift)) in self.rhs[states..].iter_mut().zip(left_over) {
                *rhs = rate + drifted * drift;
            }
            for book in 0..books {
                let row = unknowns + book;
                current[states + book] += rates[row] + drifted * self.drift[row];
            }
            self.factor.solve(&mut self.rhs);
            for &(at, book, column) in &self.booked {
                current[states + book] += self.slopes[at] * self.rhs[column];
            }
            for book in &mut current[states..kept] {
                *book *= step_s * GAMMA;
            }
            for (moved, pocket) in current[kept..].iter_mut().zip(&net.pockets) {
                *moved = self.rhs[pocket.pressure];
            }
            current[..states].copy_from_slice(&self.rhs[..states]);
        }
        self.after.copy_from_slice(&self.before[..kept]);
        self.expected.copy_from_slice(&self.before[kept..]);
        self.curves.iter_mut().for_each(|c| c.fill(0.0));
        for (number, stage) in self.stages.iter().enumerate() {
            let last = number + 1 == STAGES;
            let weight = if last { 1.0 } else { A[STAGES - 1][number] };
            add(&mut self.after, weight, stage);
            add(&mut self.expected, weight, &stage[kept..]);
            for (curve, weights) in self.curves.iter_mut().zip(&DENSE) {
                add(curve, weights[number], stage);
            }
        }
        Ok(())
    }

    /// The error of the last step that was tried, a value for each state.
    pub fn error(&self) -> &[f64] {
        &self.stages[STAGES - 1][..self.states]
    }

    /// How far the curve of the last step that was tried is off on the way, a value for each state.
    ///
    /// The error of a step is measured at its end only, and air, which forgets within seconds, is right again there
    /// whatever happened before: a long step could pass over a corner unseen. So the balance is asked at a place on
    /// the way; what it says against the slope of the curve, solved with the matrix of the step, is how far the curve
    /// is from what the balance allows.
    pub fn error_on_the_way(&mut self, time_s: f64, step_s: f64) -> &[f64] {
        let states = self.states;
        let kept = states + self.books;
        for i in 0..states {
            self.place[i] = self.between(i, ON_THE_WAY);
        }
        for (pocket, &expected) in self.expected.iter().enumerate() {
            self.place[kept + pocket] = self.curve(kept + pocket, expected, ON_THE_WAY);
        }
        let capacities = &self.balance.network().capacities;
        let rates = self.balance.rates_under(
            time_s + ON_THE_WAY * step_s,
            &self.place[..states],
            &self.place[kept..],
        );
        let unknowns = self.rhs.len();
        self.rhs.copy_from_slice(&rates[..unknowns]);
        let (share, rest) = (ON_THE_WAY, 1.0 - ON_THE_WAY);
        for i in 0..states {
            let [bend, twist] = [self.curves[0][i], self.curves[1][i]];
            let climb = self.after[i] - self.before[i]
                + (rest - share) * (bend + share * twist)
                + share * rest * twist;
            self.rhs[i] = rates[i] - capacities[i] * climb / step_s;
        }
        self.factor.solve(&mut self.rhs);
        &self.rhs[..states]
    }

    /// One component of the vector at a share of the last step that was tried.
    pub fn between(&self, component: usize, share: f64) -> f64 {
        self.curve(component, self.after[component], share)
    }

    fn curve(&self, component: usize, after: f64, share: f64) -> f64 {
        let rest = 1.0 - share;
        let [bend, twist] = [self.curves[0][component], self.curves[1][component]];
        self.before[component] * rest + share * (after + rest * (bend + share * twist))
    }
}

/// Adds a weighted vector to another, as far as the shorter reaches.
fn add(to: &mut [f64], weight: f64, from: &[f64]) {
    for (t, f) in to.iter_mut().zip(from) {
        *t += weight * f;
    }
}
