//! Cold-soaked engines.

pub mod balance;
pub mod cli;
pub mod files;
pub mod findings;
pub mod network;
pub mod night;
pub mod physics;
pub mod quantity;
pub mod report;
pub mod scenario;
pub mod solver;
pub mod study;
pub mod trace;
