//! The order in which the laws are met.

use super::law::Visitor;

/// Means over cells and pockets, and the hangar's vapour.
pub fn visit_means(v: &mut impl Visitor) {
    v.visit(|l| &l.means);
    v.visit(|l| &l.hangar_vapour);
}

/// Everything that moves air or is carried by it, the heaters included.
pub fn visit_streams(v: &mut impl Visitor) {
    v.visit(|l| &l.passages);
    v.visit(|l| &l.gaps);
    v.visit(|l| &l.exchanges);
    v.visit(|l| &l.fin_carries);
    v.visit(|l| &l.fin_cells);
    v.visit(|l| &l.heater_terms);
    v.visit(|l| &l.heater_constants);
    v.visit(|l| &l.heater_vapours);
}

/// The walls of the air inside, the oil surface and the vent.
pub fn visit_gas(v: &mut impl Visitor) {
    v.visit(|l| &l.wall_films);
    v.visit(|l| &l.oil_surfaces);
    v.visit(|l| &l.vents);
}

/// Everything that needs the draughts and the heat to the gas.
pub fn visit_rest(v: &mut impl Visitor) {
    v.visit(|l| &l.breathings);
    v.visit(|l| &l.links);
    v.visit(|l| &l.oil_links);
    v.visit(|l| &l.radiations);
    v.visit(|l| &l.surfaces);
    v.visit(|l| &l.fins);
    v.visit(|l| &l.outdoors);
    v.visit(|l| &l.power_faces);
    v.visit(|l| &l.bonded);
    v.visit(|l| &l.feeds);
}

/// All laws, each once.
pub fn visit_all(v: &mut impl Visitor) {
    visit_means(v);
    v.visit(|l| &l.fan_watts);
    v.visit(|l| &l.impacts);
    v.visit(|l| &l.fin_streams);
    visit_streams(v);
    v.visit(|l| &l.draughts);
    visit_gas(v);
    v.visit(|l| &l.gas_heat);
    visit_rest(v);
}
