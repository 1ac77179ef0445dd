//! What is stored in a state: joules and grams.

use crate::network::Network;
use crate::physics::vapour::LATENT_HEAT_J_PER_G;

/// Energy stored over 0 °C, J: sensible heat of cells, pockets and gas, latent heat of the vapour inside.
pub fn stored_j(net: &Network, states: &[f64]) -> f64 {
    let ix = &net.index;
    let sensible = |column: usize| net.capacities[column] * states[column];
    let solids: f64 = (0..ix.cells).map(sensible).sum();
    let air: f64 = (0..ix.pockets).map(|p| sensible(ix.pocket(p))).sum();
    let inside = if ix.gas {
        sensible(ix.gas_temperature()) + LATENT_HEAT_J_PER_G * sensible(ix.gas_vapour())
    } else {
        0.0
    };
    solids + air + inside
}

/// Water in films, oil, gas and pockets, g.
pub fn water_g(net: &Network, states: &[f64]) -> f64 {
    let ix = &net.index;
    let held = |column: usize| net.capacities[column] * states[column];
    let films: f64 = (0..ix.films).map(|w| held(ix.film(w))).sum();
    let air: f64 = (0..ix.pockets).map(|p| held(ix.vapour(p))).sum();
    let gas = if ix.gas { held(ix.gas_vapour()) } else { 0.0 };
    let oil = if ix.oil_water {
        held(ix.oil_water())
    } else {
        0.0
    };
    films + air + gas + oil
}
