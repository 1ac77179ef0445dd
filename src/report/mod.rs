//! Telling it: what nights came to, as tables, sentences, JSON and charts. Nothing here computes a finding.

mod axis;
mod canvas;
pub mod chart;
pub mod chart_comparison;
mod clip;
mod plot;
#[cfg(feature = "png")]
pub mod png;
#[cfg(test)]
mod synthetic;

pub use canvas::DrawError;
