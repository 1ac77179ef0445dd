//! The step that is tried: for its error, or for where a thermostat acts.

use super::error_control::{DEFECT_ORDER, ErrorControl, growth};
use super::method::ERROR_ORDER;
use super::trial_step::TrialStep;
use crate::physics::number::Register;

/// The step that is tried.
#[derive(Clone, Copy)]
pub enum StepGoal {
    /// None yet from here.
    Nothing,
    /// For its error.
    Error(StepAttempt),
    /// One whose error is right, cut short where a thermostat acts.
    Crossing {
        /// Its length, s.
        step_s: f64,
        /// How many times it has been cut.
        tries: usize,
    },
}

/// A step tried for its error.
#[derive(Debug, Clone, Copy)]
pub struct StepAttempt {
    /// Its length, s.
    pub step_s: f64,
    /// Whether a longer one was refused.
    refused: bool,
    /// The error over what is allowed, at the end or on the way, whichever is more; not a number where there is none.
    measured: f64,
    /// How many times longer the step might be.
    growth: f64,
}

/// A step that is refused again shrinks at least to this part: a corner makes the error fall more slowly than it should
/// (a choice; 0.5 took 120 factorisations on the demo night, 0.35 and 0.25 took 125 and 127, and without it there were 125).
const REPEAT_SHRINK: f64 = 0.5;
/// Part to which a step shrinks that could not be made at all.
const NOT_MADE: f64 = 0.25;

impl StepAttempt {
    /// A step of this length, not yet measured.
    pub fn of(step_s: f64, refused: bool) -> Self {
        Self {
            step_s,
            refused,
            measured: f64::NAN,
            growth: f64::NAN,
        }
    }

    /// Whether the error is no more than what is allowed; what is no number is more.
    pub fn is_right(&self) -> bool {
        self.measured <= 1.0
    }

    /// Whether nothing came of it that could be measured.
    pub fn was_not_made(&self) -> bool {
        !self.measured.is_finite()
    }

    /// Measures the error at the end.
    pub fn measure_end<G: Register>(
        &mut self,
        pace: &ErrorControl,
        before: &[f64],
        tried: &TrialStep<G>,
    ) {
        self.measured = pace.measure(|i| tried.error(i), before, |i| tried.after(i));
        self.growth = growth(self.measured, ERROR_ORDER);
    }

    /// Measures the error on the way.
    pub fn measure_way(
        &mut self,
        pace: &ErrorControl,
        before: &[f64],
        error: impl Fn(usize) -> f64,
    ) {
        // What is weighed is the size before the step.
        let on_the_way = pace.measure(error, before, |i| before[i]);
        self.growth = self.growth.min(growth(on_the_way, DEFECT_ORDER));
        // `max` would pass over what is no number.
        if on_the_way.is_nan() || on_the_way > self.measured {
            self.measured = on_the_way;
        }
    }

    /// The next try after this one was refused.
    pub fn shorter(&self) -> Self {
        let shrink = if self.was_not_made() {
            NOT_MADE
        } else if self.refused {
            self.growth.min(REPEAT_SHRINK)
        } else {
            self.growth.min(0.9)
        };
        Self::of(self.step_s * shrink, true)
    }

    /// How long the next step may be after this one is kept; `allowed_s` is what was allowed before it.
    pub fn allows_s(&self, allowed_s: f64) -> f64 {
        let grown_s = self.step_s * self.growth;
        // A step cut short by a stop says little about the next.
        if self.refused {
            grown_s.min(self.step_s)
        } else if self.step_s < allowed_s {
            grown_s.max(allowed_s)
        } else {
            grown_s
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::network::Index;

    #[test]
    fn a_curve_that_is_no_number_is_refused() {
        let ix = Index {
            cells: 3,
            ..Index::default()
        };
        let pace = ErrorControl::new(&ix, 1.0);
        let before = vec![0.0; ix.states()];
        let mut attempt = StepAttempt {
            measured: 0.5,
            growth: 2.0,
            ..StepAttempt::of(100.0, false)
        };
        assert!(attempt.is_right());
        attempt.measure_way(&pace, &before, |i| if i == 1 { f64::NAN } else { 0.0 });
        assert!(!attempt.is_right());
        assert_eq!(attempt.shorter().step_s, 25.0);
    }
}
