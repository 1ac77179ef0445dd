//! The last step that was tried, of one night.

use super::step::Stepper;
use crate::physics::number::Register;

/// The last step that was tried, in one lane.
pub struct Tried<'s, 'n, G: Register = f64> {
    stepper: &'s Stepper<'n, G>,
    lane: usize,
}

impl<'s, 'n, G: Register> Tried<'s, 'n, G> {
    /// That of this lane.
    pub(super) fn of(stepper: &'s Stepper<'n, G>, lane: usize) -> Self {
        Self { stepper, lane }
    }
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
