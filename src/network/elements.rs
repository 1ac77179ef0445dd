//! The elements of a network: each one law between a few columns, with its constants.
//!
//! An element only says where it stands and how large it is; the laws themselves are in `balance`.
//! Heat rows count watts into the thing, vapour rows grams a second, mass rows kilograms a second.

use crate::physics::convection::Facing;

/// A constant conductance between two temperatures.
#[derive(Debug, Clone, PartialEq)]
pub struct Link {
    /// The two temperature columns.
    pub temps: [usize; 2],
    /// The two heat rows.
    pub rows: [usize; 2],
    /// Conductance, W/K.
    pub w_per_k: f64,
}

/// A layer of oil over a warmer or colder one.
#[derive(Debug, Clone, PartialEq)]
pub struct OilLink {
    /// Temperature columns: the lower, the upper, the mean of the stack.
    pub temps: [usize; 3],
    /// Heat rows of the lower and the upper.
    pub rows: [usize; 2],
    /// Conductance of the oil at rest, W/K.
    pub w_per_k: f64,
    /// The reference thickness over the distance: a quarter of the depth over the way between the two.
    pub stretch: f64,
    /// Depth of the oil, m.
    pub depth_m: f64,
    /// Constants of the oil's viscosity law.
    pub viscosity: crate::physics::oil::Walther,
}

/// Two surfaces that radiate to each other.
#[derive(Debug, Clone, PartialEq)]
pub struct Radiation {
    /// The two temperature columns.
    pub temps: [usize; 2],
    /// The two heat rows.
    pub rows: [usize; 2],
    /// Exchange area, m2.
    pub area_m2: f64,
}

/// A surface in the bay air.
#[derive(Debug, Clone, PartialEq)]
pub struct Surface {
    /// Columns: cell temperature, pocket temperature, draught.
    pub columns: [usize; 3],
    /// Heat rows of cell and pocket.
    pub rows: [usize; 2],
    /// Area, m2.
    pub area_m2: f64,
    /// Length along the flow, m.
    pub length_m: f64,
    /// Which way it faces.
    pub facing: Facing,
    /// Resistance of the half cell behind it, K/W.
    pub behind_k_per_w: f64,
}

/// Fins that a share of the draught reaches.
#[derive(Debug, Clone, PartialEq)]
pub struct Fins {
    /// Columns: cell temperature, pocket temperature, draught.
    pub columns: [usize; 3],
    /// Heat rows of cell and pocket.
    pub rows: [usize; 2],
    /// Fin area, efficiency counted in, m2.
    pub area_m2: f64,
    /// Length along the flow, m.
    pub length_m: f64,
    /// Share of the draught.
    pub penetration: f64,
}

/// A surface to the hangar: free convection, wind and radiation, under a cover.
#[derive(Debug, Clone, PartialEq)]
pub struct Outdoors {
    /// Columns: cell temperature, hangar temperature, wind.
    pub columns: [usize; 3],
    /// Heat row of the cell, book of the path.
    pub rows: [usize; 2],
    /// Area, m2.
    pub area_m2: f64,
    /// Length along the wind, m.
    pub length_m: f64,
    /// Which way it faces.
    pub facing: Facing,
    /// Emissivity.
    pub emissivity: f64,
    /// Resistance of the cover, m2K/W.
    pub cover_m2k_per_w: f64,
}

/// A surface whose coefficient grows with a power of the difference.
#[derive(Debug, Clone, PartialEq)]
pub struct PowerFace {
    /// The two temperature columns.
    pub temps: [usize; 2],
    /// The two heat rows.
    pub rows: [usize; 2],
    /// Area times coefficient at `at_k`, W/K.
    pub w_per_k: f64,
    /// The difference the coefficient is given for, K.
    pub at_k: f64,
    /// The exponent.
    pub exponent: f64,
    /// Resistance of the half cell behind it, K/W.
    pub behind_k_per_w: f64,
}

