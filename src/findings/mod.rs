//! The trace of a night, questioned: when was it warm, where was it coldest, where did water settle, what did
//! it cost. A finding follows from the [`Trace`](crate::trace::Trace) alone, so a saved night can be evaluated again.

mod answer;
mod circuit;
mod circuit_warnings;
mod clearance;
mod coldest;
mod condensation;
mod cord;
mod cylinder_spread;
mod dew;
mod dew_course;
mod energy;
mod events;
mod heat_course;
mod loads;
mod losses;
mod oil;
mod parts;
mod ranking;
mod readings;
mod ready;
mod spans;
mod steady;
mod threshold;
mod warning_rules;
mod warnings;

pub use answer::{Findings, LedgerFinding, answer};
pub use circuit::{CONTINUOUS_SHARE, CircuitFinding, HeaterCurrent};
pub use clearance::{ClearanceFinding, REFERENCE_C};
pub use coldest::Coldest;
pub use condensation::{
    Condensation, GroupGrams, NoCondensation, Onset, TRACE_FILM_G_PER_M2, WallFinding,
};
pub use cord::{CordFinding, DROP_WORTH_A_WORD};
pub use cylinder_spread::Unevenness;
pub use dew::SurfaceCondensation;
pub use dew_course::{DewMarginSeries, WallGroupCourse};
pub use energy::{EnergyFinding, HeaterEnergy};
pub use events::{Event, EventKind};
pub use heat_course::{HeatFlowSeries, mean_over};
pub use losses::PathLoss;
pub use oil::{OilFinding, OilRange};
pub use parts::PartFinding;
pub use ranking::{RANKING_KEY, RankKey, rank_key};
pub use readings::GroupTemperature;
pub use ready::{Ready, SMALL_MARGIN_K, Unmet};
pub use steady::Steady;
pub use threshold::{CrossingTime, CrossingTimes, NotReached, ReadingReach, ThresholdFinding};
pub use warnings::{HOT_C, Hazard, Warning, forbidding, hazards};
