//! The last step that was tried, of one night.

use super::stage_sums::{StageSums, on_curve};
use crate::physics::number::Register;

/// The last step that was tried, in one lane.
pub struct TrialStep<'s, G: Register = f64> {
    sums: &'s StageSums<G>,
    lane: usize,
}

impl<'s, G: Register> TrialStep<'s, G> {
    /// That of this lane.
    pub(super) fn of(sums: &'s StageSums<G>, lane: usize) -> Self {
        Self { sums, lane }
    }
    /// How many components the vector has: states and books.
    pub fn width(&self) -> usize {
        self.sums.carried
    }
    /// The error of one state.
    pub fn error(&self, state: usize) -> f64 {
        self.sums.error()[state].lane(self.lane)
    }
    /// One component at the end of the step.
    pub fn after(&self, component: usize) -> f64 {
        self.sums.after[component].lane(self.lane)
    }
    /// One component at a share of the step.
    pub fn between(&self, component: usize, share: f64) -> f64 {
        let of = |vector: &[G]| vector[component].lane(self.lane);
        let [bend, twist] = [of(&self.sums.curves[0]), of(&self.sums.curves[1])];
        on_curve(
            of(&self.sums.before),
            self.after(component),
            bend,
            twist,
            share,
        )
    }
}
