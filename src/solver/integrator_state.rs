//! One night on its way: which step it tries next, and what becomes of a step that was tried.
//!
//! It knows nothing of how steps are made, so that nights can go alone or in lanes.

use super::attempt::{StepAttempt, StepGoal};
use super::breakpoints::{Breakpoints, towards};
use super::error_control::{ErrorControl, FIRST_STEP_S};
use super::failure::{SolveError, column};
use super::method::STAGES;
use super::sampler::Sampler;
use super::solution::{Solution, SolverStats, ledger};
use super::step::StepError;
use super::switching::Switches;
use super::trial_step::TrialStep;
use crate::network::Network;
use crate::physics::number::Register;

/// A step shorter than this is no progress, s.
const LEAST_STEP_S: f64 = 1e-7;
/// A thermostat's crossing is hit to this, K.
const CROSSING_K: f64 = 1e-4;
/// Most tries to hit it.
const CROSSING_TRIES: usize = 12;
/// Most switchings of one night: one every five seconds for half a day.
const MOST_SWITCHINGS: usize = 10_000;
/// Most steps of one night.
const MOST_STEPS: usize = 5_000_000;

/// A night on its way.
pub struct IntegratorState<'n> {
    /// Its network.
    pub net: &'n Network,
    pace: ErrorControl,
    switches: Switches<'n>,
    sampler: Sampler<'n>,
    /// States and books where the next step begins.
    pub vector: Vec<f64>,
    /// When the next step begins, s.
    pub time_s: f64,
    stops: Breakpoints,
    /// How long a step the error allows, s.
    allowed_s: f64,
    trying: StepGoal,
    effort: SolverStats,
    at_departure: (Vec<f64>, Vec<f64>),
}

impl<'n> IntegratorState<'n> {
    /// The night of a network, at its beginning. `tolerance` scales the error allowed in a step; samples are at most
    /// `sample_s` apart.
    pub fn new(net: &'n Network, tolerance: f64, sample_s: f64) -> Self {
        let mut vector = net.initial.clone();
        vector.resize(net.index.states() + net.index.books, 0.0);
        let switches = Switches::new(net);
        let mut sampler = Sampler::new(net, sample_s);
        sampler.mark(0.0, &vector);
        let mut walk = Self {
            net,
            pace: ErrorControl::new(&net.index, tolerance),
            stops: Breakpoints::of(net, &switches),
            switches,
            sampler,
            vector,
            time_s: 0.0,
            allowed_s: FIRST_STEP_S,
            trying: StepGoal::Nothing,
            effort: SolverStats::default(),
            at_departure: (Vec::new(), Vec::new()),
        };
        walk.follow_hours();
        walk.pass_stops();
        walk
    }

    /// Whether the night is over.
    pub fn is_over(&self) -> bool {
        self.stops.are_over()
    }
    /// Which heaters are on.
    pub fn on(&self) -> &[bool] {
        self.switches.on()
    }
    /// Whether the next step begins where none was tried yet.
    pub fn is_new_here(&self) -> bool {
        matches!(self.trying, StepGoal::Nothing)
    }

    /// The step to try, s.
    pub fn step_to_try_s(&mut self) -> f64 {
        if matches!(self.trying, StepGoal::Nothing) {
            let left = self.stop_s() - self.time_s;
            let step_s = towards(left, self.allowed_s);
            self.trying = StepGoal::Error(StepAttempt::of(step_s, false));
            self.effort.evaluations += 1;
        }
        self.effort.factorisations += 1;
        self.effort.evaluations += STAGES - 1;
        match &self.trying {
            StepGoal::Nothing => 0.0,
            StepGoal::Error(attempt) => attempt.step_s,
            StepGoal::Crossing { step_s, .. } => *step_s,
        }
    }

    /// The next moment at which something may change, s.
    fn stop_s(&mut self) -> f64 {
        self.stops.next_s().unwrap_or(self.time_s)
    }

    /// Measures the error at the end of the step tried, if it is tried for that and could be made; whether it is right.
    pub fn measure_end<G: Register>(&mut self, tried: &TrialStep<G>, not_made: bool) -> bool {
        let before = &self.vector[..self.net.index.states()];
        match &mut self.trying {
            StepGoal::Error(attempt) if !not_made => {
                attempt.measure_end(&self.pace, before, tried);
                attempt.is_right()
            }
            _ => false,
        }
    }

    /// Measures the error on the way of the step tried, if that at its end is right.
    pub fn measure_way(&mut self, error: impl Fn(usize) -> f64) {
        let before = &self.vector[..self.net.index.states()];
        match &mut self.trying {
            StepGoal::Error(attempt) if attempt.is_right() => {
                self.effort.evaluations += 1;
                attempt.measure_way(&self.pace, before, error);
            }
            _ => {}
        }
    }

