//! The network of a night: its numbering, capacities, elements, inputs and legend.

use super::index::Index;
use super::surroundings::Curve;
use crate::laws::Laws;
use crate::trace::ColumnInfo;

/// Everything a night is integrated with.
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
    /// Its air_speed.
    pub air_speed: usize,
    /// Kilograms a second for each metre a second of air_speed: 1.25 times the flow section.
    pub air_speed_scale: f64,
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
