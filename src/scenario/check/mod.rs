//! The gate: names resolve and numbers are sane, or every problem is told at once.

mod air;
mod body;
mod heaters;
mod horizon;
mod hours;
mod joints;
mod layout;
mod names;
mod outlet_path;
mod problem;
mod surroundings;
mod unit;
mod validate;
mod weather;

pub use crate::document::names::nearest;
pub use problem::Problem;
pub use validate::{CheckedScenario, check};

#[cfg(test)]
mod tests;
