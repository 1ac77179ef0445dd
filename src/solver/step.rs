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
use crate::network::Network;
use crate::physics::number::{Register, Work};

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
pub struct Stepper<'n, G: Register = f64> {
    /// The balance that is stepped.
    pub balance: Balance<'n, G>,
    factor: Factor<G>,
    /// Positions, among the slopes, of those that belong to the square matrix.
    square: Vec<usize>,
    /// Slopes of the books: position, book, column.
    booked: Vec<(usize, usize, usize)>,
    states: usize,
    books: usize,
    capacities: Vec<G>,
    stages: [Vec<G>; STAGES],
    place: Vec<G>,
    rhs: Vec<G>,
    drift: Vec<G>,
    diagonal: Vec<G>,
    slopes: Vec<G>,
    first: Vec<G>,
    before: Vec<G>,
    /// What bends the way between the ends of the step.
    curves: [Vec<G>; 2],
    /// The vector after the last step that was tried.
    pub after: Vec<G>,
    /// The pressures foreseen at its end.
    expected: Vec<G>,
    /// The pressures where the last step that was kept ended: the best guess of those now.
    kept: Vec<G>,
}

impl<'n, G: Register> Stepper<'n, G> {
    /// A stepper for this balance.
    pub fn new(balance: Balance<'n, G>) -> Self {
        let net = G::first(balance.networks());
        let ix = &net.index;
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
        let pockets = net.pockets.len();
        let width = states + books + pockets;
        let zeros = |count: usize| vec![G::all(0.0); count];
        let nets = balance.networks();
        Self {
            factor: Factor::new(unknowns, |u| net.in_border(u), &pairs),
            square,
            booked,
            states,
            books,
            capacities: (0..states)
                .map(|state| G::read(nets, |net| net.capacities[state]))
                .collect(),
            stages: std::array::from_fn(|_| zeros(width)),
            place: zeros(width),
            rhs: zeros(unknowns),
            drift: zeros(ix.rows()),
            diagonal: zeros(unknowns),
            slopes: zeros(balance.entries().len()),
            first: zeros(ix.rows()),
            before: zeros(width),
            curves: std::array::from_fn(|_| zeros(width)),
            after: zeros(states + books),
            expected: zeros(pockets),
            kept: zeros(pockets),
            balance,
        }
    }

    /// Factorisations made.
    pub fn factorisations(&self) -> usize {
        self.factor.count
    }

    /// Puts another network, all heaters off, into a lane.
    pub fn load(&mut self, lane: usize, net: &'n Network) {
        self.balance.load(lane, net);
        for (capacity, value) in self.capacities.iter_mut().zip(&net.capacities) {
            capacity.set_lane(lane, *value);
        }
        for pressure in &mut self.kept {
            pressure.set_lane(lane, 0.0);
        }
    }

    /// Puts the vector from which the next step begins into a lane.
    pub fn set_out(&mut self, lane: usize, vector: &[f64]) {
        for (before, value) in self.before.iter_mut().zip(vector) {
            before.set_lane(lane, *value);
        }
    }

    /// Keeps the step just tried: where it ended is where the pressures of the next are sought from.
    pub fn keep(&mut self, lane: usize) {
        for (kept, expected) in self.kept.iter_mut().zip(&self.expected) {
            kept.set_lane(lane, expected.lane(lane));
        }
    }

