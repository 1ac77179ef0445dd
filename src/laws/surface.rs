//! Heat from surfaces to air at rest or in motion.

use super::element::{Each, Law};
use crate::physics::convection::Facing;
use crate::physics::number::{Number, Register};
use crate::physics::{convection, radiation};

/// A surface in the bay air.
///
/// Columns: cell temperature, pocket temperature, air speed.
/// Heat rows of cell and pocket.
#[derive(Debug, Clone, PartialEq)]
pub struct Surface {
    /// Area, m2.
    pub area_m2: f64,
    /// Length along the flow, m.
    pub length_m: f64,
    /// Which way it faces.
    pub facing: Facing,
    /// Resistance of the half cell behind it, K/W.
    pub behind_k_per_w: f64,
}

impl Law<3, 2> for Surface {
    fn choice(&self) -> u8 {
        self.facing as u8
    }
    #[inline(always)]
    fn apply<T: Number>(
        it: Each<'_, Self, T>,
        [cell, air, air_speed]: [T; 3],
        _: T::Given,
    ) -> [T; 2] {
        let length_m = T::of(it, |l: &Self| l.length_m);
        let free = convection::free(cell - air, length_m, T::Given::first(it).facing);
        let g =
            convection::combined(free, air_speed, length_m).times(T::of(it, |l: &Self| l.area_m2));
        let q = (cell - air) * g / (g.times(T::of(it, |l: &Self| l.behind_k_per_w)) + 1.0);
        [-q, q]
    }
}

/// Fins that a share of the moving air reaches.
///
/// Columns: cell temperature, pocket temperature, air speed.
/// Heat rows of cell and pocket.
#[derive(Debug, Clone, PartialEq)]
pub struct Fins {
    /// Fin area, efficiency counted in, m2.
    pub area_m2: f64,
    /// Length along the flow, m.
    pub length_m: f64,
    /// Share of the air speed.
    pub penetration: f64,
}

impl Law<3, 2> for Fins {
    #[inline(always)]
    fn apply<T: Number>(
        it: Each<'_, Self, T>,
        [cell, air, air_speed]: [T; 3],
        _: T::Given,
    ) -> [T; 2] {
        let speed = air_speed.times(T::of(it, |l: &Self| l.penetration));
        let h = convection::forced(speed, T::of(it, |l: &Self| l.length_m));
        let q = ((cell - air) * h).times(T::of(it, |l: &Self| l.area_m2));
        [-q, q]
    }
}

/// A surface to the hangar: free convection, wind and radiation, under a cover.
///
/// Columns: cell temperature, hangar temperature, wind.
/// Heat row of the cell, book of the path.
#[derive(Debug, Clone, PartialEq)]
pub struct Outdoors {
    /// Area, m2.
    pub area_m2: f64,
    /// Length along the wind, m.
    pub length_m: f64,
    /// Which way it faces.
    pub facing: Facing,
    /// Emissivity.
    pub emissivity: f64,
    /// Resistance of the cover, m2K/W.
    pub cover_m2k_per_w: f64,
}

impl Law<3, 2> for Outdoors {
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
