//! What is stored in a state.

use crate::balance::{stored_j, water_g};
use crate::network::{Index, Network};
use crate::physics::vapour::LATENT_HEAT_J_PER_G as LATENT;

/// One of everything: heat capacities are 1, 2, 3 ..., and each state is ten times a power of two.
fn all(gas: bool, oil_water: bool) -> (Network, Vec<f64>) {
    let index = Index {
        cells: 2,
        films: 2,
        pockets: 2,
        gas,
        oil_water,
        ..Index::default()
    };
    let count = index.states();
    let net = Network {
        capacities: (1..=count).map(|i| i as f64).collect(),
        index,
        ..Network::default()
    };
    let states = (0..count).map(|i| 10.0 * f64::from(1 << i)).collect();
    (net, states)
}

/// Cells 1·10 + 2·20, pockets 5·160 + 6·320, gas 9·2560 and its vapour's latent heat; films, vapours and oil hold none.
#[test]
fn heat_is_stored_in_cells_and_air_and_as_the_latent_heat_of_vapour_inside() {
    let solids_and_pockets = 10.0 + 40.0 + 800.0 + 1920.0;
    let (net, states) = all(false, false);
    assert_eq!(stored_j(&net, &states), solids_and_pockets);
    let (net, states) = all(true, true);
    let gas = 9.0 * 2560.0 + LATENT * 10.0 * 5120.0;
    assert!((stored_j(&net, &states) - (solids_and_pockets + gas)).abs() < 1e-6);
}

/// Films 3·40 + 4·80, vapours of pockets 7·640 + 8·1280, of the gas 10·5120, oil 11·10240.
#[test]
fn water_is_in_films_in_vapours_and_in_the_oil() {
    let films_and_pockets = 120.0 + 320.0 + 4480.0 + 10240.0;
    let (net, states) = all(false, false);
    assert_eq!(water_g(&net, &states), films_and_pockets);
    let (net, states) = all(true, false);
    assert_eq!(water_g(&net, &states), films_and_pockets + 51200.0);
    let (net, states) = all(true, true);
    assert_eq!(
        water_g(&net, &states),
        films_and_pockets + 51200.0 + 112640.0
    );
    let (net, states) = all(false, true);
    assert_eq!(water_g(&net, &states), films_and_pockets + 9.0 * 2560.0);
}
