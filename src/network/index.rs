//! Where each unknown stands in the vector of all unknowns, and each balance in the vector of all rows.
//!
//! Columns: the states (cells, films, pocket temperatures, pocket vapours, gas temperature and vapour,
//! oil water, hangar temperature), then the auxiliary unknowns that follow from them at once (means,
//! fin streams, fan temperatures, pressures, air speeds ...), then the given inputs (outdoors, humidity,
//! wind, surroundings). Rows: one for each state, one for each auxiliary, then the books
//! (energy drawn, heat and vapour lost), then one row that nobody reads.

/// The numbering of unknowns and rows.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Index {
    /// Cells of solid and oil.
    pub cells: usize,
    /// Walls that hold a film of water.
    pub films: usize,
    /// Pockets of air.
    pub pockets: usize,
    /// Whether there is air inside the engine.
    pub gas: bool,
    /// Whether there is an oil surface with water under it.
    pub oil_water: bool,
    /// Auxiliary unknowns.
    pub auxiliaries: usize,
    /// Given inputs.
    pub inputs: usize,
    /// Rows of the books.
    pub books: usize,
}

impl Index {
    /// Column and row of a cell's temperature.
    pub fn cell(&self, cell: usize) -> usize {
        cell
    }
    /// Column and row of a film.
    pub fn film(&self, wall: usize) -> usize {
        self.cells + wall
    }
    /// The number of cells and films, which touch only few other unknowns.
    pub fn sparse(&self) -> usize {
        self.cells + self.films
    }
    /// Column and row of a pocket's temperature.
    pub fn pocket(&self, pocket: usize) -> usize {
        self.sparse() + pocket
    }
    /// Column and row of a pocket's vapour density.
    pub fn vapour(&self, pocket: usize) -> usize {
        self.sparse() + self.pockets + pocket
    }
    /// Column and row of the temperature of the air inside.
    pub fn gas_temperature(&self) -> usize {
        self.sparse() + 2 * self.pockets
    }
    /// Column and row of its vapour density.
    pub fn gas_vapour(&self) -> usize {
        self.gas_temperature() + 1
    }
    /// Column and row of the water in the oil.
    pub fn oil_water(&self) -> usize {
        self.gas_temperature() + if self.gas { 2 } else { 0 }
    }
    /// Column and row of the hangar's temperature.
    pub fn hangar(&self) -> usize {
        self.oil_water() + usize::from(self.oil_water)
    }
    /// The number of states.
    pub fn states(&self) -> usize {
        self.hangar() + 1
    }
    /// Column and row of an auxiliary unknown.
    pub fn auxiliary(&self, which: usize) -> usize {
        self.states() + which
    }
    /// The number of uncertain: states and auxiliaries.
    pub fn unknowns(&self) -> usize {
        self.states() + self.auxiliaries
    }
    /// Column of an input.
    pub fn input(&self, which: usize) -> usize {
        self.unknowns() + which
    }
    /// The number of columns.
    pub fn columns(&self) -> usize {
        self.unknowns() + self.inputs
    }
    /// Row of a book.
    pub fn book(&self, which: usize) -> usize {
        self.unknowns() + which
    }
    /// The row that nobody reads.
    pub fn unused_row(&self) -> usize {
        self.unknowns() + self.books
    }
    /// The number of rows, the unread one included.
    pub fn rows(&self) -> usize {
        self.unused_row() + 1
    }
}
