//! Cold-soaked engines.

pub mod physics;
pub mod quantity;
