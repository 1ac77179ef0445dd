//! One step of the method, with its error and the curve between its ends.
//!
//! The vector carried is the states followed by the books (energy drawn, heat and vapour lost). A book is
//! an integral of what the states do; it is advanced by the same stages, so that what the states gain is
//! what the books say to the last digit, whatever the step. Within a step a third part stands behind them, the pressures
//! of the pockets.
//!
//! The pressures of the pockets follow from the states at once. They are found at the beginning of each step; its
//! stages foresee them as they do the states, and leave what does not balance to the matrix: the method keeps its order
//! for such equations (index 1; Hairer and Wanner, section VI.4; from memory).

use super::factor::{Factor, SingularError};
use super::method::{ON_THE_WAY, STAGES, TIMES};
use super::sums::{Part, Sums};
use super::tried::Tried;
use crate::balance::{Balance, PressureError};
use crate::network::Network;
use crate::physics::number::Register;

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
    pub(super) square: Vec<usize>,
    /// Slopes of the books: position, book, column.
    pub(super) booked: Vec<(usize, usize, usize)>,
    pub(super) states: usize,
    pub(super) books: usize,
    pub(super) capacities: Vec<G>,
    pub(super) stages: [Vec<G>; STAGES],
    pub(super) place: Vec<G>,
    pub(super) rhs: Vec<G>,
    pub(super) drift: Vec<G>,
    pub(super) diagonal: Vec<G>,
    pub(super) slopes: Vec<G>,
    pub(super) first: Vec<G>,
    pub(super) before: Vec<G>,
    /// What bends the way between the ends of the step.
    pub(super) curves: [Vec<G>; 2],
    /// The vector after the last step that was tried.
    pub after: Vec<G>,
    /// The pressures foreseen at its end.
    pub(super) expected: Vec<G>,
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
        let carried = self.after.len();
        self.balance.expect(&self.kept);
        let rates = self.balance.rates(time_s, &self.before[..self.states])?;
        self.first.copy_from_slice(rates);
        for (before, found) in self.before[carried..]
            .iter_mut()
            .zip(self.balance.pressures())
        {
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
        let carried = states + books;
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
                    &self.place[carried..],
                );
            }
            self.part(Part::Weigh(stage, step_s));
            self.factor.solve(&mut self.rhs);
            self.part(Part::Close(stage, step_s));
        }
        self.part(Part::Arrive);
        Ok(())
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
        let carried = states + self.books;
        self.part(Part::GoOnTheWay);
        self.balance.rates_under(
            time_s + step_s * ON_THE_WAY,
            &self.place[..states],
            &self.place[carried..],
        );
        self.part(Part::WeighOnTheWay(step_s));
        self.factor.solve(&mut self.rhs);
        &self.rhs[..states]
    }

    fn part(&mut self, part: Part<G>) {
        G::work(Sums { of: self, part });
    }

    /// The last step that was tried, in one lane.
    pub fn tried(&self, lane: usize) -> Tried<'_, 'n, G> {
        Tried::of(self, lane)
    }
}
