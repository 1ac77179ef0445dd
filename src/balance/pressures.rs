//! Pocket pressures: the air that enters each pocket leaves it.
//!
//! The residual is the gradient of a convex function (every stream grows with the pressure difference
//! that drives it), so a damped Newton iteration descends; what rounding or an impossible state leaves unbalanced is
//! a [`PressureError`].

use crate::laws::{FinStream, Gap, Passage};
use crate::network::Network;
use crate::physics::dual::Dual;
use crate::physics::number::{Register, largest_size};
use nalgebra::{Cholesky, DMatrix, DVector};

/// Streams are balanced to this, kg/s.
const BALANCED_KG_PER_S: f64 = 1e-12;
/// Most iterations before giving up.
const MOST_ITERATIONS: usize = 100;
/// Streams smaller than this may be left where rounding stops the descent, kg/s.
const ROUNDED_KG_PER_S: f64 = 1e-9;
/// Most cuts of one Newton step.
const MOST_CUTS: usize = 30;
/// A step is long enough where the potential's slope along it has fallen to this part of what it was.
const FLAT: f64 = 0.3;

/// The air would not balance.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error(
    "the air streams of the bay do not balance: {residual_kg_per_s:.1e} kg/s are left after {iterations} iterations"
)]
pub struct PressureError {
    /// What is left, kg/s.
    pub residual_kg_per_s: f64,
    /// Iterations made.
    pub iterations: usize,
}

/// One lane of a vector.
pub struct Lane<'a, G> {
    /// The vector.
    pub of: &'a mut [G],
    /// The lane.
    pub lane: usize,
}

impl<G: Register> Lane<'_, G> {
    fn get(&self, at: usize) -> f64 {
        self.of[at].lane(self.lane)
    }
    pub fn set(&mut self, at: usize, value: f64) {
        self.of[at].set_lane(self.lane, value);
    }
}

/// Work space of the iteration.
#[derive(Debug, Clone)]
pub struct Pressures {
    /// How fast what enters each pocket falls with each pressure.
    pub(super) stiffness: DMatrix<f64>,
    /// What enters each pocket, kg/s.
    pub(super) residual: DVector<f64>,
    pub(super) step: DVector<f64>,
    pub(super) tried: Vec<f64>,
    /// Iterations made since the beginning.
    pub iterations: usize,
}

impl Pressures {
    /// Work space for so many pockets.
    pub fn new(pockets: usize) -> Self {
        Self {
            stiffness: DMatrix::zeros(pockets, pockets),
            residual: DVector::zeros(pockets),
            step: DVector::zeros(pockets),
            tried: vec![0.0; pockets],
            iterations: 0,
        }
    }

    /// Finds the pressures from those in `x`, and puts them and the fin streams into `x`.
    ///
    /// *Errors*: no balance within the iterations allowed.
    pub fn solve<G: Register>(
        &mut self,
        net: &Network,
        x: &mut Lane<G>,
        on: impl Fn(usize) -> f64,
    ) -> Result<(), PressureError> {
        let n = net.pockets.len();
        if n == 0 {
            return Ok(());
        }
        let mut size = self.evaluate(net, x, &on);
        for iteration in 0..MOST_ITERATIONS {
            if size <= BALANCED_KG_PER_S {
                return Ok(());
            }
            let failed = || PressureError {
                residual_kg_per_s: size,
                iterations: iteration,
            };
            if !size.is_finite() {
                return Err(failed());
            }
            self.iterations += 1;
            let matrix = std::mem::replace(&mut self.stiffness, DMatrix::zeros(0, 0));
            let Some(factored) = Cholesky::new(matrix) else {
                // The matrix went with the attempt; the next one needs its room again.
                self.stiffness = DMatrix::zeros(n, n);
                return Err(failed());
            };
            self.step.copy_from(&self.residual);
            factored.solve_mut(&mut self.step);
            self.stiffness = factored.unpack_dirty();
            for (pocket, kept) in net.pockets.iter().zip(&mut self.tried) {
                *kept = x.get(pocket.pressure);
            }
            let reached = self.search(net, x, &on);
            if reached >= size && reached <= ROUNDED_KG_PER_S {
                // Rounding stops the descent.
                return Ok(());
            }
            size = reached;
        }
        Err(PressureError {
            residual_kg_per_s: size,
            iterations: MOST_ITERATIONS,
        })
    }

