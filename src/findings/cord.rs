//! What a cord takes of the voltage and of the power.

use crate::physics::wire::ohm_per_m;
use crate::scenario::circuit::Cord;
use serde::Serialize;

/// The temperature a cord's wires are taken at, °C: tables are made for it. Warm wires lose 0.4 percent more a kelvin.
const CORD_C: f64 = 20.0;
/// A drop above this share of the mains is worth a word. *Source*: NEC 210.19(A), informational note (from memory).
pub const DROP_WORTH_A_WORD: f64 = 0.03;

/// What a cord takes when the largest current of the heaters runs through it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CordFinding {
    /// Its length, one way, m.
    pub length_m: f64,
    /// The gauge of its wires.
    pub gauge_awg: u32,
    /// The voltage lost in both wires, V.
    pub drop_v: f64,
    /// That voltage over the mains.
    pub drop_share: f64,
    /// The share of its rated power that a resistive heater is left with.
    pub power_share: f64,
}

impl CordFinding {
    /// What a cord takes at a current.
    ///
    /// ```text
    /// drop = 2 L R I        power left = (1 - drop/V)^2
    /// ```
    ///
    /// The current is the rated one, so a long thin cord takes a little less than given. The night itself is computed
    /// with the full power. *Checked by* `the_published_drops_come_out`, within 0.3 percent.
    pub(super) fn of(cord: Cord, amps: f64, volts: f64) -> Self {
        let length_m = cord.length.si();
        let drop_v = 2.0 * length_m * ohm_per_m(cord.gauge_awg, CORD_C) * amps;
        let left = (1.0 - drop_v / volts).max(0.0);
        Self {
            length_m,
            gauge_awg: cord.gauge_awg,
            drop_v,
            drop_share: drop_v / volts,
            power_share: left * left,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Length;

    /// Drops on 120 V worked out from wire tables (2 x length x ohm/m x A; ohm/m as tested in `physics::wire`):
    /// 50 ft of 18 AWG at 5 A lose 3.19 V (2.66 percent), of 14 AWG at 10 A 2.53 V, 100 ft of 12 AWG at 12.5 A 3.97 V.
    #[test]
    fn the_published_drops_come_out() {
        for (feet, gauge_awg, amps, drop_v) in [
            (50.0, 18, 5.0, 3.19),
            (50.0, 14, 10.0, 2.53),
            (100.0, 12, 12.5, 3.97),
        ] {
            let length = Length::ft(feet);
            let found = CordFinding::of(Cord { length, gauge_awg }, amps, 120.0);
            assert!((found.drop_v / drop_v - 1.0).abs() < 3e-3, "{found:?}");
            assert!((found.drop_share - found.drop_v / 120.0).abs() < 1e-12);
        }
    }

    /// A drop of 5 percent leaves a resistive heater 90 percent of its power (power falls as the voltage squared).
    #[test]
    fn a_drop_of_five_percent_leaves_ninety_percent_of_the_power() {
        let at_one = CordFinding::of(
            Cord {
                length: Length::m(100.0),
                gauge_awg: 14,
            },
            1.0,
            120.0,
        );
        let found = CordFinding::of(
            Cord {
                length: Length::m(100.0),
                gauge_awg: 14,
            },
            6.0 / at_one.drop_v,
            120.0,
        );
        assert!((found.power_share - 0.9025).abs() < 1e-12, "{found:?}");
    }
}
