//! Which networks can be worked on together.

use super::all_laws_network::all_laws_network;
use crate::balance::same_structure;
use crate::network::Network;
use crate::physics::convection::Facing;

#[test]
fn networks_that_differ_in_sizes_only_are_alike() {
    assert!(same_structure(
        &all_laws_network(1.0),
        &all_laws_network(1.3)
    ));
}

#[test]
fn networks_that_differ_in_more_than_sizes_are_not_alike() {
    let changes: [fn(&mut Network); 15] = [
        |net| net.laws.links[8].columns[1] += 1,
        |net| net.laws.links[8].rows[1] += 1,
        |net| net.laws.links.truncate(8),
        |net| net.laws.surfaces[1].law.facing = Facing::Up,
        |net| net.laws.heater_terms[3].law.heater = 0,
        |net| net.laws.heater_constants[3].law.heater = 0,
        |net| net.laws.bonded[1].law.limits_c = Some([0.0, 80.0]),
        |net| net.laws.feeds.clear(),
        |net| net.index.cells += 1,
        |net| net.auxiliaries.gas_heat = None,
        |net| net.pockets[1].pinned = true,
        |net| net.pockets[1].pressure += 1,
        |net| net.pockets[1].air_speed += 1,
        |net| net.inputs.truncate(2),
        |net| net.heaters.truncate(1),
    ];
    for (number, change) in changes.into_iter().enumerate() {
        let (own, mut other) = (all_laws_network(1.0), all_laws_network(1.0));
        change(&mut other);
        assert!(!same_structure(&own, &other), "change {number}");
        assert!(!same_structure(&other, &own), "change {number}");
    }
}
