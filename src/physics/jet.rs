//! What a heater's jet brings: its outlet temperature, the temperature it strikes with, and the share
//! of it that the struck metal can take.
//!
//! A jet drags surrounding air along and arrives cooler than it left. The struck parts are a heat
//! exchanger: however large their surfaces, they cannot take more than the jet carries.

use super::air::HEAT_CAPACITY_J_PER_KGK;

/// What the temperature with which a jet strikes is made of: linear in what the fan draws, what the element gives, and what
/// the jet drags along.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Impact {
    /// Of the temperature at the intake.
    pub intake: f64,
    /// Of the watts, K/W.
    pub k_per_w: f64,
    /// Of the temperature around the jet.
    pub local: f64,
}

impl Impact {
    /// That of a jet through a heater, with `delivered` of its watts still in it where it leaves, after mixing with the
    /// air it drags along.
    ///
    /// ```text
    /// T_jet = T_in + delivered W / (flow cp)
    /// T_imp = (T_jet + entrainment T_loc) / (1 + entrainment)
    /// ```
    ///
    /// *Valid*: `flow_w_per_k`, the stream times its heat capacity, above zero; `entrainment`, the mass dragged along per mass
    /// blown, zero or more.
    /// *Source*: energy balance at constant heat capacity; checked in `tests/physics/jet.rs` against
    /// CoolProp 8.0.0 enthalpies, error found under 0.1 % of the rise or the difference.
    pub fn of(flow_w_per_k: f64, entrainment: f64, delivered: f64) -> Self {
        let whole = 1.0 + entrainment;
        Self {
            intake: 1.0 / whole,
            k_per_w: delivered / (flow_w_per_k * whole),
            local: entrainment / whole,
        }
    }
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

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_jet_striking_nothing_or_blowing_nothing_is_no_accident() {
        assert!(strike_share(0.0, 0.01) == 1.0);
        assert!(strike_share(12.0, 0.0) == 0.0);
        assert!((strike_share(1e-12, 1.0) - 1.0).abs() < 1e-15);
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
        fn mixing_makes_no_heat(
            intake in -20.0..90.0_f64, watts in 0.0..2000.0_f64, local in -30.0..30.0_f64, e in 0.0..3.0_f64,
        ) {
            let impact = Impact::of(7.5, e, 0.8);
            let strike = impact.intake * intake + impact.k_per_w * watts + impact.local * local;
            prop_assert!((7.5 * (strike * (1.0 + e) - intake - local * e) - 0.8 * watts).abs() < 1e-9);
        }
    }
}
