//! When to switch on: the latest start of the heaters at which the chance is what is required, and what it rests on.

mod checkpoint;
mod joint;
mod later;
mod nominal;
mod plan;
mod search;
mod starts;
mod thermometer;

pub use checkpoint::Checkpoint;
pub use later::Later;
pub use nominal::{Nominal, SCAN_MIN, nominal};
pub use plan::{When, WhenOptions, when};
pub use search::{Probe, Search, SearchResult};
pub use starts::{Starts, Switches};
pub use thermometer::{Rule, Thermometer};
