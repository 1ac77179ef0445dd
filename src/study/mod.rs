//! Many nights, side by side.

pub mod compare;
pub mod doubts;
pub mod path;
pub mod quantile;
mod recommend;
pub mod sample;
#[cfg(test)]
mod tests;
