//! What heaters give.

use super::gives;
use crate::laws::{Bonded, FanWatts, HeaterConstant, HeaterTerm, HeaterVapour};
use crate::physics::air::density_kg_per_m3 as rho;

/// from 20 °C: `W = 250 (60 - W/10)/80`, so W = 142.857.
#[test]
fn heaters_give_while_they_are_on_and_limit_themselves() {
    for (heater, on) in [(0, 0.0), (1, 1.0)] {
        let factor = 2.0;
        gives(&HeaterTerm { heater, factor }, [3.0], [6.0 * on]);
        gives(&HeaterConstant { heater, value: 5.0 }, [], [5.0 * on]);
        let blown = HeaterVapour {
            heater,
            kg_per_s: 0.01,
        };
        let moved = on * 0.01 * 4.0 / rho(20.0);
        gives(&blown, [20.0, 4.0], [-moved, moved]);
        let element = |limits_c| Bonded {
            heater,
            rated_w: 250.0,
            limits_c,
        };
        gives(&element(None), [200.0], [250.0 * on; 2]);
        for (cell, watts) in [(-9.0, 250.0), (20.0, 187.5), (40.0, 125.0), (90.0, 0.0)] {
            gives(&element(Some([0.0, 80.0])), [cell], [watts * on; 2]);
        }
        gives(&element(Some([20.0, 60.0])), [40.0], [125.0 * on; 2]);
    }
    let fan = |limits_c| FanWatts {
        rated_w: 250.0,
        flow_w_per_k: 10.0,
        limits_c,
    };
    gives(&fan(None), [100.0, 20.0], [150.0]);
    for (intake, watts) in [(-50.0, 250.0), (20.0, 142.857), (90.0, 0.0)] {
        gives(&fan(Some([0.0, 80.0])), [0.0, intake], [watts]);
    }
    // Full up to 30 °C: W = 250 (60 - W/10)/50, so W = 200.
    gives(&fan(Some([30.0, 80.0])), [0.0, 20.0], [200.0]);
}