/// One level of an opening between two pockets.
#[derive(Debug, Clone, PartialEq)]
pub struct Passage {
    /// Columns: pressures, temperatures and vapours of the two pockets in turn, hangar temperature.
    pub columns: [usize; 7],
    /// Rows: heat, vapour, mass and draught of the two pockets in turn.
    pub rows: [usize; 8],
    /// Area, m2.
    pub area_m2: f64,
    /// Its height over the middle of each pocket, m.
    pub heights_m: [f64; 2],
}

/// One level of an opening to the hangar.
#[derive(Debug, Clone, PartialEq)]
pub struct Gap {
    /// Columns: pressure, temperature and vapour of the pocket, hangar temperature and vapour, wind.
    pub columns: [usize; 6],
    /// Rows: heat, vapour, mass and draught of the pocket, book of heat, book of vapour.
    pub rows: [usize; 6],
    /// Area, m2.
    pub area_m2: f64,
    /// Its height over the middle of the pocket, m.
    pub height_m: f64,
    /// Wind pressure coefficient.
    pub wind_coefficient: f64,
    /// Share of the wind that pumps.
    pub gust: f64,
}

/// A level opening through which air is exchanged both ways.
#[derive(Debug, Clone, PartialEq)]
pub struct Exchange {
    /// Columns: temperature and vapour, below and above in turn: T, T, w, w.
    pub columns: [usize; 4],
    /// Rows: heat, vapour and draught, below and above in turn.
    pub rows: [usize; 6],
    /// Area, m2.
    pub area_m2: f64,
    /// Flow coefficient.
    pub epstein: f64,
    /// Exchange when stable, kg/s.
    pub stable_mix_kg_per_s: f64,
}

/// The stream through the fin passage of one cylinder: an auxiliary unknown.
#[derive(Debug, Clone, PartialEq)]
pub struct FinStream {
    /// Columns: the stream, pressures below and above, temperatures below, above, of the hangar and of the fins.
    pub columns: [usize; 7],
    /// The row that defines the stream.
    pub row: usize,
    /// Laminar flow conductance, kg/s/Pa.
    pub kg_per_s_pa: f64,
    /// Heights of the lower end over the middle of the lower pocket, and of the upper end over that of the upper, m.
    pub heights_m: [f64; 2],
    /// Length of the way, m.
    pub length_m: f64,
}

/// What the fin stream carries.
#[derive(Debug, Clone, PartialEq)]
pub struct FinCarry {
    /// Columns: the stream, temperatures below and above, vapours below and above, hangar temperature, fin temperature.
    pub columns: [usize; 7],
    /// Rows: heat, vapour and mass, below and above in turn.
    pub rows: [usize; 6],
    /// Film coefficient times fin area, W/K.
    pub ha_w_per_k: f64,
}

/// One finned cell's share of the heat that the fin stream takes.
#[derive(Debug, Clone, PartialEq)]
pub struct FinCell {
    /// Columns: the stream, temperatures below and above, cell temperature.
    pub columns: [usize; 4],
    /// Heat row of the cell.
    pub row: usize,
    /// Film coefficient times fin area of the cylinder, W/K.
    pub ha_w_per_k: f64,
    /// The cell's share of that area.
    pub share: f64,
}

/// A term of a linear row.
#[derive(Debug, Clone, PartialEq)]
pub struct Term {
    /// The column.
    pub column: usize,
    /// The row.
    pub row: usize,
    /// The factor.
    pub factor: f64,
}

/// The vapour density of the hangar air: an auxiliary unknown.
#[derive(Debug, Clone, PartialEq)]
pub struct HangarVapour {
    /// Columns: itself, hangar temperature, outdoor temperature, humidity input.
    pub columns: [usize; 4],
    /// The row that defines it.
    pub row: usize,
    /// Whether the humidity input is a dew point over water (°C), not a relative humidity.
    pub dew_point: bool,
}

