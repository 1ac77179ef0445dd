//! Telling it: what nights came to, as tables, sentences, JSON and pages. Nothing here computes a finding.

mod asked;
mod bands_json;
mod bands_text;
pub mod cautions;
mod change_text;
pub mod circuit_text;
mod columns;
pub mod comparison_text;
mod events_text;
mod format;
pub mod json;
mod model;
pub mod network_table;
pub mod night_text;
pub mod page;
mod parts_table;
pub mod provenance;
mod readiness;
mod reading;
pub mod refine_json;
pub mod refine_text;
mod shares_text;
mod spread_advice;
pub mod spread_csv;
pub mod spread_json;
pub mod spread_text;
pub mod table;
mod unknown_words;
mod verdict_text;
pub mod weather;
pub mod when_json;
pub mod when_text;

pub use columns::{Cell, Columns, Head, Show, Table};
pub use model::{Block, Fact, Figure, Report, Section};
