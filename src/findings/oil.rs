//! How thick the oil is at the departure.
//!
//! Heated from below, the lowest layer holds the warmth of the boundary layer, with which the pick-up should not
//! be credited: the pick-up is told at the lower of the mean and the lowest layer.

use super::readings::{mean, oil_columns};
use crate::physics::oil::Walther;
use crate::scenario::oil::Oil;
use crate::trace::Legend;
use serde::Serialize;

/// Nearer than this to the pour point a viscosity is extrapolated, K.
const NEAR_POUR_POINT_K: f64 = 10.0;

/// The oil at the departure.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct OilFinding {
    /// Its grade.
    pub grade: String,
    /// Mean of its layers, °C.
    pub temp_c: f64,
    /// At the pick-up, °C: the lower of the mean and the lowest layer.
    pub pickup_temp_c: f64,
    /// Kinematic viscosity at the mean, mm2/s.
    pub viscosity_mm2_s: f64,
    /// Kinematic viscosity at the pick-up, mm2/s.
    pub pickup_viscosity_mm2_s: f64,
    /// Its pour point, °C.
    pub pour_point_c: f64,
    /// How far the viscosity at the mean can be trusted.
    pub range: OilRange,
    /// How far the viscosity at the pick-up can be trusted.
    pub pickup_range: OilRange,
    /// Whether either figure is more than an oil's law can vouch for.
    pub flagged: bool,
}

/// How far a viscosity can be trusted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum OilRange {
    /// More than 10 K above the pour point: a liquid, and the law holds.
    Sound,
    /// Less than 10 K above the pour point: wax may thicken it beyond what is told.
    Extrapolated,
    /// Below the pour point: it no longer flows as a liquid; the figure is an equivalent.
    BelowPourPoint,
}

impl OilFinding {
    /// The oil in one row of a legend's columns, with the law through its two published viscosities.
    ///
    /// *Source*: ASTM D341 by [`Walther`]; the flag after the limits of that law (wax and gelation from about
    /// 10 K above the pour point).
    pub fn of(legend: &Legend, row: &[f64], oil: &Oil) -> Option<Self> {
        let columns = oil_columns(legend)?;
        let temp_c = mean(row, &columns);
        let pickup_temp_c = temp_c.min(row[columns[0].0]);
        let law = Walther::through(oil.at_40.si(), oil.at_100.si());
        let pour_point_c = oil.pour_point.celsius();
        let pickup_range = OilRange::of(pickup_temp_c, pour_point_c);
        Some(Self {
            grade: oil.grade.clone(),
            temp_c,
            pickup_temp_c,
            viscosity_mm2_s: law.viscosity_mm2_s(temp_c),
            pickup_viscosity_mm2_s: law.viscosity_mm2_s(pickup_temp_c),
            pour_point_c,
            range: OilRange::of(temp_c, pour_point_c),
            pickup_range,
            flagged: pickup_range != OilRange::Sound,
        })
    }
}

impl OilRange {
    /// How far a viscosity at this temperature can be trusted for an oil of this pour point, both °C.
    pub fn of(temp_c: f64, pour_point_c: f64) -> Self {
        if temp_c < pour_point_c {
            Self::BelowPourPoint
        } else if temp_c < pour_point_c + NEAR_POUR_POINT_K {
            Self::Extrapolated
        } else {
            Self::Sound
        }
    }
}
