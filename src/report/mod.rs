//! Telling it: what nights came to, as tables, sentences, JSON and charts. Nothing here computes a finding.

mod axis;
mod bands_json;
mod bands_text;
mod canvas;
pub mod cautions;
pub mod chart;
pub mod chart_bands;
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
pub mod spread_csv;
pub mod spread_json;
pub mod spread_text;
#[cfg(test)]
mod synthetic;
pub mod table;

pub use canvas::DrawError;
