//! The balance carried through time.

mod abreast;
mod attempt;
mod border;
mod factor;
mod failure;
mod fill;
mod march;
mod marched;
mod method;
mod pace;
mod sampler;
mod steady;
mod step;
mod stops;
mod sums;
mod switching;
mod tried;
mod walk;

pub use abreast::{Wanted, march_abreast};
pub use factor::{Factor, SingularError};
pub use failure::SolveError;
pub use march::march;
pub use marched::{Effort, Marched};
pub use steady::{SteadyError, steady};
pub use step::{StepError, Stepper};
