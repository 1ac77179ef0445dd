//! Cold-soaked engines.

pub mod balance;
pub mod network;
pub mod physics;
pub mod quantity;
pub mod scenario;
pub mod solver;
pub mod trace;
