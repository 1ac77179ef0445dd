//! Cold-soaked engines.

pub mod physics;
pub mod quantity;
pub mod scenario;
pub mod trace;
