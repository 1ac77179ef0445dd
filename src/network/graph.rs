//! The network of a night: its numbering, capacities, elements, inputs and legend.

use super::elements::{
    Bonded, Breathing, Exchange, FanWatts, FinCarry, FinCell, FinStream, Fins, Gap, HangarVapour,
    HeaterConstant, HeaterTerm, HeaterVapour, Link, OilLink, OilSurface, Outdoors, Passage,
    PowerFace, Radiation, Surface, Term, Vent, WallFilm,
};
use super::index::Index;
use super::surroundings::Curve;
use crate::trace::ColumnInfo;

/// Everything a night is marched with.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Network {
    /// The numbering.
    pub index: Index,
    /// What divides each state's row: J/K for temperatures, m3 for vapours, 1 for water; 1/s for the hangar is in its row.
    pub capacities: Vec<f64>,
    /// The state at the beginning.
    pub initial: Vec<f64>,
    /// The laws.
    pub laws: Laws,
    /// The pockets.
    pub pockets: Vec<PocketColumns>,
    /// Auxiliary columns in the order they are found.
    pub auxiliaries: Auxiliaries,
    /// Inputs over time, in the order of their columns.
    pub inputs: Vec<Curve>,
    /// Heaters: when they may be on, and what switches them.
    pub heaters: Vec<HeaterSwitch>,
    /// Watts fed at all times.
    pub fed_w: f64,
    /// What each column of the trace is.
    pub legend: ColumnInfo,
    /// The span of the night, and the departure in it, s.
    pub end_s: f64,
    /// The departure, s.
    pub departure_s: f64,
}

/// The columns of one pocket's auxiliary unknowns.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PocketColumns {
    /// Its pressure.
    pub pressure: usize,
    /// Its draught.
    pub draught: usize,
    /// Kilograms a second for each metre a second of draught: 1.25 times the flow section.
    pub draught_scale: f64,
    /// Whether its pressure is pinned, since its air has no way to the hangar.
    pub pinned: bool,
}

/// Auxiliary columns by the order in which they are found from the states.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Auxiliaries {
    /// Means and the hangar's vapour: their rows are linear in themselves with factor −1.
    pub means: Vec<usize>,
    /// Watts of fan heaters.
    pub watts: Vec<usize>,
    /// Temperatures that struck things feel.
    pub impacts: Vec<usize>,
    /// Streams through fin passages.
    pub fin_streams: Vec<usize>,
    /// Heat to the air inside.
    pub gas_heat: Option<usize>,
}

/// All laws, a list a kind.
#[derive(Debug, Clone, PartialEq, Default)]
#[allow(missing_docs)]
pub struct Laws {
    pub means: Vec<Term>,
    pub hangar_vapour: Vec<HangarVapour>,
    pub fan_watts: Vec<FanWatts>,
    pub impacts: Vec<Term>,
    pub fin_streams: Vec<FinStream>,
    pub passages: Vec<Passage>,
    pub gaps: Vec<Gap>,
    pub exchanges: Vec<Exchange>,
    pub fin_carries: Vec<FinCarry>,
    pub fin_cells: Vec<FinCell>,
    pub heater_terms: Vec<HeaterTerm>,
    pub heater_constants: Vec<HeaterConstant>,
    pub heater_vapours: Vec<HeaterVapour>,
    /// What defines draughts, and pinned pressures.
    pub draughts: Vec<Term>,
    pub wall_films: Vec<WallFilm>,
    pub oil_surfaces: Vec<OilSurface>,
    pub vents: Vec<Vent>,
    pub gas_heat: Vec<Term>,
    pub breathings: Vec<Breathing>,
    pub links: Vec<Link>,
    pub oil_links: Vec<OilLink>,
    pub radiations: Vec<Radiation>,
    pub surfaces: Vec<Surface>,
    pub fins: Vec<Fins>,
    pub outdoors: Vec<Outdoors>,
    pub power_faces: Vec<PowerFace>,
    pub bonded: Vec<Bonded>,
    pub feeds: Vec<(usize, f64)>,
}

impl Network {
    /// Whether an unknown touches so many others that it is left for last when the matrix is solved: the air and its
    /// pressures, the water that goes with it, the hangar. Cells and films touch few; the other auxiliary unknowns are
    /// each given by a row of their own.
    pub fn in_border(&self, unknown: usize) -> bool {
        let ix = &self.index;
        (ix.sparse()..ix.states()).contains(&unknown)
            || self.pockets.iter().any(|p| p.pressure == unknown)
    }
    /// The row of a pocket's mass balance; a pinned pocket has none.
    pub fn mass_row(&self, pocket: usize) -> usize {
        if self.pockets[pocket].pinned {
            self.index.unused_row()
        } else {
            self.pockets[pocket].pressure
        }
    }
}

/// When a heater may be on, and what its thermostat feels.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct HeaterSwitch {
    /// Spans of seconds during which it is plugged in.
    pub spans: Vec<(f64, f64)>,
    /// Columns and weights of the sensor, and the two temperatures in °C.
    pub thermostat: Option<Sensor>,
}

/// A thermostat's sensor.
#[derive(Debug, Clone, PartialEq)]
pub struct Sensor {
    /// Columns and weights.
    pub columns: Vec<(usize, f64)>,
    /// On again at or below this, °C.
    pub lo_c: f64,
    /// Off at or above this, °C.
    pub hi_c: f64,
}
