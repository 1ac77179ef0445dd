//! Radiation between two surfaces.

use super::element::{Each, Law};
use crate::physics::number::Number;
use crate::physics::radiation;

/// Two surfaces that radiate to each other.
///
/// The two temperature columns.
/// The two heat rows.
#[derive(Debug, Clone, PartialEq)]
pub struct Radiation {
    /// Exchange area, m2.
    pub area_m2: f64,
}

impl Law<2, 2> for Radiation {
    #[inline(always)]
    fn apply<T: Number>(it: Each<'_, Self, T>, [a, b]: [T; 2], _: T::Given) -> [T; 2] {
        let q = radiation::exchange_w(a, b, T::of(it, |l: &Self| l.area_m2));
        [-q, q]
    }
}
