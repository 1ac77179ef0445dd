//! The order in which the laws are met, and the plain visitor that adds up their values.

use super::law::{Law, Visitor};
use crate::network::graph::Laws;
use crate::physics::number::Number;

/// Means over cells and pockets, and the hangar's vapour.
pub fn visit_means(laws: &Laws, v: &mut impl Visitor) {
    v.visit_each(&laws.means);
    v.visit_each(&laws.hangar_vapour);
}

/// Everything that moves air or is carried by it, the heaters included.
pub fn visit_streams(laws: &Laws, v: &mut impl Visitor) {
    v.visit_each(&laws.passages);
    v.visit_each(&laws.gaps);
    v.visit_each(&laws.exchanges);
    v.visit_each(&laws.fin_carries);
    v.visit_each(&laws.fin_cells);
    v.visit_each(&laws.heater_terms);
    v.visit_each(&laws.heater_constants);
    v.visit_each(&laws.heater_vapours);
}

/// The walls of the air inside, the oil surface and the vent.
pub fn visit_gas(laws: &Laws, v: &mut impl Visitor) {
    v.visit_each(&laws.wall_films);
    v.visit_each(&laws.oil_surfaces);
    v.visit_each(&laws.vents);
}

/// Everything that needs the draughts and the heat to the gas.
pub fn visit_rest(laws: &Laws, v: &mut impl Visitor) {
    v.visit_each(&laws.breathings);
    v.visit_each(&laws.links);
    v.visit_each(&laws.oil_links);
    v.visit_each(&laws.radiations);
    v.visit_each(&laws.surfaces);
    v.visit_each(&laws.fins);
    v.visit_each(&laws.outdoors);
    v.visit_each(&laws.power_faces);
    v.visit_each(&laws.bonded);
    v.visit_each(&laws.feeds);
}

/// All laws, each once.
pub fn visit_all(laws: &Laws, v: &mut impl Visitor) {
    visit_means(laws, v);
    v.visit_each(&laws.fan_watts);
    v.visit_each(&laws.impacts);
    v.visit_each(&laws.fin_streams);
    visit_streams(laws, v);
    v.visit_each(&laws.draughts);
    visit_gas(laws, v);
    v.visit_each(&laws.gas_heat);
    visit_rest(laws, v);
}

/// Adds what each law gives to its rows.
pub struct Values<'a, T> {
    /// All columns.
    pub x: &'a [T],
    /// Which heaters are on.
    pub on: &'a [f64],
    /// All rows.
    pub out: &'a mut [T],
}

impl<T: Number> Visitor for Values<'_, T> {
    fn visit<const K: usize, const R: usize, L: Law<K, R>>(&mut self, law: &L) {
        let x = law.columns().map(|c| self.x[c]);
        for (row, value) in law.rows().into_iter().zip(law.apply(x, self.on)) {
            self.out[row] = self.out[row] + value;
        }
    }
}
