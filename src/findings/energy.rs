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
        let kwh = heaters.iter().fold(0.0, |sum, h| sum + h.kwh);
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::test_traces::Handmade;

    fn found(end_c: f64, tariff: Option<f64>) -> EnergyFinding {
        let mut night = Handmade::hours(&[0.0, 1.0, 2.0, 3.0]).leaving(2.0);
        night.heater("fan", 500.0, &[0.0, 1.8e6, 3.6e6, 5.4e6]);
        // Its meter does not begin at nothing.
        night.heater("pad", 100.0, &[0.5e6, 0.5e6, 0.86e6, 1.22e6]);
        night
            .cell("case", &[-10.0, 0.0, end_c, 90.0])
            .heat_capacity_j_per_k = 50e3;
        night.cell("skin", &[-10.0, 0.0, 80.0, 90.0]).engine = false;
        let trace = night.trace();
        let circuit = Circuit {
            tariff_per_kwh: tariff,
            ..Circuit::default()
        };
        EnergyFinding::of(&trace, &trace.at(trace.departure_s), &circuit)
    }

    #[test]
    fn energy_and_its_cost_are_those_at_the_departure() {
        let found = found(20.0, Some(0.3));
        assert!((found.kwh - 1.1).abs() < 1e-12);
        assert!((found.heaters[1].kwh - 0.1).abs() < 1e-12);
        assert!((found.cost.expect("there is a tariff") - 0.33).abs() < 1e-12);
    }

    #[test]
    fn the_useful_share_is_what_engine_parts_gained() {
        // 50 kJ/K over 30 K is 1.5 MJ of 3.96 MJ.
        let share = found(20.0, None).useful_share.expect("it gained");
        assert!((share - 1.5 / 3.96).abs() < 1e-12);
    }

    #[test]
    fn an_engine_that_ends_colder_has_no_useful_share_and_no_tariff_no_cost() {
        let found = found(-11.0, None);
        assert_eq!((found.useful_share, found.cost), (None, None));
        let still = Handmade::hours(&[0.0, 1.0]).trace();
        let unheated = EnergyFinding::of(&still, still.sample(1), &Circuit::default());
        assert_eq!((unheated.kwh, unheated.useful_share), (0.0, None));
    }
}
