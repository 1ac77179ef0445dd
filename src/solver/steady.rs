//! Where the night would settle if nothing changed: everything dry, weather and heaters as at the departure.
//!
//! Implicit steps that grow without bound end in Newton's method on the rates; begun short, they follow
//! the night itself towards its rest, so that the right solution is found.

use super::factor::Factor;
use crate::balance::Balance;
use crate::network::Network;
use crate::physics::number::largest_size;

/// The first step, s.
const FIRST_STEP_S: f64 = 30.0;
/// How much a step grows by.
const GROWTH: f64 = 3.0;
/// No longer step makes a difference, s.
const LONGEST_STEP_S: f64 = 1e11;
/// Settled when a step of that length changes no temperature by more than this, K.
const SETTLED_K: f64 = 1e-7;
/// A change larger than this is not trusted, K.
const TRUSTED_K: f64 = 60.0;
/// Most steps.
const MOST_STEPS: usize = 200;
/// A dew point so low that there is no vapour, °C.
const NO_VAPOUR_DEW_POINT_C: f64 = -230.0;

/// Why no rest was found.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error(
    "the steady state was not found: after {steps} steps a temperature still moves by {change_k:.1e} K"
)]
pub struct SteadyError {
    /// Steps made.
    pub steps: usize,
    /// The last change, K.
    pub change_k: f64,
}

/// The states where the night would settle, from these states, with these heaters on.
///
/// *Errors*: the iteration does not settle.
pub fn steady(net: &Network, from: &[f64], on: &[f64]) -> Result<Vec<f64>, SteadyError> {
    let ix = &net.index;
    let mut balance = Balance::new(net);
    for (heater, &on) in on.iter().enumerate() {
        balance.switch(heater, on > 0.0);
    }
    let mut outdoors_c = 0.0;
    for (which, curve) in net.inputs.iter().enumerate() {
        let (mut value, _) = curve.at(net.departure_s);
        if which == 0 {
            outdoors_c = value;
        }
        if which == 1 {
            let dew_point = net.laws.hangar_vapour.iter().any(|h| h.law.dew_point);
            value = if dew_point {
                NO_VAPOUR_DEW_POINT_C
            } else {
                0.0
            };
        }
        balance.set_input(which, value);
    }
    let mut states = from.to_vec();
    states[ix.hangar()] = outdoors_c;
    for wall in 0..ix.films {
        states[ix.film(wall)] = 0.0;
    }
    for pocket in 0..ix.pockets {
        states[ix.vapour(pocket)] = 0.0;
    }
    if ix.gas {
        states[ix.gas_vapour()] = 0.0;
    }
    if ix.oil_water {
        states[ix.oil_water()] = 0.0;
    }

    let unknowns = ix.unknowns();
    let (mut square, mut pairs) = (Vec::new(), Vec::new());
    for (at, e) in balance.entries().iter().enumerate() {
        if e.row < unknowns && e.column < unknowns {
            square.push(at);
            pairs.push((e.row, e.column));
        }
    }
    let mut factor = Factor::new(unknowns, |u| net.in_border(u), &pairs);
    let mut rhs = vec![0.0; unknowns];
    let mut diagonal = vec![0.0; unknowns];
    let mut step = FIRST_STEP_S;
    let mut change_k = f64::INFINITY;
    for steps in 0..MOST_STEPS {
        let failed = SteadyError { steps, change_k };
        let rates = balance
            .rates_given_inputs(&states)
            .map_err(|_| failed.clone())?;
        rhs.copy_from_slice(&rates[..unknowns]);
        rhs[ix.states()..].fill(0.0);
        balance.solve_algebraic();
        for (d, capacity) in diagonal.iter_mut().zip(&net.capacities) {
            *d = capacity / step;
        }
        let slopes = balance.slopes();
        factor
            .factor(square.iter().map(|&at| slopes[at]), &diagonal)
            .map_err(|_| failed)?;
        factor.solve(&mut rhs);
        let dry = (0..ix.states()).filter(|&i| !is_water(net, i));
        change_k = largest_size(dry.map(|i| rhs[i]));
        if !change_k.is_finite() || change_k > TRUSTED_K {
            step *= 0.1;
            continue;
        }
        for (state, change) in states.iter_mut().zip(&rhs) {
            *state += change;
        }
        if step >= LONGEST_STEP_S && change_k < SETTLED_K {
            return Ok(states);
        }
        step = (step * GROWTH).min(LONGEST_STEP_S);
    }
    Err(SteadyError {
        steps: MOST_STEPS,
        change_k,
    })
}

fn is_water(net: &Network, state: usize) -> bool {
    use crate::trace::ColumnKind::{Film, GasVapour, OilWater, PocketVapour};
    matches!(
        net.legend.columns[state].kind,
        Film | GasVapour | OilWater | PocketVapour
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::laws::{Bonded, Law, Laws, Link, Term};
    use crate::network::Index;
    use crate::network::graph::HeaterSwitch;
    use crate::network::surroundings::Curve;
    use crate::trace::{Column, ColumnKind};

    /// Two blocks of 20 kJ/K that lose 2 and 5 W/K to a hangar as cold as outdoors, -15 °C; 30 W on the first.
    fn two_blocks() -> Network {
        let index = Index {
            cells: 2,
            inputs: 2,
            books: 1,
            ..Index::default()
        };
        let (hangar, book) = (index.hangar(), index.book(0));
        let loses =
            |cell: usize, w_per_k: f64| Link { w_per_k }.between([cell, hangar], [cell, book]);
        let follows = |column: usize, factor: f64| Term::new(hangar, column, factor);
        let mut net = Network {
            capacities: vec![20e3, 20e3, 1.0],
            laws: Laws {
                links: vec![loses(0, 2.0), loses(1, 5.0)],
                impacts: vec![follows(hangar, -1e-3), follows(index.input(0), 1e-3)],
                bonded: vec![
                    Bonded {
                        heater: 0,
                        rated_w: 30.0,
                        limits_c: None,
                    }
                    .between([0], [0, book]),
                ],
                ..Laws::default()
            },
            inputs: vec![Curve::steady(-15.0), Curve::steady(0.8)],
            heaters: vec![HeaterSwitch::default()],
            index,
            ..Network::default()
        };
        net.legend.columns = (0..3)
            .map(|_| Column {
                key: String::new(),
                label: String::new(),
                kind: ColumnKind::CellTemperature,
            })
            .collect();
        net
    }

    /// Watts over watts per kelvin.
    #[test]
    fn a_heated_block_settles_where_it_loses_what_it_gets() {
        for (on, first_c) in [(1.0, 0.0), (0.0, -15.0)] {
            let settled = steady(&two_blocks(), &[40.0, 3.0, -9.0], &[on]).unwrap();
            for (found, expected) in settled.iter().zip([first_c, -15.0, -15.0]) {
                assert!((found - expected).abs() < 1e-6, "{settled:?}");
            }
        }
    }

    #[test]
    fn a_block_of_no_temperature_never_settles() {
        for cell in 0..2 {
            let mut from = [40.0, 3.0, -9.0];
            from[cell] = f64::NAN;
            assert!(
                steady(&two_blocks(), &from, &[1.0]).is_err(),
                "block {cell}"
            );
        }
    }
}
