//! The oil: a grade by its two published viscosities.

use crate::quantity::{Temperature, Viscosity};
use serde::{Deserialize, Serialize};

/// An oil grade.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Oil {
    /// Its grade, such as `15W-50`.
    pub grade: String,
    /// Viscosity at 40 °C.
    pub at_40: Viscosity,
    /// Viscosity at 100 °C.
    pub at_100: Viscosity,
    /// Pour point: below it, figures are extrapolated and flagged.
    pub pour_point: Temperature,
    /// Which of its numbers are uncertain.
    #[serde(default)]
    pub unknowns: super::unknowns::Unknowns,
}

#[cfg(test)]
impl Oil {
    /// SAE 50, to try things with: 225 and 19.8 mm²/s, pour point -18 °C.
    pub(crate) fn sae_50() -> Self {
        Self {
            grade: "SAE 50".to_owned(),
            at_40: Viscosity::mm2_s(225.0),
            at_100: Viscosity::mm2_s(19.8),
            pour_point: Temperature::degC(-18.0),
            unknowns: Default::default(),
        }
    }
}
