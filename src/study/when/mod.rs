//! When to switch on: the latest switching-on of each heater for which the engine is ready at the departure.

mod checkpoint;
mod joint;
mod plan;
mod search;
mod single_change;
mod starts;
mod whatif;

pub use checkpoint::Checkpoint;
pub use joint::grid_step;
pub use plan::{Alone, Never, Planned, SCAN_MIN, Verdict, When, when};
pub use search::{Probe, Progress, ProgressCallback, SearchResult};
pub use single_change::{REMEDY_RANKING, SufficientChange, Tried};
pub use starts::{Starts, Switches};
pub use whatif::{Unsolved, WhatIf};
