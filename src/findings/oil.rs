//! How thick the oil is at the departure.

use serde::Serialize;

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
