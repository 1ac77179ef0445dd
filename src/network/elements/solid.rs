//! Elements of solids, oil and the surfaces they show to air.

use crate::physics::convection::Facing;
use crate::physics::oil::{Piece, Walther};

/// A constant conductance between two temperatures.
#[derive(Debug, Clone, PartialEq)]
pub struct Link {
    /// The two temperature columns.
    pub temps: [usize; 2],
    /// The two heat rows.
    pub rows: [usize; 2],
    /// Conductance, W/K.
    pub w_per_k: f64,
}

/// A layer of oil over a warmer or colder one.
#[derive(Debug, Clone, PartialEq)]
pub struct OilLink {
    /// Temperature columns: the lower, the upper, the mean of the stack.
    pub temps: [usize; 3],
    /// Heat rows of the lower and the upper.
    pub rows: [usize; 2],
    /// The piece of oil between the two.
    pub piece: Piece,
    /// Constants of the oil's viscosity law.
    pub viscosity: Walther,
}

/// Two surfaces that radiate to each other.
#[derive(Debug, Clone, PartialEq)]
pub struct Radiation {
    /// The two temperature columns.
    pub temps: [usize; 2],
    /// The two heat rows.
    pub rows: [usize; 2],
    /// Exchange area, m2.
    pub area_m2: f64,
}

/// A surface in the bay air.
#[derive(Debug, Clone, PartialEq)]
pub struct Surface {
    /// Columns: cell temperature, pocket temperature, draught.
    pub columns: [usize; 3],
    /// Heat rows of cell and pocket.
    pub rows: [usize; 2],
    /// Area, m2.
    pub area_m2: f64,
    /// Length along the flow, m.
    pub length_m: f64,
    /// Which way it faces.
    pub facing: Facing,
    /// Resistance of the half cell behind it, K/W.
    pub behind_k_per_w: f64,
}

/// Fins that a share of the draught reaches.
#[derive(Debug, Clone, PartialEq)]
pub struct Fins {
    /// Columns: cell temperature, pocket temperature, draught.
    pub columns: [usize; 3],
    /// Heat rows of cell and pocket.
    pub rows: [usize; 2],
    /// Fin area, efficiency counted in, m2.
    pub area_m2: f64,
    /// Length along the flow, m.
    pub length_m: f64,
    /// Share of the draught.
    pub penetration: f64,
}

/// A surface to the hangar: free convection, wind and radiation, under a cover.
#[derive(Debug, Clone, PartialEq)]
pub struct Outdoors {
    /// Columns: cell temperature, hangar temperature, wind.
    pub columns: [usize; 3],
    /// Heat row of the cell, book of the path.
    pub rows: [usize; 2],
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

/// A surface whose coefficient grows with a power of the difference.
#[derive(Debug, Clone, PartialEq)]
pub struct PowerFace {
    /// The two temperature columns.
    pub temps: [usize; 2],
    /// The two heat rows.
    pub rows: [usize; 2],
    /// Area times coefficient at `at_k`, W/K.
    pub w_per_k: f64,
    /// The difference the coefficient is given for, K.
    pub at_k: f64,
    /// The exponent.
    pub exponent: f64,
    /// Resistance of the half cell behind it, K/W.
    pub behind_k_per_w: f64,
}

/// A term of a linear row.
#[derive(Debug, Clone, PartialEq)]
pub struct Term {
    /// The column.
    pub column: usize,
    /// The row.
    pub row: usize,
    /// The factor.
    pub factor: f64,
}
