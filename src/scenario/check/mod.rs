//! What no single key can say: names resolve, heat and air can pass, shares sum to one. All problems are reported at once.

mod air;
mod body;
mod heaters;
mod hours;
mod joints;
mod layout;
mod names;
mod outlet_path;
mod problem;
mod simulated_time;
mod surroundings;
mod validate;
mod weather;

pub use crate::document::names::nearest;
pub use problem::Problem;
pub use validate::{CheckedScenario, check};

#[cfg(test)]
mod tests;
