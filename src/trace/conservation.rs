//! Joules and grams: what came in, what went out, what stayed, and whether it adds up.

use super::column_info::LossPath;
use serde::{Deserialize, Serialize};

/// The books of a night.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub struct Conservation {
    /// Energy stored at the beginning over the reference of the state vector, J.
    pub stored_before_j: f64,
    /// Energy stored at the end, J.
    pub stored_after_j: f64,
    /// Energy drawn by each heater, J, in the order of the scenario.
    pub drawn_j: Vec<f64>,
    /// Heat given by feeds that are always on, J.
    pub fed_j: f64,
    /// Heat lost by each path, J.
    pub lost_j: Vec<(LossPath, f64)>,
    /// Water at the beginning: films, oil, gas and pockets, g.
    pub water_before_g: f64,
    /// Water at the end, g.
    pub water_after_g: f64,
    /// Vapour lost to the hangar, net, g.
    pub water_lost_g: f64,
    /// The sum of all positive increments of films, g.
    pub turnover_g: f64,
}

/// Books that do not close.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum ConservationError {
    /// Energy is missing or too much.
    #[error(
        "the energy books do not close: {error:.2e} of what went through is unaccounted for, {allowed:.0e} is allowed; this is a fault of the program, please report it with the file"
    )]
    Energy {
        /// The relative error found.
        error: f64,
        /// The error allowed.
        allowed: f64,
    },
    /// Water is missing or too much.
    #[error(
        "the water books do not close: {error:.2e} of what there was is unaccounted for, {allowed:.0e} is allowed; this is a fault of the program, please report it with the file"
    )]
    Water {
        /// The relative error found.
        error: f64,
        /// The error allowed.
        allowed: f64,
    },
}

impl Conservation {
    /// The relative error allowed before a night is refused.
    pub const ALLOWED: f64 = 1e-6;

    /// `(change − in + out) / max(in, |change|, 1 kJ)`.
    pub fn energy_error(&self) -> f64 {
        let change = self.stored_after_j - self.stored_before_j;
        let into: f64 = self.drawn_j.iter().sum::<f64>() + self.fed_j;
        let out: f64 = self.lost_j.iter().map(|(_, j)| j).sum();
        (change - into + out) / into.max(change.abs()).max(1e3)
    }
    /// `(change + lost) / max(water before, turnover, 1 g)`.
    pub fn water_error(&self) -> f64 {
        let change = self.water_after_g - self.water_before_g;
        (change + self.water_lost_g) / self.water_before_g.max(self.turnover_g).max(1.0)
    }
    /// Refuses books that do not close.
    ///
    /// *Errors*: an energy or water error above [`Conservation::ALLOWED`], or one that is not a number.
    pub fn check(&self) -> Result<(), ConservationError> {
        let (energy, water, allowed) = (self.energy_error(), self.water_error(), Self::ALLOWED);
        if energy.is_nan() || energy.abs() > allowed {
            return Err(ConservationError::Energy {
                error: energy,
                allowed,
            });
        }
        if water.is_nan() || water.abs() > allowed {
            return Err(ConservationError::Water {
                error: water,
                allowed,
            });
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn closed() -> Conservation {
        Conservation {
            stored_after_j: 6.0e6,
            drawn_j: vec![10.0e6],
            lost_j: vec![(LossPath::Skins, 3.0e6), (LossPath::Gaps, 1.0e6)],
            water_before_g: 15.0,
            water_after_g: 14.0,
            water_lost_g: 1.0,
            ..Conservation::default()
        }
    }

    #[test]
    fn books_that_close_pass_the_audit() {
        closed().check().unwrap();
    }

    #[test]
    fn books_broken_on_purpose_are_refused() {
        let mut leaky = closed();
        leaky.lost_j[1].1 -= 20.0;
        assert!(matches!(
            leaky.check(),
            Err(ConservationError::Energy { .. })
        ));
        let mut dry = closed();
        dry.water_after_g -= 1e-4;
        assert!(matches!(dry.check(), Err(ConservationError::Water { .. })));
        let mut lost = closed();
        lost.stored_after_j = f64::NAN;
        assert!(lost.check().is_err());
    }
}
