//! Elements of the heaters.

use super::solid::Term;

/// A linear term that counts only while a heater is on.
#[derive(Debug, Clone, PartialEq)]
pub struct HeaterTerm {
    /// The heater.
    pub heater: usize,
    /// The term.
    pub term: Term,
}

/// A constant that counts only while a heater is on.
#[derive(Debug, Clone, PartialEq)]
pub struct HeaterConstant {
    /// The heater.
    pub heater: usize,
    /// The row.
    pub row: usize,
    /// What is added to it.
    pub value: f64,
}

/// Vapour carried along by a forced stream.
#[derive(Debug, Clone, PartialEq)]
pub struct HeaterVapour {
    /// The heater.
    pub heater: usize,
    /// Columns: temperature and vapour where it comes from.
    pub columns: [usize; 2],
    /// Rows: vapour where it comes from (or the book of vapour lost, negative), vapour where it goes.
    pub rows: [usize; 2],
    /// The stream, kg/s.
    pub kg_per_s: f64,
}

/// The watts of a fan heater: an auxiliary unknown, for its element may limit itself.
#[derive(Debug, Clone, PartialEq)]
pub struct FanWatts {
    /// Columns: the watts, the intake temperature.
    pub columns: [usize; 2],
    /// The row that defines the watts.
    pub row: usize,
    /// Rated power, W.
    pub rated_w: f64,
    /// Air through the element times its heat capacity, W/K.
    pub flow_w_per_k: f64,
    /// Temperatures between which the element falls from full to none, °C.
    pub limits_c: Option<[f64; 2]>,
}

/// A bonded element's share on one cell.
#[derive(Debug, Clone, PartialEq)]
pub struct Bonded {
    /// The heater.
    pub heater: usize,
    /// Temperature column of the cell.
    pub column: usize,
    /// Heat row of the cell, book of energy drawn.
    pub rows: [usize; 2],
    /// Rated power on this cell, W.
    pub rated_w: f64,
    /// Temperatures between which the element falls from full to none, °C.
    pub limits_c: Option<[f64; 2]>,
}
