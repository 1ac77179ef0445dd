//! The balance carried through time.

mod border;
mod factor;
mod failure;
mod march;
mod method;
mod pace;
mod sampler;
mod steady;
mod step;
mod switching;

pub use factor::{Factor, SingularError};
pub use failure::SolveError;
pub use march::{Effort, Marched, march};
pub use steady::{SteadyError, steady};
