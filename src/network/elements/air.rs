//! Elements of the moving air.

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
