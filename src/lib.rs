//! Cold-soaked engines.

pub mod physics;
