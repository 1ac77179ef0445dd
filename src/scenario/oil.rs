//! The oil: a grade by its two published viscosities.

use crate::document::model;
use crate::quantity::{Temperature, Viscosity};

model! {
    /// An oil grade.
    pub struct Oil {
        /// Its grade, such as `15W-50`.
        pub grade: String, example("\"15W-50\"");
        /// Viscosity at 40 °C.
        pub at_40: Viscosity, above_zero();
        /// Viscosity at 100 °C.
        pub at_100: Viscosity, above_zero();
        /// Pour point: below it, figures are extrapolated and flagged.
        pub pour_point: Temperature, limits(-90.0, 60.0);
        /// Which of its numbers are uncertain.
        pub uncertain: super::uncertain::Uncertain = super::uncertain::Uncertain::new();
    }
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
            uncertain: Default::default(),
        }
    }
}
