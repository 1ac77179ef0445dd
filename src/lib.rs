//! Cold-soaked engines.

pub mod findings;
pub mod physics;
pub mod quantity;
pub mod scenario;
pub mod trace;
