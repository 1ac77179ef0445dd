//! The laws of a network, a list for each kind.

use super::air::{Exchange, Gap, HangarVapour, Passage};
use super::element::Element;
use super::fin_air::{FinCarry, FinCell, FinStream};
use super::heater::{Bonded, FanWatts, HeaterConstant, HeaterTerm, HeaterVapour};
use super::moisture::{Breathing, OilSurface, Vent, WallFilm};
use super::oil::OilLink;
use super::radiation::Radiation;
use super::solid::{Feed, Link, PowerFace, Term};
use super::surface::{Fins, Outdoors, Surface};

/// All laws, a list a kind.
#[derive(Debug, Clone, PartialEq, Default)]
#[allow(missing_docs)]
pub struct Laws {
    pub means: Vec<Term>,
    pub hangar_vapour: Vec<Element<HangarVapour, 4, 1>>,
    pub fan_watts: Vec<Element<FanWatts, 2, 1>>,
    pub impacts: Vec<Term>,
    pub fin_streams: Vec<Element<FinStream, 7, 1>>,
    pub passages: Vec<Element<Passage, 7, 8>>,
    pub gaps: Vec<Element<Gap, 6, 6>>,
    pub exchanges: Vec<Element<Exchange, 4, 6>>,
    pub fin_carries: Vec<Element<FinCarry, 7, 6>>,
    pub fin_cells: Vec<Element<FinCell, 4, 1>>,
    pub heater_terms: Vec<Element<HeaterTerm, 1, 1>>,
    pub heater_constants: Vec<Element<HeaterConstant, 0, 1>>,
    pub heater_vapours: Vec<Element<HeaterVapour, 2, 2>>,
    /// What defines air speeds, and pinned pressures.
    pub air_speeds: Vec<Term>,
    pub wall_films: Vec<Element<WallFilm, 4, 5>>,
    pub oil_surfaces: Vec<Element<OilSurface, 4, 4>>,
    pub vents: Vec<Element<Vent, 4, 5>>,
    pub gas_heat: Vec<Term>,
    pub breathings: Vec<Element<Breathing, 5, 5>>,
    pub links: Vec<Element<Link, 2, 2>>,
    pub oil_links: Vec<Element<OilLink, 3, 2>>,
    pub radiations: Vec<Element<Radiation, 2, 2>>,
    pub surfaces: Vec<Element<Surface, 3, 2>>,
    pub fins: Vec<Element<Fins, 3, 2>>,
    pub outdoors: Vec<Element<Outdoors, 3, 2>>,
    pub power_faces: Vec<Element<PowerFace, 2, 2>>,
    pub bonded: Vec<Element<Bonded, 1, 2>>,
    pub feeds: Vec<Element<Feed, 0, 1>>,
}
