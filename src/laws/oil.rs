//! Heat between layers of oil.

use super::element::{Each, Law};
use crate::physics::number::Number;
use crate::physics::oil::{Piece, Walther};

/// A layer of oil over a warmer or colder one.
///
/// Temperature columns: the lower, the upper, the mean of the stack.
/// Heat rows of the lower and the upper.
#[derive(Debug, Clone, PartialEq)]
pub struct OilLink {
    /// The piece of oil between the two.
    pub piece: Piece,
    /// Constants of the oil's viscosity law.
    pub viscosity: Walther,
}

impl Law<3, 2> for OilLink {
    #[inline(always)]
    fn apply<T: Number>(
        it: Each<'_, Self, T>,
        [lower, upper, mean]: [T; 3],
        _: T::Given,
    ) -> [T; 2] {
        let oil = Walther {
            a: T::of(it, |l: &Self| l.viscosity.a),
            b: T::of(it, |l: &Self| l.viscosity.b),
        };
        let piece = Piece {
            w_per_k: T::of(it, |l: &Self| l.piece.w_per_k),
            stretch: T::of(it, |l: &Self| l.piece.stretch),
            oil_depth_m: T::of(it, |l: &Self| l.piece.oil_depth_m),
        };
        let q = piece.carries_w(lower, upper, oil.viscosity_mm2_s(mean));
        [-q, q]
    }
}
