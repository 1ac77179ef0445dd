//! What the heaters drew, what it cost, and how much of it the engine kept.

use serde::Serialize;

/// Energy from the beginning to the departure.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct EnergyFinding {
    /// Drawn at the plug by all heaters, kWh.
    pub kwh: f64,
    /// Drawn by each heater, in the order of the scenario.
    pub heaters: Vec<HeaterEnergy>,
    /// Heat gained by engine parts over the energy drawn; none if they ended the night with less than they began,
    /// or if nothing was drawn.
    pub useful_share: Option<f64>,
    /// What it cost, in the currency of the circuit; none without a tariff.
    pub cost: Option<f64>,
    /// What the cost is counted in.
    pub currency: String,
}

/// Energy of one heater.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct HeaterEnergy {
    /// Its name.
    pub name: String,
    /// Energy drawn, kWh.
    pub kwh: f64,
}
