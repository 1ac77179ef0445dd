//! The gate: names resolve and numbers are sane, or every problem is told at once.

mod air;
mod body;
mod gate;
mod heaters;
mod horizon;
mod hours;
mod joints;
mod layout;
mod names;
mod problem;
mod surroundings;
mod unit;
mod way_out;
mod weather;

pub use gate::{CheckedScenario, check};
pub use problem::{Problem, nearest};

#[cfg(test)]
mod tests;
