//! Heat between solids, oil and air at rest or in a draught.

use super::law::Law;
use crate::network::elements::{
    Fins, Link, OilLink, Outdoors, PowerFace, Radiation, Surface, Term,
};
use crate::physics::number::Number;
use crate::physics::{convection, oil, radiation};

/// Below this difference the power law of a face is smoothed, K: numerical, far below what is told.
const POWER_SOFTNESS_K: f64 = 1e-6;

impl Law<1, 1> for Term {
    fn columns(&self) -> [usize; 1] {
        [self.column]
    }
    fn rows(&self) -> [usize; 1] {
        [self.row]
    }
    fn apply<T: Number>(&self, [x]: [T; 1], _: &[f64]) -> [T; 1] {
        [x * self.factor]
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
    fn apply<T: Number>(&self, _: [T; 0], _: &[f64]) -> [T; 1] {
        [T::constant(self.1)]
    }
}

impl Law<2, 2> for Link {
    fn columns(&self) -> [usize; 2] {
        self.temps
    }
    fn rows(&self) -> [usize; 2] {
        self.rows
    }
    fn apply<T: Number>(&self, [a, b]: [T; 2], _: &[f64]) -> [T; 2] {
        let q = (a - b) * self.w_per_k;
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
    fn apply<T: Number>(&self, [lower, upper, mean]: [T; 3], _: &[f64]) -> [T; 2] {
        let fall = (lower - upper) * self.stretch;
        let mixing = oil::mixing(fall, self.viscosity.viscosity_mm2_s(mean), self.depth_m);
        let q = (lower - upper) * mixing * self.w_per_k;
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
    fn apply<T: Number>(&self, [a, b]: [T; 2], _: &[f64]) -> [T; 2] {
        let q = radiation::exchange_w(a, b, self.area_m2);
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
    fn apply<T: Number>(&self, [cell, air, draught]: [T; 3], _: &[f64]) -> [T; 2] {
        let free = convection::free(cell - air, self.length_m, self.facing);
        let g = convection::combined(free, draught, self.length_m) * self.area_m2;
        let q = (cell - air) * g / (g * self.behind_k_per_w + 1.0);
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
    fn apply<T: Number>(&self, [cell, air, draught]: [T; 3], _: &[f64]) -> [T; 2] {
        let h = convection::draught(draught * self.penetration, self.length_m);
        let q = (cell - air) * h * self.area_m2;
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
    fn apply<T: Number>(&self, [cell, hangar, wind]: [T; 3], _: &[f64]) -> [T; 2] {
        let free = convection::free(cell - hangar, self.length_m, self.facing);
        let h = convection::combined(free, wind, self.length_m)
            + radiation::film_coefficient(cell, hangar, self.emissivity);
        let q = (cell - hangar) * h * self.area_m2 / (h * self.cover_m2k_per_w + 1.0);
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
    fn apply<T: Number>(&self, [a, b]: [T; 2], _: &[f64]) -> [T; 2] {
        let size = ((a - b).squared() + POWER_SOFTNESS_K * POWER_SOFTNESS_K).sqrt();
        let g = (size / self.at_k).powf(self.exponent) * self.w_per_k;
        let q = (a - b) * g / (g * self.behind_k_per_w + 1.0);
        [-q, q]
    }
}