    /// Evaluates rates and slopes at the beginning of a step; tries of several lengths may follow.
    ///
    /// *Errors*: the air streams do not balance.
    pub fn begin(&mut self, time_s: G) -> Result<(), StepError> {
        let kept = self.after.len();
        self.balance.expect(&self.kept);
        let rates = self.balance.rates(time_s, &self.before[..self.states])?;
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
    pub fn attempt(&mut self, time_s: G, step_s: G) -> Result<(), SingularError> {
        let (states, books) = (self.states, self.books);
        let kept = states + books;
        self.part(Part::Capacities(step_s));
        self.factor.factor(
            self.square.iter().map(|&at| self.slopes[at]),
            &self.diagonal,
        )?;
        for stage in 0..STAGES {
            if stage > 0 {
                self.part(Part::GoTo(stage));
                self.balance.rates_under(
                    time_s + step_s * TIMES[stage],
                    &self.place[..states],
                    &self.place[kept..],
                );
            }
            self.part(Part::Weigh(stage, step_s));
            self.factor.solve(&mut self.rhs);
            self.part(Part::Close(stage, step_s));
        }
        self.part(Part::Arrive);
        Ok(())
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
        for (weight, earlier) in A[stage].iter().zip(&self.stages) {
            add(&mut self.place, G::all(*weight), earlier);
        }
    }

    /// The end of the step, and the curve to it.
    #[inline(always)]
    fn arrive(&mut self) {
        let kept = self.after.len();
        self.after.copy_from_slice(&self.before[..kept]);
        self.expected.copy_from_slice(&self.before[kept..]);
        self.curves.iter_mut().for_each(|c| c.fill(G::all(0.0)));
        for (number, stage) in self.stages.iter().enumerate() {
            let last = number + 1 == STAGES;
            let weight = G::all(if last { 1.0 } else { A[STAGES - 1][number] });
            add(&mut self.after, weight, stage);
            add(&mut self.expected, weight, &stage[kept..]);
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
        let kept = states + books;
        let current = &mut self.stages[stage];
        for &(at, book, column) in &self.booked {
            current[states + book] = current[states + book] + self.slopes[at] * self.rhs[column];
        }
        let scale = step_s * GAMMA;
        for book in &mut current[states..kept] {
            *book = *book * scale;
        }
        let pockets = &G::first(self.balance.networks()).pockets;
        for (moved, pocket) in current[kept..].iter_mut().zip(pockets) {
            *moved = self.rhs[pocket.pressure];
        }
        current[..states].copy_from_slice(&self.rhs[..states]);
    }

    /// The error of the last step that was tried, a value for each state.
    pub fn error(&self) -> &[G] {
        &self.stages[STAGES - 1][..self.states]
    }

    /// How far the curve of the last step that was tried is off on the way, a value for each state.
    ///
    /// The error of a step is measured at its end only, and air, which forgets within seconds, is right again there
    /// whatever happened before: a long step could pass over a corner unseen. So the balance is asked at a place on
    /// the way; what it says against the slope of the curve, solved with the matrix of the step, is how far the curve
    /// is from what the balance allows.
    pub fn error_on_the_way(&mut self, time_s: G, step_s: G) -> &[G] {
        let states = self.states;
        let kept = states + self.books;
        self.part(Part::GoOnTheWay);
        self.balance.rates_under(
            time_s + step_s * ON_THE_WAY,
            &self.place[..states],
            &self.place[kept..],
        );
        self.part(Part::WeighOnTheWay(step_s));
        self.factor.solve(&mut self.rhs);
        &self.rhs[..states]
    }

    #[inline(always)]
    fn go_on_the_way(&mut self) {
        let kept = self.states + self.books;
        for i in 0..self.states {
            self.place[i] = self.curve(i, self.after[i], ON_THE_WAY);
        }
        for pocket in 0..self.expected.len() {
            let expected = self.expected[pocket];
            self.place[kept + pocket] = self.curve(kept + pocket, expected, ON_THE_WAY);
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

    fn part(&mut self, part: Part<G>) {
        G::work(Sums { of: self, part });
    }

    /// The last step that was tried, in one lane.
    pub fn tried(&self, lane: usize) -> Tried<'_, 'n, G> {
        Tried {
            stepper: self,
            lane,
        }
    }
}

/// The sums of a step between evaluations and solutions.
enum Part<G> {
    Capacities(G),
    GoTo(usize),
    Weigh(usize, G),
    Close(usize, G),
    Arrive,
    GoOnTheWay,
    WeighOnTheWay(G),
}

struct Sums<'s, 'n, G: Register> {
    of: &'s mut Stepper<'n, G>,
    part: Part<G>,
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

/// The last step that was tried, in one lane.
pub struct Tried<'s, 'n, G: Register = f64> {
    stepper: &'s Stepper<'n, G>,
    lane: usize,
}

impl<G: Register> Tried<'_, '_, G> {
    /// How many components the vector has: states and books.
    pub fn width(&self) -> usize {
        self.stepper.after.len()
    }
    /// The error of one state.
    pub fn error(&self, state: usize) -> f64 {
        self.stepper.error()[state].lane(self.lane)
    }
    /// One component at the end of the step.
    pub fn after(&self, component: usize) -> f64 {
        self.stepper.after[component].lane(self.lane)
    }
    /// One component at a share of the step.
    pub fn between(&self, component: usize, share: f64) -> f64 {
        let of = |vector: &[G]| vector[component].lane(self.lane);
        let [bend, twist] = [0, 1].map(|curve| of(&self.stepper.curves[curve]));
        let rest = 1.0 - share;
        of(&self.stepper.before) * rest
            + (of(&self.stepper.after) + (bend + twist * share) * rest) * share
    }
}

/// Adds a weighted vector to another, as far as the shorter reaches.
#[inline(always)]
fn add<G: Register>(to: &mut [G], weight: G, from: &[G]) {
    for (t, f) in to.iter_mut().zip(from) {
        *t = *t + weight * *f;
    }
}
