//! One step of the method, with its error and the curve between its ends.
//!
//! The pressures of the pockets follow from the states at once. They are found at the beginning of each step; its
//! stages foresee them as they do the states, and leave what does not balance to the matrix: the method keeps its order
//! for such equations (index 1; Hairer and Wanner, section VI.4; from memory).

use super::factor::{Factor, SingularError};
use super::method::{DEFECT_POINT, TIMES};
use super::stage_sums::{Part, StageSums};
use super::trial_step::TrialStep;
use crate::balance::{Balance, Evaluate, PressureError};
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

/// Makes steps.
pub struct Stepper<'n, G: Register = f64> {
    /// The balance that is stepped.
    pub balance: Balance<'n, G>,
    factor: Factor<G>,
    /// Positions, among the slopes, of those that belong to the square matrix.
    square: Vec<usize>,
    sums: StageSums<G>,
    /// The pressures where the last step that was kept ended: the best guess of those now.
    kept: Vec<G>,
}

#[allow(private_bounds)]
impl<'n, G: Evaluate> Stepper<'n, G> {
    /// A stepper for this balance.
    pub fn new(balance: Balance<'n, G>) -> Self {
        let net = G::first(balance.networks());
        let unknowns = net.index.unknowns();
        let inside = |at: &usize| {
            let e = balance.entries()[*at];
            e.row < unknowns && e.column < unknowns
        };
        let square: Vec<usize> = (0..balance.entries().len()).filter(inside).collect();
        let pair = |&at: &usize| (balance.entries()[at].row, balance.entries()[at].column);
        let pairs: Vec<(usize, usize)> = square.iter().map(pair).collect();
        Self {
            factor: Factor::new(unknowns, |u| net.in_border(u), &pairs),
            square,
            sums: StageSums::new(&balance),
            kept: vec![G::all(0.0); net.pockets.len()],
            balance,
        }
    }

    /// Puts another network, all heaters off, into a lane.
    pub fn load(&mut self, lane: usize, net: &'n Network) {
        self.balance.load(lane, net);
        for (capacity, value) in self.sums.capacities.iter_mut().zip(&net.capacities) {
            capacity.set_lane(lane, *value);
        }
        for pressure in &mut self.kept {
            pressure.set_lane(lane, 0.0);
        }
    }

    /// Puts the vector from which the next step begins into a lane.
    pub fn set_state(&mut self, lane: usize, vector: &[f64]) {
        for (before, value) in self.sums.before.iter_mut().zip(vector) {
            before.set_lane(lane, *value);
        }
    }

    /// Keeps the step just tried: where it ended is where the pressures of the next are sought from.
    pub fn keep(&mut self, lane: usize) {
        let ended = &self.sums.after[self.sums.carried..];
        for (kept, ended) in self.kept.iter_mut().zip(ended) {
            kept.set_lane(lane, ended.lane(lane));
        }
    }

    /// Evaluates rates and slopes at the beginning of a step; tries of several lengths may follow.
    ///
    /// *Errors*: the air streams do not balance.
    pub fn begin(&mut self, time_s: G) -> Result<(), StepError> {
        let sums = &mut self.sums;
        self.balance.predict_pressures(&self.kept);
        let rates = self.balance.rates(time_s, &sums.before[..sums.states])?;
        sums.first.copy_from_slice(rates);
        let pressures = sums.before[sums.carried..].iter_mut();
        for (before, found) in pressures.zip(self.balance.pressures()) {
            *before = found;
        }
        sums.slopes.copy_from_slice(self.balance.slopes());
        self.balance.time_derivative(&mut sums.drift);
        Ok(())
    }

    /// Tries a step of this length from where [`Stepper::begin`] stood; [`Stepper::tried`] gives the result.
    ///
    /// *Errors*: the matrix cannot be solved.
    pub fn attempt(&mut self, time_s: G, step_s: G) -> Result<(), SingularError> {
        let sums = &mut self.sums;
        sums.sum(Part::Capacities(step_s));
        let slopes = self.square.iter().map(|&at| sums.slopes[at]);
        self.factor.factor(slopes, &sums.diagonal)?;
        for (stage, time) in TIMES.into_iter().enumerate() {
            let mut rates: &[G] = &[];
            if stage > 0 {
                sums.sum(Part::GoTo(stage));
                rates = self.balance.rates_under(
                    time_s + step_s * time,
                    &sums.place[..sums.states],
                    &sums.place[sums.carried..],
                );
            }
            sums.sum(Part::Weigh(stage, step_s, rates));
            self.factor.solve(&mut sums.rhs);
            sums.sum(Part::Close(stage, step_s));
        }
        sums.sum(Part::Arrive);
        Ok(())
    }

    /// How far the curve of the last step that was tried is off on the way, a value for each state.
    ///
    /// The error of a step is measured at its end only, and air, which forgets within seconds, is right again there
    /// whatever happened before: a long step could pass over a corner unseen. So the balance is evaluated at a place on
    /// the way; what it says against the slope of the curve, solved with the matrix of the step, is how far the curve
    /// is from what the balance allows.
    pub fn defect(&mut self, time_s: G, step_s: G) -> &[G] {
        let sums = &mut self.sums;
        sums.sum(Part::GoOnTheWay);
        let rates = self.balance.rates_under(
            time_s + step_s * DEFECT_POINT,
            &sums.place[..sums.states],
            &sums.place[sums.carried..],
        );
        sums.sum(Part::WeighOnTheWay(step_s, rates));
        self.factor.solve(&mut sums.rhs);
        &sums.rhs[..sums.states]
    }

    /// The last step that was tried, in one lane.
    pub fn tried(&self, lane: usize) -> TrialStep<'_, G> {
        TrialStep::of(&self.sums, lane)
    }
}
