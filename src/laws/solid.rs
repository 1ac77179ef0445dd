//! Linear terms, constant powers, and conductances between solids.

use super::element::{Each, Element, Law};
use crate::physics::number::Number;

/// Below this difference the power law of a face is smoothed, K: numerical, far below what is reported.
const POWER_SOFTNESS_K: f64 = 1e-6;

/// A term of a linear row: its column times a factor.
#[derive(Debug, Clone, PartialEq)]
pub struct Linear {
    /// The factor.
    pub factor: f64,
}

/// A linear term between a column and a row.
pub type Term = Element<Linear, 1, 1>;

impl Term {
    /// Adds a column times a factor to a row.
    pub fn new(row: usize, column: usize, factor: f64) -> Self {
        Linear { factor }.between([column], [row])
    }
    /// Takes an auxiliary unknown away from the row that defines it.
    pub fn minus_itself(auxiliary: usize) -> Self {
        Self::new(auxiliary, auxiliary, -1.0)
    }
}

impl Law<1, 1> for Linear {
    #[inline(always)]
    fn apply<T: Number>(it: Each<'_, Self, T>, [x]: [T; 1], _: T::Given) -> [T; 1] {
        [x.times(T::of(it, |l: &Self| l.factor))]
    }
}

/// Heat that is always fed into a row.
#[derive(Debug, Clone, PartialEq)]
pub struct Feed {
    /// Power, W.
    pub watts: f64,
}

impl Law<0, 1> for Feed {
    #[inline(always)]
    fn apply<T: Number>(it: Each<'_, Self, T>, _: [T; 0], _: T::Given) -> [T; 1] {
        [T::given(T::of(it, |l: &Self| l.watts))]
    }
}

/// A constant conductance between two temperatures.
///
/// The two temperature columns.
/// The two heat rows.
#[derive(Debug, Clone, PartialEq)]
pub struct Link {
    /// Conductance, W/K.
    pub w_per_k: f64,
}

impl Law<2, 2> for Link {
    #[inline(always)]
    fn apply<T: Number>(it: Each<'_, Self, T>, [a, b]: [T; 2], _: T::Given) -> [T; 2] {
        let q = (a - b).times(T::of(it, |l: &Self| l.w_per_k));
        [-q, q]
    }
}

/// A surface whose coefficient grows with a power of the difference.
///
/// The two temperature columns.
/// The two heat rows.
#[derive(Debug, Clone, PartialEq)]
pub struct PowerFace {
    /// Area times coefficient at `at_k`, W/K.
    pub w_per_k: f64,
    /// The difference the coefficient is given for, K.
    pub at_k: f64,
    /// The exponent.
    pub exponent: f64,
    /// Resistance of the half cell behind it, K/W.
    pub behind_k_per_w: f64,
}

impl Law<2, 2> for PowerFace {
    #[inline(always)]
    fn apply<T: Number>(it: Each<'_, Self, T>, [a, b]: [T; 2], _: T::Given) -> [T; 2] {
        let size = ((a - b).squared() + POWER_SOFTNESS_K * POWER_SOFTNESS_K).sqrt();
        let g = size
            .over(T::of(it, |l: &Self| l.at_k))
            .powf(T::of(it, |l: &Self| l.exponent))
            .times(T::of(it, |l: &Self| l.w_per_k));
        let q = (a - b) * g / (g.times(T::of(it, |l: &Self| l.behind_k_per_w)) + 1.0);
        [-q, q]
    }
}