/// An inner wall with its film.
#[derive(Debug, Clone, PartialEq)]
pub struct WallFilm {
    /// Columns: wall temperature, gas temperature, gas vapour, film.
    pub columns: [usize; 4],
    /// Rows: heat of the wall, heat of the gas, vapour of the gas, film, water of the oil.
    pub rows: [usize; 5],
    /// Area, m2.
    pub area_m2: f64,
    /// Which way it faces.
    pub facing: Facing,
    /// Mass factor.
    pub mass_factor: f64,
    /// Whether what drips off reaches the oil.
    pub drips: bool,
}

/// The surface of the oil.
#[derive(Debug, Clone, PartialEq)]
pub struct OilSurface {
    /// Columns: temperature of the top layer, gas temperature, gas vapour, water in the oil.
    pub columns: [usize; 4],
    /// Rows: heat of the layer, heat of the gas, vapour of the gas, water.
    pub rows: [usize; 4],
    /// Area, m2.
    pub area_m2: f64,
    /// How freely water passes.
    pub oil_film: f64,
}

/// The draught through breather and filler.
#[derive(Debug, Clone, PartialEq)]
pub struct Vent {
    /// Columns: temperatures and vapours, gas and pocket in turn: T, T, w, w.
    pub columns: [usize; 4],
    /// Rows: heat of the gas, heat of the pocket, vapour of the gas, vapour of the pocket, book of latent heat.
    pub rows: [usize; 5],
    /// Steady exchange, m3/s.
    pub steady_m3_per_s: f64,
    /// Diameter of the open filler, m; zero when the cap is on.
    pub filler_m: f64,
    /// Flow coefficient of the filler.
    pub epstein: f64,
}

/// The air inside as it warms and cools, breathing through the breather.
#[derive(Debug, Clone, PartialEq)]
pub struct Breathing {
    /// Columns: heat to the gas, temperatures and vapours of gas and pocket in turn: Q, T, T, w, w.
    pub columns: [usize; 5],
    /// Rows: heat of the gas, heat of the pocket, vapour of the gas, vapour of the pocket, book of latent heat.
    pub rows: [usize; 5],
    /// Heat capacity of the gas and what goes with it, J/K.
    pub capacity_j_per_k: f64,
    /// Volume, m3.
    pub volume_m3: f64,
}

/// A linear term that counts only while a heater is on.
#[derive(Debug, Clone, PartialEq)]
pub struct HeaterTerm {
    /// The heater.
    pub heater: usize,
    /// The term.
    pub term: Term,
}

/// A constant that counts only while a heater is on.
#[derive(Debug, Clone, PartialEq)]
pub struct HeaterConstant {
    /// The heater.
    pub heater: usize,
    /// The row.
    pub row: usize,
    /// What is added to it.
    pub value: f64,
}

/// Vapour carried along by a forced stream.
#[derive(Debug, Clone, PartialEq)]
pub struct HeaterVapour {
    /// The heater.
    pub heater: usize,
    /// Columns: temperature and vapour where it comes from.
    pub columns: [usize; 2],
    /// Rows: vapour where it comes from (or the book of vapour lost, negative), vapour where it goes.
    pub rows: [usize; 2],
    /// The stream, kg/s.
    pub kg_per_s: f64,
}

/// The watts of a fan heater: an auxiliary unknown, for its element may limit itself.
#[derive(Debug, Clone, PartialEq)]
pub struct FanWatts {
    /// Columns: the watts, the intake temperature.
    pub columns: [usize; 2],
    /// The row that defines the watts.
    pub row: usize,
    /// Rated power, W.
    pub rated_w: f64,
    /// Air through the element times its heat capacity, W/K.
    pub flow_w_per_k: f64,
    /// Temperatures between which the element falls from full to none, °C.
    pub limits_c: Option<[f64; 2]>,
}

/// A bonded element's share on one cell.
#[derive(Debug, Clone, PartialEq)]
pub struct Bonded {
    /// The heater.
    pub heater: usize,
    /// Temperature column of the cell.
    pub column: usize,
    /// Heat row of the cell, book of energy drawn.
    pub rows: [usize; 2],
    /// Rated power on this cell, W.
    pub rated_w: f64,
    /// Temperatures between which the element falls from full to none, °C.
    pub limits_c: Option<[f64; 2]>,
}