    /// Goes along the Newton step as far as the potential falls: its slope along the step, the residual times
    /// the step, falls steadily from one end to the other, so where it is far below zero the step is too long.
    /// (A square-root law makes a full step overshoot to the mirror image.) Returns the size of the residual.
    pub(super) fn search<G: Register>(
        &mut self,
        net: &Network,
        x: &mut Lane<G>,
        on: &impl Fn(usize) -> f64,
    ) -> f64 {
        let begun = self.residual.dot(&self.step);
        let (mut low, mut low_slope) = (0.0, begun);
        let (mut high, mut high_slope) = (1.0, f64::NAN);
        let mut share = 1.0;
        let mut reached = 0.0;
        for _ in 0..MOST_CUTS {
            for ((pocket, kept), step) in net.pockets.iter().zip(&self.tried).zip(self.step.iter())
            {
                x.set(pocket.pressure, kept + share * step);
            }
            reached = self.evaluate(net, x, on);
            let slope = self.residual.dot(&self.step);
            if slope.abs() <= FLAT * begun || reached <= BALANCED_KG_PER_S {
                break;
            }
            if slope > 0.0 {
                if share >= 1.0 {
                    break;
                }
                (low, low_slope) = (share, slope);
            } else {
                (high, high_slope) = (share, slope);
            }
            let cut = low_slope / (low_slope - high_slope);
            share = low + (high - low) * cut.clamp(0.1, 0.9);
        }
        reached
    }

    /// Residual and stiffness at the pressures in `x`; the size of the residual.
    pub(super) fn evaluate<G: Register>(
        &mut self,
        net: &Network,
        x: &mut Lane<G>,
        on: &impl Fn(usize) -> f64,
    ) -> f64 {
        self.stiffness.fill(0.0);
        self.residual.fill(0.0);
        let first = net.pockets.first().map_or(0, |p| p.pressure);
        for passage in &net.laws.passages {
            let c = passage.columns;
            let m = Passage::stream(
                &passage.law,
                [
                    Dual::<2>::variable(x.get(c[0]), 0),
                    Dual::<2>::variable(x.get(c[1]), 1),
                ],
                [constant(x.get(c[2])), constant(x.get(c[3]))],
                constant(x.get(c[6])),
            );
            self.add_between(c[0] - first, c[1] - first, m);
        }
        for fins in &net.laws.fin_streams {
            let c = fins.columns;
            let m = FinStream::stream(
                &fins.law,
                [
                    Dual::<2>::variable(x.get(c[1]), 0),
                    Dual::<2>::variable(x.get(c[2]), 1),
                ],
                [constant(x.get(c[3])), constant(x.get(c[4]))],
                constant(x.get(c[5])),
                constant(x.get(c[6])),
            );
            x.set(c[0], m.value);
            self.add_between(c[1] - first, c[2] - first, m);
        }
        for gap in &net.laws.gaps {
            let c = gap.columns;
            let m = Gap::stream(
                &gap.law,
                Dual::<1>::variable(x.get(c[0]), 0),
                constant(x.get(c[1])),
                constant(x.get(c[3])),
                constant(x.get(c[5])),
            );
            let pocket = c[0] - first;
            self.residual[pocket] -= m.value;
            self.stiffness[(pocket, pocket)] += m.slopes[0];
        }
        for forced in &net.laws.heater_constants {
            let pocket = forced.rows[0].wrapping_sub(first);
            if pocket < net.pockets.len() {
                self.residual[pocket] += forced.law.value * on(forced.law.heater);
            }
        }
        for (number, pocket) in net.pockets.iter().enumerate() {
            if pocket.pinned {
                self.stiffness.row_mut(number).fill(0.0);
                self.stiffness.column_mut(number).fill(0.0);
                self.stiffness[(number, number)] = 1.0;
                self.residual[number] = -x.get(pocket.pressure);
            }
        }
        largest_size(self.residual.iter().copied())
    }

    fn add_between(&mut self, a: usize, b: usize, m: Dual<2>) {
        self.residual[a] -= m.value;
        self.residual[b] += m.value;
        self.stiffness[(a, a)] += m.slopes[0];
        self.stiffness[(a, b)] += m.slopes[1];
        self.stiffness[(b, a)] -= m.slopes[0];
        self.stiffness[(b, b)] -= m.slopes[1];
    }
}

fn constant<const K: usize>(value: f64) -> Dual<K> {
    crate::physics::number::Number::constant(value)
}
