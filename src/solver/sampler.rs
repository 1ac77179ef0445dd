//! Samples of the night, on an even grid and wherever something happens.

use super::trial_step::TrialStep;
use crate::network::Network;
use crate::network::surroundings::Curve;
use crate::physics::number::Register;
use crate::trace::Trace;

/// Fills a trace: the states, the temperature outdoors, the books.
pub struct Sampler<'n> {
    outdoors: &'n Curve,
    states: usize,
    every_s: f64,
    next_s: f64,
    /// What has been recorded.
    pub trace: Trace,
}

impl<'n> Sampler<'n> {
    /// Samples every so many seconds (more than none, see [`in_range`](super::error_control::in_range)), none so far.
    pub fn new(net: &'n Network, every_s: f64) -> Self {
        Self {
            outdoors: &net.inputs[0],
            states: net.index.states(),
            every_s,
            next_s: every_s,
            trace: Trace {
                legend: net.legend.clone(),
                departure_s: net.departure_s,
                ..Trace::default()
            },
        }
    }

    fn push(&mut self, time_s: f64, value: impl Fn(usize) -> f64, width: usize) {
        let (outdoors, _) = self.outdoors.at(time_s);
        let values = &mut self.trace.values;
        values.extend((0..self.states).map(&value));
        values.push(outdoors);
        values.extend((self.states..width).map(&value));
        self.trace.times_s.push(time_s);
    }

    /// Records this vector at this time, unless the time is recorded already.
    pub fn mark(&mut self, time_s: f64, vector: &[f64]) {
        if self.trace.times_s.last() != Some(&time_s) {
            self.push(time_s, |i| vector[i], vector.len());
        }
    }

    /// Records the grid times within the step just made, which ended at `time_s`.
    pub fn follow<G: Register>(&mut self, time_s: f64, step_s: f64, tried: &TrialStep<G>) {
        let began_s = time_s - step_s;
        while self.next_s <= time_s {
            let share = ((self.next_s - began_s) / step_s).clamp(0.0, 1.0);
            if self.trace.times_s.last().is_none_or(|&t| t < self.next_s) {
                self.push(self.next_s, |i| tried.between(i, share), tried.width());
            }
            self.next_s += self.every_s;
        }
    }
}
