//! Many nights, side by side.

pub mod case;
pub mod change;
pub mod compare;
pub mod convergence;
pub mod improve;
pub mod latest_start;
pub mod paired;
pub mod path;
pub mod quantile;
pub mod rank;
pub mod refine;
pub mod run;
pub mod sample;
pub mod sample_result;
mod set;
pub mod simulate;
pub mod sobol;
pub mod spread;
pub mod summary;
#[cfg(test)]
mod tests;
pub mod uncertain_inputs;
pub mod when;
