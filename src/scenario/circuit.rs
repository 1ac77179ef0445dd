//! The electric circuit the heaters share.

use crate::quantity::{Current, Length, Potential, Power};
use serde::{Deserialize, Serialize};

/// Mains voltage, breaker, cord, what else is plugged in, and what a kilowatt-hour costs.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Circuit {
    /// Mains voltage, default 120 V.
    pub volts: Potential,
    /// Rating of the breaker, default 15 A.
    pub breaker: Current,
    /// Whatever else draws on the circuit.
    pub other_load: Power,
    /// The extension cord that all heaters hang on; none is told of if none is given.
    pub cord: Option<Cord>,
    /// Price of a kilowatt-hour, in the currency of `currency`; no cost is told without it.
    pub tariff_per_kwh: Option<f64>,
    /// What the price is counted in.
    pub currency: String,
}

/// An extension cord of two copper conductors and an earth.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cord {
    /// Its length, one way.
    pub length: Length,
    /// The American gauge of its conductors: 14 for most heaters, 16 and 18 for lamps.
    pub gauge_awg: u32,
}

impl Default for Circuit {
    fn default() -> Self {
        Self {
            volts: Potential::V(120.0),
            breaker: Current::A(15.0),
            other_load: Power::W(0.0),
            cord: None,
            tariff_per_kwh: None,
            currency: String::new(),
        }
    }
}