    /// Keeps the step tried, or has it tried again, shorter; whether it was kept.
    ///
    /// *Errors*: no step is short enough, a state is not a number, a thermostat never rests.
    pub fn accept_or_reject<G: Register>(
        &mut self,
        tried: &TrialStep<G>,
        cause: &Option<StepError>,
    ) -> Result<bool, SolveError> {
        let (step_s, tries) = match self.trying {
            StepGoal::Nothing => return Ok(false),
            // Nothing of it is known; what was right before it was cut is made shorter.
            StepGoal::Crossing { step_s, .. } if cause.is_some() => {
                self.trying = StepGoal::Error(StepAttempt::of(0.5 * step_s, true));
                return Ok(false);
            }
            StepGoal::Crossing { step_s, tries } => (step_s, tries),
            StepGoal::Error(attempt) => {
                if !attempt.is_right() {
                    return self.refuse(tried, attempt, cause);
                }
                self.allowed_s = attempt.allows_s(self.allowed_s);
                (attempt.step_s, 0)
            }
        };
        if let Some((heater, share)) = self.switches.crossing(tried)
            && self.switches.overshoot(heater, tried) > CROSSING_K
            && tries < CROSSING_TRIES
        {
            self.trying = StepGoal::Crossing {
                step_s: (step_s * share).max(LEAST_STEP_S),
                tries: tries + 1,
            };
            return Ok(false);
        }
        self.commit(tried, step_s)?;
        Ok(true)
    }

    fn refuse<G: Register>(
        &mut self,
        tried: &TrialStep<G>,
        attempt: StepAttempt,
        cause: &Option<StepError>,
    ) -> Result<bool, SolveError> {
        self.effort.rejected += 1;
        let next = attempt.shorter();
        // In lanes no pivots are chosen, so that a step may fail that alone would not: such a night goes alone.
        let may_differ = G::LANES > 1 && attempt.was_not_made();
        if may_differ || next.step_s < LEAST_STEP_S {
            return Err(self.step_failure(tried, next.step_s, cause.clone()));
        }
        self.trying = StepGoal::Error(next);
        Ok(false)
    }

    /// Goes to the end of the step tried.
    fn commit<G: Register>(&mut self, tried: &TrialStep<G>, step_s: f64) -> Result<(), SolveError> {
        self.trying = StepGoal::Nothing;
        for (i, value) in self.vector.iter_mut().enumerate() {
            *value = tried.after(i);
        }
        if let Some(bad) = self.vector.iter().position(|v| !v.is_finite()) {
            return Err(SolveError::NotANumber {
                time_h: self.time_s / 3600.0,
                column: column(self.net, bad),
            });
        }
        let stop_s = self.stop_s();
        self.time_s = if step_s == stop_s - self.time_s {
            stop_s
        } else {
            self.time_s + step_s
        };
        self.sampler.follow(self.time_s, step_s, tried);
        self.effort.steps += 1;
        if self.effort.steps > MOST_STEPS {
            return Err(self.step_failure(tried, step_s, None));
        }
        self.act_on_crossing(tried)?;
        self.pass_stops();
        Ok(())
    }

    /// Flips the thermostats that the step just made has brought to their crossing.
    fn act_on_crossing<G: Register>(&mut self, tried: &TrialStep<G>) -> Result<(), SolveError> {
        let mut acted = false;
        for heater in 0..self.net.heaters.len() {
            let over = self.switches.overshoot(heater, tried);
            if self.switches.waits(heater) && over >= -CROSSING_K {
                self.switches.flip(heater, self.time_s);
                acted = true;
            }
        }
        if acted {
            self.sampler.mark(self.time_s, &self.vector);
            self.allowed_s = FIRST_STEP_S;
            if self.switches.made.len() > MOST_SWITCHINGS {
                return Err(SolveError::Restless {
                    time_h: self.time_s / 3600.0,
                    clock: None,
                    switchings: self.switches.made.len(),
                    heater: self.switches.most_often(),
                });
            }
        }
        Ok(())
    }

    /// Leaves behind the moments that are reached.
    fn pass_stops(&mut self) {
        while let Some(stop_s) = self.stops.pass(self.time_s) {
            self.time_s = stop_s;
            self.sampler.mark(stop_s, &self.vector);
            if stop_s == self.net.departure_s {
                let states = self.vector[..self.net.index.states()].to_vec();
                let on = self.switches.on().iter();
                self.at_departure = (states, on.map(|&on| f64::from(u8::from(on))).collect());
            }
            if !self.is_over() {
                self.follow_hours();
            }
        }
    }

    fn follow_hours(&mut self) {
        if self.switches.follow_hours(self.time_s, &self.vector) {
            self.allowed_s = FIRST_STEP_S;
        }
    }

    /// The failure of a night that no step brings further.
    pub fn step_failure<G: Register>(
        &self,
        tried: &TrialStep<G>,
        step_s: f64,
        cause: Option<StepError>,
    ) -> SolveError {
        let states = self.net.index.states();
        let worst = self.pace.worst(
            |i| tried.error(i),
            &self.vector[..states],
            |i| tried.after(i),
        );
        SolveError::Stuck {
            time_h: self.time_s / 3600.0,
            step_s,
            column: column(self.net, worst),
            cause,
        }
    }

    /// Closes the books.
    pub fn end(self) -> Solution {
        let mut trace = self.sampler.trace;
        trace.switchings = self.switches.made;
        Solution {
            effort: SolverStats {
                states: self.net.index.states(),
                ..self.effort
            },
            ledger: ledger(self.net, &self.vector, &trace),
            trace,
            at_departure: self.at_departure,
        }
    }
}
