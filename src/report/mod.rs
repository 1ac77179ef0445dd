//! What each result says, as data: words and numbers resolved once. Nothing here computes a finding.

pub mod catalogue;
pub mod cautions;
pub mod chance;
mod change;
pub mod check;
mod circuit;
mod columns;
pub mod compare;
pub mod convergence;
mod events;
mod format;
mod heat;
mod improvements;
mod input_names;
mod inputs;
mod limiting;
mod measure_next;
mod model;
pub mod network;
pub mod night;
#[cfg(feature = "pictures")]
pub mod page;
mod parts;
pub mod provenance;
mod ranking;
#[cfg(feature = "pictures")]
mod reading;
pub mod recommend;
pub mod samples;
mod sobol;
pub mod spread;

mod verdict;
mod warning;
pub mod weather;
pub mod when;
mod when_facts;

pub use columns::{Cell, Columns, Head, Show, Table};
pub use model::{Block, Fact, Report, Section};
