//! Heat between solids, oil and air at rest or in a draught.

use super::law::{Each, Law};
use crate::network::elements::{
    Fins, Link, OilLink, Outdoors, PowerFace, Radiation, Surface, Term,
};
use crate::physics::number::{Number, Register};
use crate::physics::oil::{Piece, Walther};
use crate::physics::{convection, radiation};

/// Below this difference the power law of a face is smoothed, K: numerical, far below what is told.
const POWER_SOFTNESS_K: f64 = 1e-6;

impl Law<1, 1> for Term {
    fn columns(&self) -> [usize; 1] {
        [self.column]
    }
    fn rows(&self) -> [usize; 1] {
        [self.row]
    }
    #[inline(always)]
    fn apply<T: Number>(it: Each<'_, Self, T>, [x]: [T; 1], _: T::Given) -> [T; 1] {
        [x.times(T::of(it, |l: &Self| l.factor))]
    }
}

/// Watts that are always fed in: the row, and how many.
impl Law<0, 1> for (usize, f64) {
    fn columns(&self) -> [usize; 0] {
        []
    }
    fn rows(&self) -> [usize; 1] {
        [self.0]
    }
    #[inline(always)]
    fn apply<T: Number>(it: Each<'_, Self, T>, _: [T; 0], _: T::Given) -> [T; 1] {
        [T::given(T::of(it, |l: &Self| l.1))]
    }
}

impl Law<2, 2> for Link {
    fn columns(&self) -> [usize; 2] {
        self.temps
    }
    fn rows(&self) -> [usize; 2] {
        self.rows
    }
    #[inline(always)]
    fn apply<T: Number>(it: Each<'_, Self, T>, [a, b]: [T; 2], _: T::Given) -> [T; 2] {
        let q = (a - b).times(T::of(it, |l: &Self| l.w_per_k));
        [-q, q]
    }
}

impl Law<3, 2> for OilLink {
    fn columns(&self) -> [usize; 3] {
        self.temps
    }
    fn rows(&self) -> [usize; 2] {
        self.rows
    }
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

impl Law<2, 2> for Radiation {
    fn columns(&self) -> [usize; 2] {
        self.temps
    }
    fn rows(&self) -> [usize; 2] {
        self.rows
    }
    #[inline(always)]
    fn apply<T: Number>(it: Each<'_, Self, T>, [a, b]: [T; 2], _: T::Given) -> [T; 2] {
        let q = radiation::exchange_w(a, b, T::of(it, |l: &Self| l.area_m2));
        [-q, q]
    }
}

impl Law<3, 2> for Surface {
    fn columns(&self) -> [usize; 3] {
        self.columns
    }
    fn rows(&self) -> [usize; 2] {
        self.rows
    }
    fn choice(&self) -> u8 {
        self.facing as u8
    }
    #[inline(always)]
    fn apply<T: Number>(
        it: Each<'_, Self, T>,
        [cell, air, draught]: [T; 3],
        _: T::Given,
    ) -> [T; 2] {
        let length_m = T::of(it, |l: &Self| l.length_m);
        let free = convection::free(cell - air, length_m, T::Given::first(it).facing);
        let g =
            convection::combined(free, draught, length_m).times(T::of(it, |l: &Self| l.area_m2));
        let q = (cell - air) * g / (g.times(T::of(it, |l: &Self| l.behind_k_per_w)) + 1.0);
        [-q, q]
    }
}

impl Law<3, 2> for Fins {
    fn columns(&self) -> [usize; 3] {
        self.columns
    }
    fn rows(&self) -> [usize; 2] {
        self.rows
    }
    #[inline(always)]
    fn apply<T: Number>(
        it: Each<'_, Self, T>,
        [cell, air, draught]: [T; 3],
        _: T::Given,
    ) -> [T; 2] {
        let speed = draught.times(T::of(it, |l: &Self| l.penetration));
        let h = convection::draught(speed, T::of(it, |l: &Self| l.length_m));
        let q = ((cell - air) * h).times(T::of(it, |l: &Self| l.area_m2));
        [-q, q]
    }
}

impl Law<3, 2> for Outdoors {
    fn columns(&self) -> [usize; 3] {
        self.columns
    }
    fn rows(&self) -> [usize; 2] {
        self.rows
    }
    fn choice(&self) -> u8 {
        self.facing as u8
    }
    #[inline(always)]
    fn apply<T: Number>(
        it: Each<'_, Self, T>,
        [cell, hangar, wind]: [T; 3],
        _: T::Given,
    ) -> [T; 2] {
        let length_m = T::of(it, |l: &Self| l.length_m);
        let emissivity = T::of(it, |l: &Self| l.emissivity);
        let free = convection::free(cell - hangar, length_m, T::Given::first(it).facing);
        let h = convection::combined(free, wind, length_m)
            + radiation::film_coefficient(cell, hangar, emissivity);
        let q = ((cell - hangar) * h).times(T::of(it, |l: &Self| l.area_m2))
            / (h.times(T::of(it, |l: &Self| l.cover_m2k_per_w)) + 1.0);
        [-q, q]
    }
}

impl Law<2, 2> for PowerFace {
    fn columns(&self) -> [usize; 2] {
        self.temps
    }
    fn rows(&self) -> [usize; 2] {
        self.rows
    }
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
