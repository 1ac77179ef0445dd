//! When to switch on: the latest switching-on of each heater for which the engine is ready at the departure.

mod checkpoint;
mod joint;
mod least_change;
mod plan;
mod search;
mod starts;
mod whatif;

pub use checkpoint::Checkpoint;
pub use joint::grid_step;
pub use least_change::{REMEDY_RANKING, Remedy, Tried, candidates};
pub use plan::{Alone, Never, Planned, SCAN_MIN, Verdict, When, when};
pub use search::{Probe, Progress, Sought, Teller, least};
pub use starts::{Starts, Switches};
pub use whatif::{Unsolved, WhatIf};
