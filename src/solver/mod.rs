//! The balance carried through time.

mod attempt;
mod border;
mod breakpoints;
mod error_control;
mod factor;
mod failure;
mod integrate;
mod integrator_state;
mod lanes;
mod method;
mod sampler;
mod solution;
mod stage_sums;
mod steady;
mod step;
mod switching;
mod symbolic;
mod trial_step;

pub use factor::{Factor, SingularError};
pub use failure::SolveError;
pub use integrate::integrate;
pub use lanes::{LaneJob, integrate_lanes};
pub use solution::{Solution, SolverStats};
pub use steady::{SteadyError, steady};
pub use step::{StepError, Stepper};
