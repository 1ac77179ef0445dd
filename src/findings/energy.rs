//! What the heaters drew, what it cost, and how much of it the engine kept.

use super::readings::row_at;
use crate::scenario::circuit::Circuit;
use crate::trace::{HeaterNote, Trace};
use serde::Serialize;

/// Joules in a kilowatt-hour.
const J_PER_KWH: f64 = 3.6e6;

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

impl EnergyFinding {
    /// What was drawn until the departure, whose columns are `row`.
    ///
    /// ```text
    /// useful share = sum over engine cells of C (T_departure - T_begin) / energy drawn
    /// ```
    pub fn of(trace: &Trace, row: &[f64], circuit: &Circuit) -> Self {
        let legend = &trace.legend;
        let begin = row_at(trace, 0.0);
        let drawn = |heater: &HeaterNote| HeaterEnergy {
            name: heater.name.clone(),
            kwh: (row[heater.energy] - begin[heater.energy]) / J_PER_KWH,
        };
        let heaters: Vec<HeaterEnergy> = legend.heaters.iter().map(drawn).collect();
        let kwh: f64 = heaters.iter().map(|h| h.kwh).sum();
        let gained_j: f64 = (legend.cells.iter().filter(|cell| cell.engine))
            .map(|cell| cell.heat_capacity_j_per_k * (row[cell.column] - begin[cell.column]))
            .sum();
        Self {
            kwh,
            heaters,
            useful_share: (kwh > 0.0 && gained_j >= 0.0).then(|| gained_j / (kwh * J_PER_KWH)),
            cost: circuit.tariff_per_kwh.map(|tariff| tariff * kwh),
            currency: circuit.currency.clone(),
        }
    }
}
