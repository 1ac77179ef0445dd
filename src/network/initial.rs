//! The state at the beginning of the night.

use super::frame::Frame;
use super::graph::Network;
use crate::physics::vapour;
use crate::scenario::initial::InitialTemperature;
use crate::scenario::part::AfterFlight;
use crate::scenario::weather::Weather;

/// How far the dew point inside a cold-soaked engine lies under its temperature, K (estimate,
/// 0 to 3: the air inside has had days to dry on its coldest wall).
const COLD_DEW_POINT_DEPRESSION_K: f64 = 1.0;
/// Dew point inside just after a flight, °C (estimate, 30 to 50: combustion water in the blow-by).
const HOT_DEW_POINT_C: f64 = 40.0;

/// Sets the state at the beginning.
pub fn set(frame: &Frame, net: &mut Network) {
    let scenario = frame.checked.scenario();
    let ix = &frame.index;
    let hangar_c = scenario.hangar.start.map_or_else(
        || net.inputs[super::frame::OUTDOORS].at(0.0).0,
        |t| t.celsius(),
    );
    let vapour_outdoors = outdoor_vapour(frame, net);
    let vapour_hangar = vapour_outdoors.min(vapour::saturation_density_g_per_m3(hangar_c));
    let warmth = &scenario.initial.temperature;

    let warm = |after: AfterFlight, name: &str| match warmth {
        InitialTemperature::cold_soaked => hangar_c,
        InitialTemperature::after_flight { .. } => match after {
            AfterFlight::at(t) => t.celsius(),
            AfterFlight::above_hangar(step) => hangar_c + step.kelvin(),
        },
        InitialTemperature::values { all, parts } => parts.get(name).unwrap_or(all).celsius(),
    };
    for (part, cut) in frame.body.parts.iter().zip(&frame.cuts) {
        for cell in cut.cells() {
            net.initial[cell] = warm(part.after_flight, &part.name);
        }
    }
    for (number, pocket) in frame.body.air_volumes.iter().enumerate() {
        net.initial[ix.pocket(number)] = warm(pocket.after_flight, &pocket.name);
        net.initial[ix.vapour(number)] = vapour_hangar;
    }
    net.initial[ix.hangar()] = hangar_c;
    if let Some(room) = &frame.body.crankcase_gas {
        let gas_c = warm(room.after_flight, "gas");
        let dew_c = match warmth {
            InitialTemperature::cold_soaked => hangar_c - COLD_DEW_POINT_DEPRESSION_K,
            InitialTemperature::after_flight { .. } => HOT_DEW_POINT_C,
            InitialTemperature::values { all, .. } => all.celsius() - COLD_DEW_POINT_DEPRESSION_K,
        };
        net.initial[ix.gas_temperature()] = gas_c;
        net.initial[ix.gas_vapour()] =
            vapour::density_g_per_m3(vapour::saturation_pressure_pa(dew_c), gas_c);
        if ix.oil_water {
            net.initial[ix.oil_water()] = scenario.initial.water_in_oil.si() * 1e3;
        }
    }
}

/// Vapour density outdoors when the night begins, g/m3.
fn outdoor_vapour(frame: &Frame, net: &Network) -> f64 {
    let [temp, humidity] =
        [super::frame::OUTDOORS, super::frame::HUMIDITY].map(|input| net.inputs[input].at(0.0).0);
    let saturated = vapour::saturation_density_g_per_m3(temp);
    match frame.checked.scenario().weather {
        Weather::steady { .. } => humidity * saturated,
        Weather::recorded(_) => {
            let pressure = vapour::saturation_pressure_over_water_pa(humidity);
            vapour::density_g_per_m3(pressure, temp).min(saturated)
        }
    }
}
