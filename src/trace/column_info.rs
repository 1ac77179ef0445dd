//! What each column of a trace is, and what findings need to know of the things behind the columns.

use serde::{Deserialize, Serialize};

/// One column of a trace.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Column {
    /// A name with its unit: `cylL1head_c`.
    pub key: String,
    /// What people call it.
    pub label: String,
    /// What it holds.
    pub kind: ColumnKind,
}

/// What a column holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum ColumnKind {
    /// Temperature of a cell, °C.
    CellTemperature,
    /// Temperature of a pocket of air, °C.
    PocketTemperature,
    /// Vapour density of a pocket, g/m3.
    PocketVapour,
    /// Temperature of the air inside the engine, °C.
    GasTemperature,
    /// Its vapour density, g/m3.
    GasVapour,
    /// Water on an inner wall, g.
    Film,
    /// Water in or under the oil, g.
    OilWater,
    /// Temperature of the hangar air, °C.
    HangarTemperature,
    /// Temperature outdoors, °C.
    OutdoorTemperature,
    /// Energy a heater has drawn since the beginning, J.
    HeaterEnergy,
    /// Heat lost by a path since the beginning, J.
    LostHeat,
    /// Vapour lost to the hangar since the beginning, g.
    LostVapour,
}

/// The ways heat leaves.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LossPath {
    /// Through the cowl skins to the hangar.
    Skins,
    /// With the air through gaps, seams, inlets and outlet.
    Gaps,
    /// In a duct before the bay is reached.
    Duct,
    /// From the propeller.
    Propeller,
    /// Through the firewall to the cabin.
    Firewall,
    /// As latent heat, with the vapour through the breather.
    Breather,
    /// To given surroundings, and out of bare faces to the hangar.
    Surroundings,
}

/// A cell of solid or oil.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct CellInfo {
    /// Its column.
    pub column: usize,
    /// The part it is of.
    pub part: String,
    /// What people call it.
    pub label: String,
    /// Whether it counts for "warm everywhere".
    pub engine: bool,
    /// Whether it is the carburettor.
    pub carburettor: bool,
    /// Whether it is cowl skin.
    pub skin: bool,
    /// Its heat capacity, J/K.
    pub heat_capacity_j_per_k: f64,
    /// The pockets it touches, as indices into [`ColumnInfo::pockets`].
    pub pockets: Vec<usize>,
}

/// A pocket of bay air.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct PocketNote {
    /// Its name.
    pub name: String,
    /// What people call it.
    pub label: String,
    /// The column of its temperature.
    pub temperature: usize,
    /// The column of its vapour density.
    pub vapour: usize,
    /// Its heat capacity, J/K.
    pub heat_capacity_j_per_k: f64,
}

/// The air inside the engine.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct GasNote {
    /// The column of its temperature.
    pub temperature: usize,
    /// The column of its vapour density.
    pub vapour: usize,
    /// The column of the water in the oil, if there is an oil surface.
    pub oil_water: Option<usize>,
    /// The pocket the breather ends in, as an index into [`ColumnInfo::pockets`].
    pub breather_pocket: usize,
    /// Its volume, m3.
    pub volume_m3: f64,
    /// Its heat capacity with that of the light things in it, J/K.
    pub heat_capacity_j_per_k: f64,
}

/// An inner wall.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct WallNote {
    /// The part it is of, or the part with the number of the cell.
    pub name: String,
    /// What people call it.
    pub label: String,
    /// `upper`, `crank`, `accessory` or `lower`.
    pub group: String,
    /// Its area, m2.
    pub area_m2: f64,
    /// The column of its temperature.
    pub temperature: usize,
    /// The column of the water on it.
    pub film: usize,
}

/// A heater.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct HeaterNote {
    /// Its name.
    pub name: String,
    /// Its rated power, W.
    pub rated_w: f64,
    /// The column of the energy it has drawn.
    pub energy: usize,
}

/// Several cells read as one.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ReadingNote {
    /// Its key in machine output.
    pub key: String,
    /// What people call it.
    pub label: String,
    /// Columns and their weights, which sum to one.
    pub columns: Vec<(usize, f64)>,
}

/// A main bearing.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct BearingNote {
    /// What people call it.
    pub label: String,
    /// Columns and weights of the journal.
    pub crank: Vec<(usize, f64)>,
    /// Columns and weights of the case around it.
    pub case: Vec<(usize, f64)>,
    /// Diameter of the journal, m.
    pub diameter_m: f64,
}

/// The oil.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct OilNote {
    /// Columns of its layers, lowest first (equal shares).
    pub layers: Vec<usize>,
}

/// Everything a reader of the trace must know.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub struct ColumnInfo {
    /// The columns, in order.
    pub columns: Vec<Column>,
    /// The cells, in the order in which a tie for the coldest is broken.
    pub cells: Vec<CellInfo>,
    /// The pockets.
    pub pockets: Vec<PocketNote>,
    /// The air inside the engine.
    pub gas: Option<GasNote>,
    /// The inner walls.
    pub walls: Vec<WallNote>,
    /// The column of the hangar's temperature.
    pub hangar: usize,
    /// The column of the temperature outdoors.
    pub outdoors: usize,
    /// The heaters, in the order of the scenario.
    pub heaters: Vec<HeaterNote>,
    /// Watts that are fed in at all times.
    pub fed_w: f64,
    /// The paths by which heat is lost here, and their columns.
    pub losses: Vec<(LossPath, usize)>,
    /// The column of the vapour lost.
    pub lost_vapour: usize,
    /// Groups of parts.
    pub readings: Vec<ReadingNote>,
    /// One reading a cylinder.
    pub cylinders: Vec<ReadingNote>,
    /// Main bearings.
    pub bearings: Vec<BearingNote>,
    /// The oil, if any.
    pub oil: Option<OilNote>,
}
