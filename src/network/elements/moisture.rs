//! Elements of the water inside the engine.

use crate::physics::convection::Facing;

/// An inner wall with its film.
#[derive(Debug, Clone, PartialEq)]
pub struct WallFilm {
    /// Columns: wall temperature, gas temperature, gas vapour, film.
    pub columns: [usize; 4],
    /// Rows: heat of the wall, heat of the gas, vapour of the gas, film, water of the oil.
    pub rows: [usize; 5],
    /// Area, m2.
    pub area_m2: f64,
    /// Which way it faces.
    pub facing: Facing,
    /// Mass factor.
    pub mass_factor: f64,
    /// Whether what drips off reaches the oil.
    pub drips: bool,
}

/// The surface of the oil.
#[derive(Debug, Clone, PartialEq)]
pub struct OilSurface {
    /// Columns: temperature of the top layer, gas temperature, gas vapour, water in the oil.
    pub columns: [usize; 4],
    /// Rows: heat of the layer, heat of the gas, vapour of the gas, water.
    pub rows: [usize; 4],
    /// Area, m2.
    pub area_m2: f64,
    /// How freely water passes.
    pub oil_film: f64,
}

/// The draught through breather and filler.
#[derive(Debug, Clone, PartialEq)]
pub struct Vent {
    /// Columns: temperatures and vapours, gas and pocket in turn: T, T, w, w.
    pub columns: [usize; 4],
    /// Rows: heat of the gas, heat of the pocket, vapour of the gas, vapour of the pocket, book of latent heat.
    pub rows: [usize; 5],
    /// Steady exchange, m3/s.
    pub steady_m3_per_s: f64,
    /// Diameter of the open filler, m; zero when the cap is on.
    pub filler_m: f64,
    /// Flow coefficient of the filler.
    pub epstein: f64,
}

/// The air inside as it warms and cools, breathing through the breather.
#[derive(Debug, Clone, PartialEq)]
pub struct Breathing {
    /// Columns: heat to the gas, temperatures and vapours of gas and pocket in turn: Q, T, T, w, w.
    pub columns: [usize; 5],
    /// Rows: heat of the gas, heat of the pocket, vapour of the gas, vapour of the pocket, book of latent heat.
    pub rows: [usize; 5],
    /// Heat capacity of the gas and what goes with it, J/K.
    pub capacity_j_per_k: f64,
    /// Volume, m3.
    pub volume_m3: f64,
}
