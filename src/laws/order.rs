//! The order in which the laws are met.

use super::element::{Element, Law};
use super::list::Laws;

/// Something done with every law in turn, always in the same order.
pub trait Visitor {
    /// Meets the laws of one kind.
    fn visit<const K: usize, const R: usize, L: Law<K, R> + 'static>(
        &mut self,
        pick: impl Fn(&Laws) -> &[Element<L, K, R>],
    );
}

/// Laws that are met one after another without anything being found from them in between.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stage {
    /// Means over cells and pockets, and the hangar's vapour.
    Means,
    /// The watts of fan heaters.
    FanWatts,
    /// The temperatures that struck things feel.
    Impacts,
    /// The streams between fins.
    FinStreams,
    /// Everything that moves air or is carried by it, the heaters included.
    Streams,
    /// The air speeds, from the streams.
    AirSpeeds,
    /// The walls of the air inside, the oil surface and the vent.
    Gas,
    /// The heat to the air inside.
    GasHeat,
    /// Everything that needs the air speeds and the heat to the gas.
    Rest,
}

/// The laws of one stage.
pub fn visit(stage: Stage, v: &mut impl Visitor) {
    match stage {
        Stage::Means => {
            v.visit(|l| &l.means);
            v.visit(|l| &l.hangar_vapour);
        }
        Stage::FanWatts => v.visit(|l| &l.fan_watts),
        Stage::Impacts => v.visit(|l| &l.impacts),
        Stage::FinStreams => v.visit(|l| &l.fin_streams),
        Stage::Streams => {
            v.visit(|l| &l.passages);
            v.visit(|l| &l.gaps);
            v.visit(|l| &l.exchanges);
            v.visit(|l| &l.fin_carries);
            v.visit(|l| &l.fin_cells);
            v.visit(|l| &l.heater_terms);
            v.visit(|l| &l.heater_constants);
            v.visit(|l| &l.heater_vapours);
        }
        Stage::AirSpeeds => v.visit(|l| &l.air_speeds),
        Stage::Gas => {
            v.visit(|l| &l.wall_films);
            v.visit(|l| &l.oil_surfaces);
            v.visit(|l| &l.vents);
        }
        Stage::GasHeat => v.visit(|l| &l.gas_heat),
        Stage::Rest => {
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
    }
}

/// All laws, each once.
pub fn visit_all(v: &mut impl Visitor) {
    for stage in [
        Stage::Means,
        Stage::FanWatts,
        Stage::Impacts,
        Stage::FinStreams,
        Stage::Streams,
        Stage::AirSpeeds,
        Stage::Gas,
        Stage::GasHeat,
        Stage::Rest,
    ] {
        visit(stage, v);
    }
}
