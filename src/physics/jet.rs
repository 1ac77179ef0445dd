//! What a heater's jet brings: its outlet temperature, the temperature it strikes with, and the share
//! of it that the struck metal can take.
//!
//! A jet drags surrounding air along and arrives cooler than it left. The struck parts are a heat
//! exchanger: however large their surfaces, they cannot take more than the jet carries.

use super::air::HEAT_CAPACITY_J_PER_KGK;
use super::number::Number;

/// Temperature in °C with which a jet strikes, after mixing with the air it drags along.
///
/// ```text
/// T_imp = (T_jet + entrain T_loc) / (1 + entrain)
/// ```
///
/// *Valid*: `entrain`, the mass dragged along per mass blown, zero or more.
/// *Source*: energy balance at constant heat capacity; checked in `tests/physics/jet.rs` against
/// CoolProp 8.0.0 enthalpies, error found under 0.1 % of the difference.
pub fn impact_temperature_c<T: Number>(outlet_c: T, local_c: T, entrain: f64) -> T {
    (outlet_c + local_c * entrain) / (1.0 + entrain)
}

/// What is left of the struck surfaces' conductance because the jet cools as it passes them, 0 to 1.
///
/// ```text
/// share = (1 - exp(-NTU)) / NTU,   NTU = UA / (m cp)
/// ```
///
/// with UA the sum over all struck parts and m the stream with what it drags along.
///
/// *Valid*: any; one where nothing is struck, zero where nothing blows.
/// *Source*: Kays and London 1984 (from memory), one stream past surfaces of even temperature; checked in
/// `tests/physics/jet.rs` against ht 1.2.0, error found under 1e-12.
pub fn strike_share(ua_total_w_per_k: f64, mass_total_kg_per_s: f64) -> f64 {
    if ua_total_w_per_k <= 0.0 {
        return 1.0;
    }
    let ntu = ua_total_w_per_k / (mass_total_kg_per_s * HEAT_CAPACITY_J_PER_KGK);
    -(-ntu).exp_m1() / ntu
}

/// Temperature in °C of the air leaving a fan heater.
///
/// ```text
/// T_jet = T_in + W / (flow cp)
/// ```
///
/// *Valid*: flow in kg/s, above zero.
/// *Source*: energy balance; checked in `tests/physics/jet.rs` against CoolProp 8.0.0 enthalpies,
/// error found under 0.1 % of the rise.
pub fn heater_outlet_c<T: Number>(inlet_c: T, watts: T, flow_kg_per_s: f64) -> T {
    inlet_c + watts / (flow_kg_per_s * HEAT_CAPACITY_J_PER_KGK)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::dual::Dual;
    use proptest::prelude::*;

    #[test]
    fn a_jet_striking_nothing_or_blowing_nothing_is_no_accident() {
        assert!(strike_share(0.0, 0.01) == 1.0);
        assert!(strike_share(12.0, 0.0) == 0.0);
        assert!((strike_share(1e-12, 1.0) - 1.0).abs() < 1e-15);
    }

    #[test]
    fn watts_and_warmth_have_their_slopes() {
        let out = heater_outlet_c(
            Dual::<2>::variable(-5.0, 0),
            Dual::variable(250.0, 1),
            0.0075,
        );
        assert!(out.slopes[0] == 1.0 && (out.slopes[1] - 1.0 / 7.545).abs() < 1e-12);
        let strike =
            impact_temperature_c(Dual::<2>::variable(30.0, 0), Dual::variable(0.0, 1), 0.95);
        assert!((strike.slopes[0] - 1.0 / 1.95).abs() < 1e-15);
        assert!((strike.slopes[0] + strike.slopes[1] - 1.0).abs() < 1e-15);
    }

    proptest! {
        #[test]
        fn struck_metal_takes_no_more_than_the_jet_carries(
            ua in 1e-3..1e3_f64, mass in 1e-4..0.1_f64,
        ) {
            let taken = ua * strike_share(ua, mass);
            prop_assert!(taken <= ua * (1.0 + 1e-12));
            prop_assert!(taken <= mass * HEAT_CAPACITY_J_PER_KGK * (1.0 + 1e-12));
        }

        #[test]
        fn mixing_makes_no_heat(jet in -20.0..90.0_f64, local in -30.0..30.0_f64, e in 0.0..3.0_f64) {
            let strike = impact_temperature_c(jet, local, e);
            prop_assert!((strike * (1.0 + e) - jet - local * e).abs() < 1e-11);
            prop_assert!(strike <= jet.max(local) + 1e-12 && strike >= jet.min(local) - 1e-12);
        }
    }
}
