//! A heater's outlet and its jet against CoolProp enthalpies and ht.

use coldsoak::physics::air::HEAT_CAPACITY_J_PER_KGK;
use coldsoak::physics::jet::*;

use super::table::{assert_agrees, numbers};

/// CoolProp 8.0.0, dry air at 101325 Pa.
const AIR: &str = include_str!("reference/air.csv");
/// ht 1.2.0: effectiveness against transfer units.
const EXCHANGER: &str = include_str!("reference/exchanger.csv");
/// The heat capacity is held constant: share of a rise.
const CONSTANT_CAPACITY: f64 = 1e-3;

fn enthalpy_j_per_kg(temp_c: f64) -> f64 {
    numbers(AIR)
        .into_iter()
        .find(|row| row[0] == temp_c)
        .unwrap()[8]
}

#[test]
fn a_heater_raises_the_enthalpy_by_its_watts() {
    let flow = 0.0075;
    for (inlet, outlet) in [(-30.0, 10.0), (-10.0, 30.0), (0.0, 60.0)] {
        let watts = flow * (enthalpy_j_per_kg(outlet) - enthalpy_j_per_kg(inlet));
        let jet = Impact::of(flow * HEAT_CAPACITY_J_PER_KGK, 0.0, 1.0);
        assert_eq!((jet.intake, jet.local), (1.0, 0.0));
        assert_agrees(jet.k_per_w * watts, outlet - inlet, CONSTANT_CAPACITY);
        // A duct that loses a fifth of the watts on its way.
        let jet = Impact::of(flow * HEAT_CAPACITY_J_PER_KGK, 0.0, 0.8);
        assert_agrees(
            jet.k_per_w * watts,
            0.8 * (outlet - inlet),
            CONSTANT_CAPACITY,
        );
    }
}

#[test]
fn a_jet_and_what_it_drags_along_keep_their_enthalpy() {
    // Mixed so that the enthalpies meet at 10 degC: the entrainment is CoolProp's, the mix ours.
    for (jet, local) in [(60.0, -10.0), (40.0, -20.0)] {
        let meet = enthalpy_j_per_kg(10.0);
        let entrainment = (enthalpy_j_per_kg(jet) - meet) / (meet - enthalpy_j_per_kg(local));
        let inlet = -5.0;
        let flow_w_per_k = 7.5;
        let impact = Impact::of(flow_w_per_k, entrainment, 1.0);
        let watts = flow_w_per_k * (jet - inlet);
        let found = impact.intake * inlet + impact.k_per_w * watts + impact.local * local;
        assert!(
            (found - 10.0).abs() < CONSTANT_CAPACITY * (jet - local),
            "{found}"
        );
    }
}

#[test]
fn struck_metal_takes_the_share_of_a_heat_exchanger() {
    // share x NTU is the effectiveness of one stream past walls of even temperature.
    for row in numbers(EXCHANGER) {
        let mass = 0.0075 * 1.95;
        let ua = row[0] * mass * HEAT_CAPACITY_J_PER_KGK;
        assert_agrees(strike_share(ua, mass) * row[0], row[1], 1e-9);
    }
}
