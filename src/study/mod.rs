//! Many nights, side by side.

pub mod change;
pub mod choice;
pub mod compare;
pub mod doubts;
pub mod harvest;
pub mod moves;
pub mod paired;
pub mod path;
pub mod quantile;
mod recommend;
pub mod refine;
pub mod sample;
pub mod side_by_side;
pub mod sobol;
pub mod spread;
pub mod summary;
#[cfg(test)]
mod tests;
pub mod when;
