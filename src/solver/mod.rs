//! The balance carried through time.

mod border;
mod factor;
mod march;
mod method;
mod pace;
mod sampler;
mod steady;
mod step;
mod switching;

pub use factor::{Factor, SingularError};
pub use march::{Effort, Marched, SolveError, march};
pub use steady::{SteadyError, steady};
