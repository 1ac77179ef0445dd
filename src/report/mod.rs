//! Telling it: what nights came to, as tables, sentences, JSON and charts. Nothing here computes a finding.

mod axis;
mod canvas;
pub mod cautions;
pub mod chart;
pub mod chart_comparison;
mod clip;
pub mod comparison_text;
pub mod json;
mod names;
pub mod night_text;
mod parts_table;
mod phrase;
mod plot;
#[cfg(feature = "png")]
pub mod png;
#[cfg(test)]
mod synthetic;
pub mod table;
pub mod weather;

pub use canvas::DrawError;
