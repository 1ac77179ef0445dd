//! A network with nine of every kind of law: enough that some go side by side and some are left over, and of mixed choices.
//!
//! It is no engine: sizes and places are whatever makes every law say something, and differ from one element to the next.

mod air;
mod heat;
mod places;

use crate::network::graph::{Auxiliaries, HeaterSwitch, PocketColumns};
use crate::network::surroundings::Curve;
use crate::network::{Index, Network};
use air::air;
use heat::heat;
use places::Places;

/// The network, with sizes that grow with `more`.
pub fn all_laws_network(more: f64) -> Network {
    let at = Places(Index {
        cells: 10,
        films: 2,
        pockets: 3,
        gas: true,
        oil_water: true,
        auxiliaries: 12,
        inputs: 3,
        books: 4,
    });
    let pocket = |n: usize| PocketColumns {
        pressure: at.pressure(n),
        air_speed: at.air_speed(n),
        air_speed_scale: more * (0.02 + 0.01 * n as f64),
        pinned: false,
    };
    let inputs = [(-12.0, 2.0), (0.7, 0.05), (0.4, 0.3)].map(|(value, by)| {
        Curve::through([
            (0.0, value),
            (3600.0, value + by * more),
            (7200.0, value - by),
        ])
    });
    let (air, mut laws) = (air(&at, more), heat(&at, more));
    laws.hangar_vapour = air.hangar_vapour;
    laws.fin_streams = air.fin_streams;
    laws.passages = air.passages;
    laws.gaps = air.gaps;
    laws.exchanges = air.exchanges;
    laws.fin_carries = air.fin_carries;
    laws.heater_vapours = air.heater_vapours;
    laws.air_speeds = air.air_speeds;
    laws.vents = air.vents;
    laws.breathings = air.breathings;
    Network {
        capacities: vec![100.0 * more; at.0.states()],
        initial: initial(&at.0, more),
        laws,
        pockets: (0..3).map(pocket).collect(),
        auxiliaries: Auxiliaries {
            means: vec![at.mean(), at.hangar_vapour()],
            watts: vec![at.watts()],
            impacts: vec![at.impact()],
            fin_streams: vec![at.stream()],
            gas_heat: Some(at.heat()),
        },
        inputs: inputs.to_vec(),
        heaters: vec![HeaterSwitch::default(); 2],
        index: at.0,
        ..Network::default()
    }
}

fn initial(ix: &Index, more: f64) -> Vec<f64> {
    let mut states: Vec<f64> = (0..ix.states())
        .map(|i| 40.0 * more * (i as f64).sin() - 5.0)
        .collect();
    for (i, state) in states.iter_mut().enumerate() {
        let water = (ix.sparse() - ix.films..ix.sparse()).contains(&i)
            || (ix.vapour(0)..ix.vapour(0) + ix.pockets).contains(&i)
            || i == ix.gas_vapour()
            || i == ix.oil_water();
        if water {
            *state = 2.0 + state.abs() / 10.0;
        }
    }
    states
}
