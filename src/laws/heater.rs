//! What heaters add while they are on.

use super::element::{Each, Law};
use crate::physics::air::density_kg_per_m3;
use crate::physics::number::{Number, Register};

/// The temperature at which a self-limiting element gives all (0) or none (1) of its watts, °C.
fn limit(limits_c: Option<[f64; 2]>, end: usize) -> f64 {
    limits_c.map_or(0.0, |limits| limits[end])
}

/// This number, no less than zero and no more than `most`.
#[inline(always)]
fn between_zero_and<T: Number>(x: T, most: T::Given) -> T {
    x.positive_part().least(T::given(most))
}

/// A linear term that counts only while a heater is on.
#[derive(Debug, Clone, PartialEq)]
pub struct HeaterTerm {
    /// The heater.
    pub heater: usize,
    /// The factor.
    pub factor: f64,
}

impl Law<1, 1> for HeaterTerm {
    fn heater(&self) -> Option<usize> {
        Some(self.heater)
    }
    #[inline(always)]
    fn apply<T: Number>(it: Each<'_, Self, T>, [x]: [T; 1], on: T::Given) -> [T; 1] {
        [x.times(T::of(it, |l: &Self| l.factor) * on)]
    }
}

/// A constant that counts only while a heater is on.
///
/// The row.
#[derive(Debug, Clone, PartialEq)]
pub struct HeaterConstant {
    /// The heater.
    pub heater: usize,
    /// What is added to it.
    pub value: f64,
}

impl Law<0, 1> for HeaterConstant {
    fn heater(&self) -> Option<usize> {
        Some(self.heater)
    }
    #[inline(always)]
    fn apply<T: Number>(it: Each<'_, Self, T>, _: [T; 0], on: T::Given) -> [T; 1] {
        [T::given(T::of(it, |l: &Self| l.value) * on)]
    }
}

/// Vapour carried along by a forced stream.
///
/// Columns: temperature and vapour where it comes from.
/// Rows: vapour where it comes from (or the book of vapour lost, negative), vapour where it goes.
#[derive(Debug, Clone, PartialEq)]
pub struct HeaterVapour {
    /// The heater.
    pub heater: usize,
    /// The stream, kg/s.
    pub kg_per_s: f64,
}

impl Law<2, 2> for HeaterVapour {
    fn heater(&self) -> Option<usize> {
        Some(self.heater)
    }
    #[inline(always)]
    fn apply<T: Number>(it: Each<'_, Self, T>, [temp, vapour]: [T; 2], on: T::Given) -> [T; 2] {
        let stream = T::of(it, |l: &Self| l.kg_per_s) * on;
        let moved = (vapour / density_kg_per_m3(temp)).times(stream);
        [-moved, moved]
    }
}

/// The watts of a fan heater: an auxiliary unknown, for its element may limit itself.
///
/// Columns: the watts, the intake temperature.
/// The row that defines the watts.
#[derive(Debug, Clone, PartialEq)]
pub struct FanWatts {
    /// Rated power, W.
    pub rated_w: f64,
    /// Air through the element times its heat capacity, W/K.
    pub flow_w_per_k: f64,
    /// Temperatures between which the element falls from full to none, °C.
    pub limits_c: Option<[f64; 2]>,
}

impl Law<2, 1> for FanWatts {
    fn choice(&self) -> u8 {
        u8::from(self.limits_c.is_some())
    }
    /// A self-limiting element is as hot as the air that leaves it, which is hotter the more it gives:
    /// solved for the watts.
    #[inline(always)]
    fn apply<T: Number>(it: Each<'_, Self, T>, [watts, intake]: [T; 2], _: T::Given) -> [T; 1] {
        let rated = T::of(it, |l: &Self| l.rated_w);
        let given = if T::Given::first(it).limits_c.is_none() {
            T::given(rated)
        } else {
            let full = T::of(it, |l: &Self| limit(l.limits_c, 0));
            let none = T::of(it, |l: &Self| limit(l.limits_c, 1));
            let slope = rated / (none - full + rated / T::of(it, |l: &Self| l.flow_w_per_k));
            between_zero_and((-intake).plus(none).times(slope), rated)
        };
        [given - watts]
    }
}

/// A bonded element's share on one cell.
///
/// Temperature column of the cell.
/// Heat row of the cell, book of energy drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct Bonded {
    /// The heater.
    pub heater: usize,
    /// Rated power on this cell, W.
    pub rated_w: f64,
    /// Temperatures between which the element falls from full to none, °C.
    pub limits_c: Option<[f64; 2]>,
}

impl Law<1, 2> for Bonded {
    fn heater(&self) -> Option<usize> {
        Some(self.heater)
    }
    fn choice(&self) -> u8 {
        u8::from(self.limits_c.is_some())
    }
    #[inline(always)]
    fn apply<T: Number>(it: Each<'_, Self, T>, [cell]: [T; 1], on: T::Given) -> [T; 2] {
        let share = if T::Given::first(it).limits_c.is_none() {
            T::constant(1.0)
        } else {
            let full = T::of(it, |l: &Self| limit(l.limits_c, 0));
            let none = T::of(it, |l: &Self| limit(l.limits_c, 1));
            between_zero_and((-cell).plus(none).over(none - full), T::Given::all(1.0))
        };
        let watts = share.times(T::of(it, |l: &Self| l.rated_w) * on);
        [watts, watts]
    }
}
