//! Where things stand in the network, and the making of nine of a kind.

use crate::network::Index;

/// How many of each kind.
const COUNT: usize = 9;

/// Where things stand in the network.
pub struct Places(pub Index);

impl Places {
    pub fn cell(&self, n: usize) -> usize {
        self.0.cell(n % self.0.cells)
    }
    pub fn air(&self, n: usize) -> usize {
        self.0.pocket(n % self.0.pockets)
    }
    pub fn vapour(&self, n: usize) -> usize {
        self.0.vapour(n % self.0.pockets)
    }
    pub fn film(&self, n: usize) -> usize {
        self.0.film(n % self.0.films)
    }
    pub fn pressure(&self, n: usize) -> usize {
        self.0.auxiliary(n % 3)
    }
    pub fn air_speed(&self, n: usize) -> usize {
        self.0.auxiliary(3 + n % 3)
    }
    pub fn book(&self, n: usize) -> usize {
        self.0.book(n % self.0.books)
    }
    pub fn mean(&self) -> usize {
        self.0.auxiliary(6)
    }
    pub fn watts(&self) -> usize {
        self.0.auxiliary(7)
    }
    pub fn impact(&self) -> usize {
        self.0.auxiliary(8)
    }
    pub fn stream(&self) -> usize {
        self.0.auxiliary(9)
    }
    pub fn heat(&self) -> usize {
        self.0.auxiliary(10)
    }
    pub fn hangar_vapour(&self) -> usize {
        self.0.auxiliary(11)
    }
}

/// Each kind nine times.
pub fn each<L>(make: impl Fn(usize, f64) -> L, more: f64) -> Vec<L> {
    (0..COUNT)
        .map(|n| make(n, more * (1.0 + 0.1 * n as f64)))
        .collect()
}
